namespace TastingKit.Statistics;

/// <summary>Several statistics, each a linear function with unit coefficient vector of r independent variables.</summary>
internal interface IDirectionalMaximum
{
    /// <summary>The number r of independent variables.</summary>
    int Rank { get; }

    /// <summary>The largest and the smallest of the statistics at a point.</summary>
    (double Largest, double Smallest) Extremes(ReadOnlySpan<double> point);
}
