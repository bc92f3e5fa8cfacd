namespace TastingKit.Statistics;

/// <summary>What the variance parameters of a linear mixed model maximise.</summary>
public enum EstimationCriterion
{
    /// <summary>The restricted likelihood (REML), which accounts for the fixed effects having been estimated.</summary>
    Restricted,

    /// <summary>The likelihood, under which models that differ in their fixed part can be compared.</summary>
    MaximumLikelihood,
}

/// <summary>How a linear mixed model is fitted.</summary>
public sealed record LinearMixedModelOptions
{
    /// <summary>What is maximised; the restricted likelihood unless stated.</summary>
    public EstimationCriterion Criterion { get; init; } = EstimationCriterion.Restricted;

    /// <summary>The most iterations from one start, at least one.</summary>
    public int MaximumIterations { get; init; } = 200;

    /// <summary>The search has converged when the criterion (−2 log-likelihood) is predicted to fall by less than this.</summary>
    public double Tolerance { get; init; } = 1e-12;

    /// <summary>The most threads the algebra of one fit may use; the result does not depend on it.</summary>
    public int Threads { get; init; } = Environment.ProcessorCount;
}
