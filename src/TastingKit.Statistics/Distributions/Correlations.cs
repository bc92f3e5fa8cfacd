namespace TastingKit.Statistics;

/// <summary>Correlation matrices from covariances, checked.</summary>
internal static class Correlations
{
    private const double Tolerance = 1e-8;

    /// <summary>The correlation matrix of a covariance matrix.</summary>
    /// <exception cref="ArgumentException">The matrix is not square, not symmetric, or has a variance that is not positive.</exception>
    public static double[,] FromCovariance(double[,] covariance)
    {
        ArgumentNullException.ThrowIfNull(covariance);
        int m = covariance.GetLength(0);
        if (m == 0 || covariance.GetLength(1) != m)
        {
            throw new ArgumentException($"A covariance matrix is square and not empty; this one is {m} × {covariance.GetLength(1)}.", nameof(covariance));
        }

        for (int i = 0; i < m; i++)
        {
            if (!(covariance[i, i] > 0.0) || double.IsInfinity(covariance[i, i]))
            {
                throw new ArgumentException($"The variance of variable {i} is {covariance[i, i]:R}; it must be positive and finite.", nameof(covariance));
            }
        }

        var correlation = new double[m, m];
        for (int i = 0; i < m; i++)
        {
            correlation[i, i] = 1.0;
            for (int j = 0; j < i; j++)
            {
                double scale = Math.Sqrt(covariance[i, i]) * Math.Sqrt(covariance[j, j]);
                double r = 0.5 * (covariance[i, j] + covariance[j, i]) / scale;
                if (!(Math.Abs(covariance[i, j] - covariance[j, i]) <= Tolerance * scale) || Math.Abs(r) > 1.0 + Tolerance)
                {
                    throw new ArgumentException($"Variables {i} and {j} have covariances {covariance[i, j]:R} and {covariance[j, i]:R} over variances {covariance[i, i]:R} and {covariance[j, j]:R}: not those of a symmetric, positive semidefinite matrix.", nameof(covariance));
                }

                correlation[i, j] = correlation[j, i] = Math.Clamp(r, -1.0, 1.0);
            }
        }

        return correlation;
    }

    /// <summary>K V K′ for the rows of K, the contrasts.</summary>
    public static double[,] OfContrasts(double[,] contrasts, double[,] meanCovariance)
    {
        int m = contrasts.GetLength(0);
        int k = contrasts.GetLength(1);
        var half = new double[m, k];
        for (int i = 0; i < m; i++)
        {
            for (int l = 0; l < k; l++)
            {
                for (int h = 0; h < k; h++)
                {
                    half[i, l] += contrasts[i, h] * meanCovariance[h, l];
                }
            }
        }

        var covariance = new double[m, m];
        for (int i = 0; i < m; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = 0.0;
                for (int l = 0; l < k; l++)
                {
                    sum += half[i, l] * contrasts[j, l];
                }

                covariance[i, j] = covariance[j, i] = sum;
            }
        }

        return covariance;
    }
}
