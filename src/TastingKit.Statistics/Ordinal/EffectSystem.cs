namespace TastingKit.Statistics;

/// <summary>
/// The matrix I + Σ_i d_i q_i q_i′ over all standardised random effects, where q_i holds what a row's location takes of
/// each effect. The term of most levels is eliminated first, since its block is diagonal; the others' is dense.
/// </summary>
internal sealed class EffectSystem
{
    private readonly OrdinalTerm[] _terms;
    private readonly int _main;
    private readonly int _mainCount;
    private readonly double[] _diagonal;
    private readonly double[,] _cross;
    private readonly double[,] _rest;
    private double[,]? _restInverse;
    private double[,]? _crossInverse;

    public EffectSystem(OrdinalTerm[] terms)
    {
        _terms = terms;
        _main = 0;
        for (int t = 1; t < terms.Length; t++)
        {
            _main = terms[t].Group.Levels.Count > terms[_main].Group.Levels.Count ? t : _main;
        }

        Offsets = new int[terms.Length];
        _mainCount = terms[_main].Group.Levels.Count;
        int offset = _mainCount;
        for (int t = 0; t < terms.Length; t++)
        {
            if (t != _main)
            {
                Offsets[t] = offset;
                offset += terms[t].Group.Levels.Count;
            }
        }

        Count = offset;
        _diagonal = new double[_mainCount];
        _rest = new double[Count - _mainCount, Count - _mainCount];
        _cross = new double[_mainCount, Count - _mainCount];
    }

    /// <summary>The number of effects.</summary>
    public int Count { get; }

    /// <summary>Where each term's effects start.</summary>
    public int[] Offsets { get; }

    /// <summary>Builds and factors the matrix.</summary>
    /// <param name="weights">The number d_i of each row.</param>
    /// <param name="deviations">The standard deviation of each term.</param>
    public void Factor(double[] weights, ReadOnlySpan<double> deviations)
    {
        Array.Fill(_diagonal, 1.0);
        Array.Clear(_cross);
        Array.Clear(_rest);
        _restInverse = null;
        for (int i = 0; i < Count - _mainCount; i++)
        {
            _rest[i, i] = 1.0;
        }

        int[] mainCodes = _terms[_main].Group.CodeArray;
        for (int row = 0; row < weights.Length; row++)
        {
            double q = Share(_main, row, deviations);
            int level = mainCodes[row];
            _diagonal[level] += weights[row] * q * q;
            for (int t = 0; t < _terms.Length; t++)
            {
                if (t == _main)
                {
                    continue;
                }

                double share = weights[row] * Share(t, row, deviations);
                int column = Index(t, row) - _mainCount;
                _cross[level, column] += share * q;
                for (int s = 0; s < _terms.Length; s++)
                {
                    if (s != _main)
                    {
                        _rest[column, Index(s, row) - _mainCount] += share * Share(s, row, deviations);
                    }
                }
            }
        }

        Eliminate();
    }

    /// <summary>What a row's location takes of its effect of a term.</summary>
    public double Share(int term, int row, ReadOnlySpan<double> deviations) =>
        _terms[term].Multiplier is { } multiplier ? deviations[term] * multiplier[row] : deviations[term];

    /// <summary>The index of a row's effect of a term.</summary>
    public int Index(int term, int row) => Offsets[term] + _terms[term].Group.CodeArray[row];

    public double LogDeterminant()
    {
        double sum = 0.0;
        foreach (double d in _diagonal)
        {
            sum += PortableMath.Log(d);
        }

        for (int i = 0; i < Count - _mainCount; i++)
        {
            sum += 2.0 * PortableMath.Log(_rest[i, i]);
        }

        return sum;
    }

    /// <summary>Solves for a right-hand side in place.</summary>
    public void Solve(Span<double> x)
    {
        var rest = x[_mainCount..];
        for (int level = 0; level < _mainCount; level++)
        {
            double scaled = x[level] / _diagonal[level];
            for (int j = 0; j < rest.Length; j++)
            {
                rest[j] -= _cross[level, j] * scaled;
            }
        }

        SmallMatrix.SolveFactored(_rest, rest);
        for (int level = 0; level < _mainCount; level++)
        {
            double sum = x[level];
            for (int j = 0; j < rest.Length; j++)
            {
                sum -= _cross[level, j] * rest[j];
            }

            x[level] = sum / _diagonal[level];
        }
    }

    /// <summary>An entry of the inverse; both effects belong to one row, or are the same.</summary>
    public double Inverse(int first, int second)
    {
        if (_terms.Length == 1)
        {
            return 1.0 / _diagonal[first];
        }

        EnsureInverse();
        if (first >= _mainCount && second >= _mainCount)
        {
            return _restInverse![first - _mainCount, second - _mainCount];
        }

        if (first >= _mainCount || second >= _mainCount)
        {
            return -_crossInverse![Math.Min(first, second), Math.Max(first, second) - _mainCount];
        }

        double sum = 1.0;
        for (int j = 0; j < Count - _mainCount; j++)
        {
            sum += _crossInverse![first, j] * _cross[first, j];
        }

        return sum / _diagonal[first];
    }

    private void Eliminate()
    {
        int size = Count - _mainCount;
        if (size == 0)
        {
            return;
        }

        var columns = new List<int>(size);
        for (int level = 0; level < _mainCount; level++)
        {
            columns.Clear();
            for (int j = 0; j < size; j++)
            {
                if (_cross[level, j] != 0.0)
                {
                    columns.Add(j);
                }
            }

            foreach (int i in columns)
            {
                double scaled = _cross[level, i] / _diagonal[level];
                foreach (int j in columns)
                {
                    _rest[i, j] -= scaled * _cross[level, j];
                }
            }
        }

        if (!SmallMatrix.TryFactor(_rest))
        {
            throw new ModelException("The information of the random effects is not positive definite; the random terms or the covariates of their slopes are beyond the range of numbers.");
        }
    }

    private void EnsureInverse()
    {
        if (_restInverse is not null)
        {
            return;
        }

        int size = Count - _mainCount;
        var inverse = new double[size, size];
        var column = new double[size];
        for (int i = 0; i < size; i++)
        {
            Array.Clear(column);
            column[i] = 1.0;
            SmallMatrix.SolveFactored(_rest, column);
            for (int j = 0; j < size; j++)
            {
                inverse[j, i] = column[j];
            }
        }

        // D⁻¹ C S⁻¹, whose negative is the inverse's block between the main term and the rest.
        var cross = SmallMatrix.Times(_cross, inverse);
        for (int level = 0; level < _mainCount; level++)
        {
            for (int j = 0; j < size; j++)
            {
                cross[level, j] /= _diagonal[level];
            }
        }

        _crossInverse = cross;
        _restInverse = inverse;
    }
}
