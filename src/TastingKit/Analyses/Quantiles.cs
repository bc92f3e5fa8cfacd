namespace TastingKit;

/// <summary>Sample quantiles by linear interpolation between order statistics (definition 7 of Hyndman and Fan 1996).</summary>
internal static class Quantiles
{
    public static double OfSorted(ReadOnlySpan<double> sorted, double share)
    {
        var position = share * (sorted.Length - 1);
        var below = (int)position;
        var above = Math.Min(below + 1, sorted.Length - 1);
        return sorted[below] + ((position - below) * (sorted[above] - sorted[below]));
    }
}
