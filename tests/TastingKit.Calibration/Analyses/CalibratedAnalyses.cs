namespace TastingKit.Calibration;

/// <summary>The analyses under calibration.</summary>
public static class CalibratedAnalyses
{
    /// <summary>All of them, in the order of the results.</summary>
    public static IReadOnlyList<ICalibratedAnalysis> All { get; } = [];
}
