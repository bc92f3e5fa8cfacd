namespace TastingKit.Statistics;

/// <summary>How far the numerical integration of <see cref="MultivariateT"/> goes.</summary>
public sealed record MultivariateTOptions
{
    /// <summary>Seed of the random shifts of the lattice; the same seed gives the same bits.</summary>
    public ulong Seed { get; init; } = 1;

    /// <summary>
    /// The wanted absolute error: integration stops once three standard errors over the random shifts are below it.
    /// </summary>
    public double Tolerance { get; init; } = 1e-6;

    /// <summary>The most points evaluated for one probability; integration stops here whatever the error.</summary>
    public int MaximumPoints { get; init; } = 700_000;
}
