using TastingKit.Statistics;

namespace TastingKit.Calibration;

/// <summary>The analyses under calibration.</summary>
public static class CalibratedAnalyses
{
    /// <summary>
    /// A hundred distinct draws of the variances a year, not the thousand that a reader gets, so that thousands of years can be gone
    /// through; one thread a year, since the years run side by side.
    /// </summary>
    private static readonly DrawOptions FewDraws = new() { VarianceProposals = 100, Threads = 1 };

    /// <summary>All of them, in the order of the results.</summary>
    public static IReadOnlyList<ICalibratedAnalysis> All { get; } =
    [
        new FavouritesCalibration(log => FavouritesAnalysis.Of(log, null, TastingLog.DefaultSeed, FewDraws)),
        new MethodEffectsCalibration(Factor.Brewer, log => MethodAnalysis.Of(log, Factor.Brewer, null, TastingLog.DefaultSeed, FewDraws)),
        new MethodEffectsCalibration(Factor.RecipeFrom, log => MethodAnalysis.Of(log, Factor.RecipeFrom, null, TastingLog.DefaultSeed, FewDraws)),
    ];
}
