namespace TastingKit.Statistics;

/// <summary>
/// The matrix I + Σ_i d_i q_i q_i′ over all standardised random effects, where q_i holds what a row's location takes of
/// each effect. The term of most levels is eliminated first, since its block is diagonal; of what is left only the entries are
/// kept that some level joins, and those that the factor fills.
/// </summary>
internal sealed class EffectSystem
{
    private readonly OrdinalTerm[] _terms;
    private readonly int _main;
    private readonly int _mainCount;
    private readonly double[] _diagonal;
    private readonly EnvelopeCholesky _rest;

    // For each level of the main term the effects of the others that its rows have, in order, and what stands between them and the level.
    private readonly int[][] _columns;
    private readonly double[][] _cross;

    // Where in these a row's effect of each term stands.
    private readonly int[] _positions;
    private bool _isInverted;

    public EffectSystem(OrdinalTerm[] terms)
    {
        _terms = terms;
        // Those of most levels come first, so that few rows of what is left reach far back.
        int[] order = [.. Enumerable.Range(0, terms.Length).OrderByDescending(t => terms[t].Group.Levels.Count)];
        _main = order[0];
        _mainCount = terms[_main].Group.Levels.Count;
        Offsets = new int[terms.Length];
        int offset = 0;
        foreach (int t in order)
        {
            Offsets[t] = offset;
            offset += terms[t].Group.Levels.Count;
        }

        Count = offset;
        _diagonal = new double[_mainCount];
        int[] mainCodes = terms[_main].Group.CodeArray;
        var columns = new SortedSet<int>[_mainCount];
        int[] first = [.. Enumerable.Range(0, Count - _mainCount)];
        for (int level = 0; level < _mainCount; level++)
        {
            columns[level] = [];
        }

        for (int row = 0; row < mainCodes.Length; row++)
        {
            columns[mainCodes[row]].UnionWith(order.Skip(1).Select(t => Index(t, row) - _mainCount));
        }

        _columns = Array.ConvertAll(columns, set => set.ToArray());
        _cross = Array.ConvertAll(_columns, set => new double[set.Length]);
        foreach (int[] set in _columns)
        {
            foreach (int column in set)
            {
                first[column] = Math.Min(first[column], set[0]);
            }
        }

        _rest = new EnvelopeCholesky(first);
        _positions = new int[mainCodes.Length * terms.Length];
        for (int row = 0; row < mainCodes.Length; row++)
        {
            for (int t = 0; t < terms.Length; t++)
            {
                _positions[row * terms.Length + t] = t == _main ? -1 : Array.BinarySearch(_columns[mainCodes[row]], Index(t, row) - _mainCount);
            }
        }
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
        foreach (double[] level in _cross)
        {
            Array.Clear(level);
        }

        _rest.Clear();
        _isInverted = false;
        for (int i = 0; i < _rest.Order; i++)
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
                _cross[level][_positions[row * _terms.Length + t]] += share * q;
                for (int s = 0; s < _terms.Length; s++)
                {
                    if (s != _main && Index(s, row) - _mainCount is var other && other <= column)
                    {
                        _rest[column, other] += share * Share(s, row, deviations);
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

        for (int i = 0; i < _rest.Order; i++)
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
            int[] columns = _columns[level];
            for (int j = 0; j < columns.Length; j++)
            {
                rest[columns[j]] -= _cross[level][j] * scaled;
            }
        }

        _rest.Solve(rest);
        for (int level = 0; level < _mainCount; level++)
        {
            double sum = x[level];
            int[] columns = _columns[level];
            for (int j = 0; j < columns.Length; j++)
            {
                sum -= _cross[level][j] * rest[columns[j]];
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

        if (!_isInverted)
        {
            _rest.Invert();
            _isInverted = true;
        }

        int level = Math.Min(first, second);
        int other = Math.Max(first, second) - _mainCount;
        if (level >= _mainCount)
        {
            return _rest.Inverse(level - _mainCount, other);
        }

        return other >= 0 ? -CrossInverse(level, other) : (1.0 + CrossCovariance(level)) / _diagonal[level];
    }

    // An entry of D⁻¹ C S⁻¹, whose negative is the inverse's block between the main term and the rest.
    private double CrossInverse(int level, int column)
    {
        double sum = 0.0;
        int[] columns = _columns[level];
        for (int k = 0; k < columns.Length; k++)
        {
            sum += _cross[level][k] * _rest.Inverse(columns[k], column);
        }

        return sum / _diagonal[level];
    }

    private double CrossCovariance(int level)
    {
        double sum = 0.0;
        int[] columns = _columns[level];
        for (int k = 0; k < columns.Length; k++)
        {
            sum += _cross[level][k] * CrossInverse(level, columns[k]);
        }

        return sum;
    }

    private void Eliminate()
    {
        for (int level = 0; level < _mainCount; level++)
        {
            int[] columns = _columns[level];
            double[] cross = _cross[level];
            for (int i = 0; i < columns.Length; i++)
            {
                double scaled = cross[i] / _diagonal[level];
                for (int j = 0; j <= i; j++)
                {
                    _rest[columns[i], columns[j]] -= scaled * cross[j];
                }
            }
        }

        if (!_rest.TryFactor())
        {
            throw new ModelException("The information of the random effects is not positive definite; the random terms or the covariates of their slopes are beyond the range of numbers.");
        }
    }
}
