namespace TastingKit;

/// <summary>Sample quantiles by linear interpolation between order statistics (definition 7 of Hyndman and Fan 1996).</summary>
internal static class Quantiles
{
    /// <summary>The middle 95 % of a normal distribution reach so many standard deviations to either side.</summary>
    public const double Normal95 = 1.959963984540054;

    public static double OfSorted(ReadOnlySpan<double> sorted, double share)
    {
        var position = share * (sorted.Length - 1);
        var below = (int)position;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((position - below) * (sorted[above] - sorted[below]));
    }
}
