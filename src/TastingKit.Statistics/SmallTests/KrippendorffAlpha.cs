namespace TastingKit.Statistics;

/// <summary>How far apart two values are taken to be.</summary>
public enum AlphaMetric
{
    /// <summary>Same or not.</summary>
    Nominal,

    /// <summary>By how many of the ratings lie between them.</summary>
    Ordinal,

    /// <summary>By their squared difference.</summary>
    Interval,
}

/// <summary>Krippendorff's alpha: agreement of any number of raters beyond chance, with ratings missing.</summary>
/// <remarks>Krippendorff (2011), Computing Krippendorff's alpha-reliability, from the matrix of coincidences.</remarks>
public static class KrippendorffAlpha
{
    /// <summary>Computes alpha.</summary>
    /// <param name="ratings">One row a rater, one column a unit; null where a rater did not rate it. Units with fewer than two ratings don't count.</param>
    /// <param name="metric">How far apart two values are.</param>
    /// <returns>1 for perfect agreement, 0 for agreement by chance, negative below it.</returns>
    /// <exception cref="ArgumentException">No unit has two ratings, a rating is not finite, or all ratings are the same, which leaves alpha undefined.</exception>
    public static double Of(double?[,] ratings, AlphaMetric metric)
    {
        ArgumentNullException.ThrowIfNull(ratings);
        double[][] units = [.. Enumerable.Range(0, ratings.GetLength(1)).Select(u => Unit(ratings, u)).Where(u => u.Length > 1)];
        if (units.Length == 0)
        {
            throw new ArgumentException("No unit has two ratings; there is nothing to compare.", nameof(ratings));
        }

        double[] values = [.. units.SelectMany(u => u).Distinct().Order()];
        if (values.Length == 1)
        {
            throw new ArgumentException(FormattableString.Invariant($"All ratings are {values[0]}: agreement by chance is then complete, and alpha is undefined."), nameof(ratings));
        }

        var coincidences = new double[values.Length, values.Length];
        foreach (double[] unit in units)
        {
            for (int i = 0; i < unit.Length; i++)
            {
                for (int j = 0; j < unit.Length; j++)
                {
                    coincidences[Array.BinarySearch(values, unit[i]), Array.BinarySearch(values, unit[j])] += i == j ? 0.0 : 1.0 / (unit.Length - 1);
                }
            }
        }

        double[] totals = [.. Enumerable.Range(0, values.Length).Select(i => Enumerable.Range(0, values.Length).Sum(j => coincidences[i, j]))];
        double observed = 0.0;
        double expected = 0.0;
        for (int i = 0; i < values.Length; i++)
        {
            for (int j = 0; j < values.Length; j++)
            {
                double distance = Distance(metric, values, totals, Math.Min(i, j), Math.Max(i, j));
                observed += coincidences[i, j] * distance;
                expected += totals[i] * totals[j] * distance / (totals.Sum() - 1.0);
            }
        }

        return 1.0 - observed / expected;
    }

    private static double[] Unit(double?[,] ratings, int unit)
    {
        double[] present = [.. Enumerable.Range(0, ratings.GetLength(0)).Select(r => ratings[r, unit]).OfType<double>()];
        return Array.TrueForAll(present, double.IsFinite)
            ? present
            : throw new ArgumentException($"A rating of unit {unit} (counted from 0) is not a finite number; a missing one is null.", nameof(ratings));
    }

    private static double Distance(AlphaMetric metric, double[] values, double[] totals, int low, int high)
    {
        if (low == high)
        {
            return 0.0;
        }

        double steps = metric switch
        {
            AlphaMetric.Ordinal => totals[low..(high + 1)].Sum() - 0.5 * (totals[low] + totals[high]),
            AlphaMetric.Interval => values[high] - values[low],
            _ => 1.0,
        };
        return steps * steps;
    }
}
