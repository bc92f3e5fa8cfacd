namespace TastingKit.Statistics;

/// <summary>Contrasts of a few means: the means are formed once a point, and each contrast touches only its own.</summary>
internal sealed class ContrastStatistics : IDirectionalMaximum
{
    private readonly double[][] _means;
    private readonly int[][] _indices;
    private readonly double[][] _weights;
    private readonly double[] _values;

    private ContrastStatistics(double[][] meanFactor, int rank, int[][] indices, double[][] weights)
    {
        _means = meanFactor;
        Rank = rank;
        _indices = indices;
        _weights = weights;
        _values = new double[meanFactor.Length];
    }

    public int Rank { get; }

    /// <summary>Prepares contrasts (rows) of means (columns) with a covariance matrix.</summary>
    public static ContrastStatistics Create(double[,] contrasts, double[,] meanCovariance)
    {
        ArgumentNullException.ThrowIfNull(contrasts);
        ArgumentNullException.ThrowIfNull(meanCovariance);
        int m = contrasts.GetLength(0);
        int k = contrasts.GetLength(1);
        if (m == 0 || k == 0 || meanCovariance.GetLength(0) != k || meanCovariance.GetLength(1) != k)
        {
            throw new ArgumentException($"{m} contrasts of {k} means need a {k} × {k} covariance matrix; this one is {meanCovariance.GetLength(0)} × {meanCovariance.GetLength(1)}.", nameof(contrasts));
        }

        var indices = new int[m][];
        var weights = new double[m][];
        bool sumToZero = true;
        for (int j = 0; j < m; j++)
        {
            indices[j] = [.. Enumerable.Range(0, k).Where(l => contrasts[j, l] != 0.0)];
            weights[j] = [.. indices[j].Select(l => contrasts[j, l])];
            sumToZero &= Math.Abs(weights[j].Sum()) <= 1e-12 * weights[j].Sum(Math.Abs);
            double variance = 0.0;
            foreach (int l in indices[j])
            {
                foreach (int h in indices[j])
                {
                    variance += contrasts[j, l] * contrasts[j, h] * meanCovariance[l, h];
                }
            }

            if (!(variance > 0.0) || double.IsInfinity(variance))
            {
                throw new ArgumentException($"Contrast {j} has the variance {variance:R}; it must be positive and finite.", nameof(contrasts));
            }

            weights[j] = Array.ConvertAll(weights[j], w => w / Math.Sqrt(variance));
        }

        var (factor, rank) = Factor(sumToZero ? Centred(meanCovariance) : meanCovariance);
        return new ContrastStatistics(factor, rank, indices, weights);
    }

    public (double Largest, double Smallest) Extremes(ReadOnlySpan<double> point)
    {
        for (int i = 0; i < _means.Length; i++)
        {
            _values[i] = FactoredStatistics.FixedOrderDot(_means[i], point);
        }

        double largest = double.NegativeInfinity;
        double smallest = double.PositiveInfinity;
        for (int j = 0; j < _indices.Length; j++)
        {
            double value = 0.0;
            int[] indices = _indices[j];
            double[] weights = _weights[j];
            for (int l = 0; l < indices.Length; l++)
            {
                value += weights[l] * _values[indices[l]];
            }

            largest = Math.Max(largest, value);
            smallest = Math.Min(smallest, value);
        }

        return (largest, smallest);
    }

    // Contrasts whose weights sum to zero don't see what all means share; without it the rank is one less.
    private static double[,] Centred(double[,] covariance)
    {
        int k = covariance.GetLength(0);
        double[] row = [.. Enumerable.Range(0, k).Select(i => Enumerable.Range(0, k).Average(j => covariance[i, j]))];
        double all = row.Average();
        var centred = new double[k, k];
        for (int i = 0; i < k; i++)
        {
            for (int j = 0; j < k; j++)
            {
                centred[i, j] = covariance[i, j] - row[i] - row[j] + all;
            }
        }

        return centred;
    }

    /// <summary>A pivoted Cholesky factor, its rows in the order of the means and as long as the rank.</summary>
    private static (double[][] Rows, int Rank) Factor(double[,] covariance)
    {
        int k = covariance.GetLength(0);
        var columns = new List<double[]>();
        double[] residual = [.. Enumerable.Range(0, k).Select(i => covariance[i, i])];
        double largest = residual.Max();
        while (columns.Count < k)
        {
            int pivot = Array.IndexOf(residual, residual.Max());
            if (residual[pivot] <= 1e-12 * largest)
            {
                break;
            }

            double root = Math.Sqrt(residual[pivot]);
            var column = new double[k];
            for (int i = 0; i < k; i++)
            {
                double value = covariance[i, pivot];
                foreach (double[] earlier in columns)
                {
                    value -= earlier[i] * earlier[pivot];
                }

                column[i] = value / root;
                residual[i] -= column[i] * column[i];
            }

            residual[pivot] = 0.0;
            columns.Add(column);
        }

        if (residual.Min() < -1e-6 * largest)
        {
            throw new ArgumentException($"The covariance matrix of the means is not positive semidefinite: a variance of {residual.Min():R} is left over.", nameof(covariance));
        }

        return ([.. Enumerable.Range(0, k).Select(i => columns.Select(c => c[i]).ToArray())], columns.Count);
    }
}
