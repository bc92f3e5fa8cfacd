namespace TastingKit.Statistics;

/// <summary>Pettitt's test (1979) of one change of level in a series, by ranks.</summary>
/// <param name="Statistic">K, the largest absolute rank sum of the first part about its expectation, doubled.</param>
/// <param name="Before">Number of values before the most likely change.</param>
/// <param name="P">Approximate p-value of no change, 2 exp(−6K²/(n³ + n²)), at most 1.</param>
/// <param name="MeanBefore">Mean of the values before it.</param>
/// <param name="MeanAfter">Mean of those after it.</param>
public sealed record ChangePoint(int Statistic, int Before, double P, double MeanBefore, double MeanAfter)
{
    /// <summary>Tests a series.</summary>
    /// <param name="values">The values in the order of time, at least four, all finite.</param>
    /// <exception cref="ArgumentException">Fewer than four values, or one that is not finite.</exception>
    public static ChangePoint Of(ReadOnlySpan<double> values)
    {
        int n = values.Length;
        if (n < 4)
        {
            throw new ArgumentException($"A change of level needs at least four values; there are {n}.", nameof(values));
        }

        for (int i = 0; i < n; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                throw new ArgumentException(FormattableString.Invariant($"Value {i} (counted from 0) is {values[i]}; every value must be a finite number."), nameof(values));
            }
        }

        // U_t = Σ over i ≤ t < j of sign(y_i − y_j), which is 2 Σ rank_i − t(n + 1) with middle ranks for ties.
        int u = 0;
        int largest = -1;
        int before = 0;
        for (int t = 0; t + 1 < n; t++)
        {
            for (int j = 0; j < n; j++)
            {
                u += Math.Sign(values[t] - values[j]);
            }

            if (Math.Abs(u) > largest)
            {
                largest = Math.Abs(u);
                before = t + 1;
            }
        }

        double p = 2.0 * PortableMath.Exp(-6.0 * largest * (double)largest / ((double)n * n * n + (double)n * n));
        return new ChangePoint(largest, before, Math.Min(1.0, p), Mean(values[..before]), Mean(values[before..]));
    }

    private static double Mean(ReadOnlySpan<double> values)
    {
        double sum = 0.0;
        foreach (double value in values)
        {
            sum += value;
        }

        return sum / values.Length;
    }
}
