using TastingKit.Statistics;

namespace TastingKit.Calibration;

/// <summary>The analyses under calibration.</summary>
public static class CalibratedAnalyses
{
    /// <summary>
    /// A hundred distinct draws of the variances a year and pilots of fifty, not the thousand and two hundred that a reader gets, so that thousands of
    /// years can be gone through; one thread a year, since the years run side by side.
    /// </summary>
    private static readonly DrawOptions FewDraws = new() { VarianceProposals = 100, PilotDraws = 50, Threads = 1 };

    /// <summary>All of them, in the order of the results.</summary>
    public static IReadOnlyList<ICalibratedAnalysis> All { get; } =
    [
        new FavouritesCalibration(Favourites),
        new MethodEffectsCalibration(Factor.Brewer, log => MethodEffects(log, Factor.Brewer)),
        new MethodEffectsCalibration(Factor.RecipeFrom, log => MethodEffects(log, Factor.RecipeFrom)),
        new MethodSlopesCalibration((log, covariates) => SlopeAnalysis.Of(log, covariates, TastingAttribute.Score, null, TastingLog.DefaultSeed, FewDraws)),
        new MethodProfileCalibration(log => ProfileAnalysis.Of(log, Factor.Brewer, TastingLog.DefaultSeed, FewDraws)),
        new FurtherCupsCalibration(log => MethodEffects(log, Factor.Brewer)),
        new PrecisionCalibration(Precision),
        new OneOffsCalibration(log => log.OneOffs()),
        new RestPeaksCalibration(null, log => RestPeaks(log, null)),
        new RestPeaksCalibration(Factor.Process, log => RestPeaks(log, Factor.Process)),
        new RestPlanCalibration(RestPlan),
        new DriftCalibration((log, loss) => log.ScaleDrift(freezerLossAYear: loss)),
        new RiseCalibration(Rise),
        new BagOrderCalibration(log => log.CalendarCourse()),
        new ScaleUseCalibration(log => log.ScaleUse()),
        new LabelCalibration(log => log.LabelEffect()),
    ];

    /// <summary>The favourites of a log, as a reader gets them but for the number of variance draws.</summary>
    public static Favourites Favourites(TastingLog log) => FavouritesAnalysis.Of(log, null, TastingLog.DefaultSeed, FewDraws);

    /// <summary>What a factor does, as a reader gets it but for the number of variance draws.</summary>
    public static MethodEffects MethodEffects(TastingLog log, Factor factor) => MethodAnalysis.Of(log, factor, TastingAttribute.Score, null, TastingLog.DefaultSeed, FewDraws);

    /// <summary>What a change came of, as a reader gets it but for the number of variance draws.</summary>
    public static ScoreRise Rise(TastingLog log) => RiseAnalysis.Of(log, TastingAttribute.Score, null, null, 0, TastingLog.DefaultSeed, FewDraws);

    /// <summary>When coffees peak, as a reader gets it but for the number of variance draws.</summary>
    public static RestPeaks RestPeaks(TastingLog log, Factor? by) => RestPeaksAnalysis.Of(
        log, RestPeaksAnalysis.Question.Of(log, by, null, null, null, null), TastingLog.DefaultSeed, FewDraws);

    /// <summary>When to open a bag, as a reader gets it but for the number of variance draws.</summary>
    public static RestPlan RestPlan(TastingLog log, string bagId) => RestPlanAnalysis.Of(
        log, bagId, null, TastingLog.DefaultSeed, FewDraws);

    /// <summary>The precision of a log's scores, as a reader gets it.</summary>
    public static TastingPrecision Precision(TastingLog log) => log.Repeatability();
}
