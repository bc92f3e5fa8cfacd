namespace TastingKit.Statistics;

/// <summary>
/// A symmetric positive definite matrix of which each row is kept from its first entry to the diagonal, its Cholesky factor, which has the same rows,
/// and the entries of its inverse in them.
/// </summary>
/// <remarks>
/// The factor fills nothing before a row's first entry (George and Liu 1981, Computer Solution of Large Sparse Positive Definite Systems, chapter 4), and
/// the entries of the inverse within the rows need no others (Takahashi, Fagan and Chin 1973; Erisman and Tinney 1975, Communications of the ACM 18, 177).
/// </remarks>
internal sealed class EnvelopeCholesky
{
    private readonly int[] _first;
    private readonly double[][] _rows;
    private readonly double[][] _inverse;

    // For each column the rows below the diagonal that reach back to it.
    private readonly int[][] _below;

    /// <summary>A matrix of zeros.</summary>
    /// <param name="first">For each row the column of its first entry, at most that of the diagonal.</param>
    public EnvelopeCholesky(int[] first)
    {
        _first = first;
        _rows = [.. first.Select((column, row) => new double[row - column + 1])];
        _inverse = [.. first.Select((column, row) => new double[row - column + 1])];
        _below = [.. first.Select((_, column) => Enumerable.Range(column + 1, first.Length - column - 1).Where(row => first[row] <= column).ToArray())];
    }

    public int Order => _first.Length;

    /// <summary>An entry of the lower triangle that stands within its row: of the matrix, and once factored of the factor.</summary>
    public ref double this[int row, int column] => ref _rows[row][column - _first[row]];

    public void Clear()
    {
        foreach (double[] row in _rows)
        {
            Array.Clear(row);
        }
    }

    /// <summary>Factors in place; false when the matrix is not positive definite.</summary>
    public bool TryFactor()
    {
        for (int i = 0; i < Order; i++)
        {
            double[] row = _rows[i];
            int start = _first[i];
            for (int j = start; j < i; j++)
            {
                int from = Math.Max(start, _first[j]);
                row[j - start] = (row[j - start] - SmallMatrix.Dot(row.AsSpan(from - start, j - from), _rows[j].AsSpan(from - _first[j]))) / _rows[j][^1];
            }

            double pivot = row[^1] - SmallMatrix.Dot(row.AsSpan(0, i - start), row);
            if (!(pivot > 0))
            {
                return false;
            }

            row[^1] = Math.Sqrt(pivot);
        }

        return true;
    }

    /// <summary>Solves for a right-hand side in place, once factored.</summary>
    public void Solve(Span<double> x)
    {
        for (int i = 0; i < Order; i++)
        {
            double[] row = _rows[i];
            x[i] = (x[i] - SmallMatrix.Dot(row.AsSpan(0, row.Length - 1), x[_first[i]..])) / row[^1];
        }

        for (int i = Order - 1; i >= 0; i--)
        {
            double[] row = _rows[i];
            double value = x[i] /= row[^1];
            var before = x.Slice(_first[i], row.Length - 1);
            for (int k = 0; k < before.Length; k++)
            {
                before[k] -= value * row[k];
            }
        }
    }

    /// <summary>Computes the entries of the inverse that stand within the rows, once factored.</summary>
    public void Invert()
    {
        // From the last column back: what a column's entries take of later ones is in place by then.
        for (int j = Order - 1; j >= 0; j--)
        {
            double pivot = _rows[j][^1];
            double diagonal = 1 / pivot;
            foreach (int i in _below[j])
            {
                double sum = 0;
                foreach (int k in _below[j])
                {
                    sum += this[k, j] * Inverse(i, k);
                }

                _inverse[i][j - _first[i]] = -sum / pivot;
            }

            foreach (int k in _below[j])
            {
                diagonal -= this[k, j] * Inverse(k, j);
            }

            _inverse[j][^1] = diagonal / pivot;
        }
    }

    /// <summary>An entry of the inverse, once computed; it or its mirror image stands within its row.</summary>
    public double Inverse(int row, int column) => row >= column ? _inverse[row][column - _first[row]] : _inverse[column][row - _first[column]];
}
