namespace TastingKit.Statistics;

/// <summary>How the variance parameters behind joint draws are drawn.</summary>
public sealed record DrawOptions
{
    /// <summary>Number of draws of the variance parameters that are proposed and weighted, at least 50; up to six times as many are where the weights are uneven.</summary>
    public int VarianceProposals { get; init; } = 1000;

    /// <summary>
    /// Number of draws in each of up to four pilot rounds, which shape what the proposals are drawn from, at least 50. With fewer the proposals fit less
    /// well, and more of them are drawn where their weights are uneven.
    /// </summary>
    public int PilotDraws { get; init; } = 200;

    /// <summary>Degrees of freedom of the half-t prior on standard deviations.</summary>
    public double PriorDegreesOfFreedom { get; init; } = 3;

    /// <summary>
    /// Scale of the half-t prior on standard deviations, as a multiple of the residual standard deviation left by the fixed part alone. It holds for effects per
    /// root mean square of their column, so that a covariate's unit does not matter; correlations have a uniform prior.
    /// </summary>
    public double PriorScale { get; init; } = 1;

    /// <summary>
    /// The prior's scale for single effects, by group and effect, where it is another than <see cref="PriorScale"/>: those of which more is known
    /// beforehand than of the others. A smooth goes by its first function.
    /// </summary>
    public IReadOnlyDictionary<(string Group, string Effect), double> PriorScaleOfEffect { get; init; } = new Dictionary<(string Group, string Effect), double>();

    /// <summary>
    /// Effects, by group and effect, that are known to differ between levels: their prior is multiplied by the standard deviation, so that it is nought
    /// at none (Chung, Rabe-Hesketh, Dorie, Gelman and Liu 2013). The half-t alone lets few levels be drawn alike too often, and what single levels are
    /// worth is then shrunk further than its interval says.
    /// </summary>
    public IReadOnlyList<(string Group, string Effect)> KnownToDiffer { get; init; } = [];

    /// <summary>The most threads to use; the draws do not depend on it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}
