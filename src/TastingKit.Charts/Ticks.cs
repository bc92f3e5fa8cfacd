namespace TastingKit.Charts;

/// <summary>Round numbers for an axis, few enough for a phone.</summary>
internal sealed class Ticks
{
    private const int Most = 6;

    private Ticks(double[] values, int decimals) => (Values, Decimals) = (values, decimals);

    /// <summary>The values, in order.</summary>
    public IReadOnlyList<double> Values { get; }

    /// <summary>Decimals that tell them apart.</summary>
    public int Decimals { get; }

    /// <summary>Values of the caller's own.</summary>
    public static Ticks At(params double[] values) => new([.. values], 2);

    /// <summary>Multiples of 1, 2 or 5 times a power of ten that lie in the range: the closest spacing that gives at most six.</summary>
    /// <param name="low">Lower end; finite.</param>
    /// <param name="high">Upper end; above the lower.</param>
    public static Ticks Within(double low, double high)
    {
        var power = (int)Math.Floor(Math.Log10((high - low) / Most));
        for (; ; power++)
        {
            foreach (var factor in new[] { 1, 2, 5 })
            {
                // Scaled to whole numbers, so that 0.1 + 0.2 is 0.3 on the axis.
                var (up, down) = power < 0 ? (Math.Pow(10, -power), 1.0) : (1.0, Math.Pow(10, power));
                var first = Math.Ceiling(low * up / (factor * down));
                var last = Math.Floor(high * up / (factor * down));
                if (last - first < Most)
                    return new Ticks([.. Enumerable.Range(0, (int)(last - first) + 1).Select(i => (first + i) * factor * down / up)], Math.Max(0, -power));
            }
        }
    }
}
