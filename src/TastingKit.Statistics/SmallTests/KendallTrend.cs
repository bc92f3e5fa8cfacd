namespace TastingKit.Statistics;

/// <summary>Whether a series rises or falls, by the order of its values alone.</summary>
/// <remarks>
/// Mann (1945), Kendall (1975), with the variance corrected for ties and a correction for continuity; the slope is Sen's
/// (1968). The test takes the values as independent of each other about the trend.
/// </remarks>
/// <param name="Observations">Number of values.</param>
/// <param name="S">Number of rising pairs less falling ones.</param>
/// <param name="VarianceOfS">Variance of S without a trend.</param>
/// <param name="Z">S less one towards zero, over its standard deviation.</param>
/// <param name="P">Two-sided p-value from the normal distribution.</param>
/// <param name="ExactP">Exact two-sided p-value, or null where values are tied or more than 200.</param>
/// <param name="TauB">Kendall's tau-b of values and times: from −1 to 1.</param>
/// <param name="Slope">The median slope of all pairs, in the values' unit per unit of time.</param>
public sealed record KendallTrend(int Observations, int S, double VarianceOfS, double Z, double P, double? ExactP, double TauB, double Slope)
{
    private const int MostExact = 200;

    /// <summary>Tests a series at even times.</summary>
    /// <param name="values">The values in the order of time, at least three.</param>
    /// <exception cref="ArgumentException">Fewer than three values, all the same, or one that is not finite.</exception>
    public static KendallTrend Of(ReadOnlySpan<double> values)
    {
        var times = new double[values.Length];
        for (int i = 0; i < times.Length; i++)
        {
            times[i] = i + 1.0;
        }

        return Of(values, times);
    }

    /// <summary>Tests a series at stated times.</summary>
    /// <param name="values">The values, at least three.</param>
    /// <param name="times">Their times, rising.</param>
    /// <exception cref="ArgumentException">Lengths differ, fewer than three values, all the same, one that is not finite, or times that don't rise.</exception>
    public static KendallTrend Of(ReadOnlySpan<double> values, ReadOnlySpan<double> times)
    {
        int n = values.Length;
        Check(values, times);
        int s = 0;
        var slopes = new List<double>(n * (n - 1) / 2);
        for (int i = 0; i < n; i++)
        {
            for (int j = i + 1; j < n; j++)
            {
                s += Math.Sign(values[j] - values[i]);
                slopes.Add((values[j] - values[i]) / (times[j] - times[i]));
            }
        }

        double pairs = 0.5 * n * (n - 1);
        double tiedPairs = 0.0;
        double ties = 0.0;
        foreach (var group in values.ToArray().GroupBy(v => v))
        {
            double t = group.Count();
            tiedPairs += 0.5 * t * (t - 1.0);
            ties += t * (t - 1.0) * (2.0 * t + 5.0);
        }

        double variance = (n * (n - 1.0) * (2.0 * n + 5.0) - ties) / 18.0;
        double z = s == 0 ? 0.0 : (s - Math.Sign(s)) / Math.Sqrt(variance);
        slopes.Sort();
        double median = slopes.Count % 2 == 1 ? slopes[slopes.Count / 2] : 0.5 * (slopes[slopes.Count / 2 - 1] + slopes[slopes.Count / 2]);
        return new KendallTrend(
            n,
            s,
            variance,
            z,
            Math.Min(1.0, 2.0 * StandardNormal.CumulativeProbability(-Math.Abs(z))),
            tiedPairs == 0.0 && n <= MostExact ? Exact(s, n) : null,
            s / Math.Sqrt(pairs * (pairs - tiedPairs)),
            median);
    }

    // The number of rising pairs of a random order, by adding one value at a time: it rises above 0 to m of the m before it.
    private static double Exact(int s, int n)
    {
        int pairs = n * (n - 1) / 2;
        var probabilities = new double[pairs + 1];
        probabilities[0] = 1.0;
        int reach = 0;
        for (int m = 1; m < n; m++)
        {
            var next = new double[pairs + 1];
            double window = 0.0;
            for (int k = 0; k <= reach + m; k++)
            {
                window += k <= reach ? probabilities[k] : 0.0;
                window -= k > m ? probabilities[k - m - 1] : 0.0;
                next[k] = window / (m + 1);
            }

            reach += m;
            probabilities = next;
        }

        // By symmetry, the upper tail of the number of rising pairs if there are more of them, the lower one mirrored.
        int rising = (pairs + Math.Abs(s)) / 2;
        double tail = 0.0;
        for (int k = pairs; k >= rising; k--)
        {
            tail += Math.Max(0.0, probabilities[pairs - k]);
        }

        return Math.Min(1.0, 2.0 * tail);
    }

    private static void Check(ReadOnlySpan<double> values, ReadOnlySpan<double> times)
    {
        if (values.Length != times.Length)
        {
            throw new ArgumentException($"There are {values.Length} values and {times.Length} times.", nameof(times));
        }

        if (values.Length < 3)
        {
            throw new ArgumentException($"A trend needs at least three values; there are {values.Length}.", nameof(values));
        }

        bool same = true;
        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i]))
            {
                throw new ArgumentException(FormattableString.Invariant($"Value {i} (counted from 0) is {values[i]}; every value must be a finite number."), nameof(values));
            }

            if (!double.IsFinite(times[i]) || (i > 0 && times[i] <= times[i - 1]))
            {
                throw new ArgumentException(FormattableString.Invariant($"Times must be finite and rising; time {i} (counted from 0) is {times[i]}."), nameof(times));
            }

            same &= values[i] == values[0];
        }

        if (same)
        {
            throw new ArgumentException("All values are the same; there is no order to test.", nameof(values));
        }
    }
}
