namespace TastingKit.Statistics;

/// <summary>The distribution of the latent variable behind an ordered response.</summary>
public enum OrdinalLink
{
    /// <summary>Logistic, with standard deviation π/√3: coefficients are logarithms of cumulative odds ratios.</summary>
    Logit,

    /// <summary>Standard normal: coefficients are in standard deviations of the latent variable.</summary>
    Probit,
}

/// <summary>What the thresholds between ordered categories are allowed to be.</summary>
public enum ThresholdStructure
{
    /// <summary>Any rising numbers: one parameter a threshold.</summary>
    Flexible,

    /// <summary>Symmetric about a centre: thresholds lie as far above it as below.</summary>
    Symmetric,

    /// <summary>All at one distance from the next: two parameters, whatever the number of categories.</summary>
    Equidistant,
}

/// <summary>How an ordinal model is fitted.</summary>
public sealed record OrdinalMixedModelOptions
{
    /// <summary>The latent distribution; logistic unless stated.</summary>
    public OrdinalLink Link { get; init; } = OrdinalLink.Logit;

    /// <summary>The structure of the thresholds; flexible unless stated.</summary>
    public ThresholdStructure Thresholds { get; init; } = ThresholdStructure.Flexible;

    /// <summary>
    /// Nodes of adaptive Gauss–Hermite quadrature over the random effect, for a design with a single random term; 1 is
    /// Laplace's approximation, which serves any number of terms. The two differ in about the third digit.
    /// </summary>
    public int QuadraturePoints { get; init; } = 1;

    /// <summary>The most iterations of the search, at least one.</summary>
    public int MaximumIterations { get; init; } = 100;
}
