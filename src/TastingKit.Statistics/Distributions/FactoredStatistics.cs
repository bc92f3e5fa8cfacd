namespace TastingKit.Statistics;

/// <summary>Statistics given by the rows of a factor of their correlation matrix.</summary>
internal sealed class FactoredStatistics : IDirectionalMaximum
{
    private readonly double[][] _rows;

    public FactoredStatistics(OrthantFactor factor)
    {
        _rows = factor.Coefficients;
        Rank = factor.Rank;
    }

    public int Rank { get; }

    public (double Largest, double Smallest) Extremes(ReadOnlySpan<double> point)
    {
        double largest = double.NegativeInfinity;
        double smallest = double.PositiveInfinity;
        foreach (double[] row in _rows)
        {
            double value = FixedOrderDot(row, point);
            largest = Math.Max(largest, value);
            smallest = Math.Min(smallest, value);
        }

        return (largest, smallest);
    }

    // Four interleaved sums whatever the machine's vectors, so that the bits do not depend on it.
    internal static double FixedOrderDot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double s0 = 0.0;
        double s1 = 0.0;
        double s2 = 0.0;
        double s3 = 0.0;
        int i = 0;
        for (; i + 4 <= a.Length; i += 4)
        {
            s0 += a[i] * b[i];
            s1 += a[i + 1] * b[i + 1];
            s2 += a[i + 2] * b[i + 2];
            s3 += a[i + 3] * b[i + 3];
        }

        for (; i < a.Length; i++)
        {
            s0 += a[i] * b[i];
        }

        return (s0 + s1) + (s2 + s3);
    }
}
