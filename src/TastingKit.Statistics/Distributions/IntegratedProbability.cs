namespace TastingKit.Statistics;

/// <summary>A probability found by numerical integration.</summary>
/// <param name="Value">The probability.</param>
/// <param name="Error">Three standard errors over independent randomisations; zero where a closed form was used.</param>
/// <param name="Points">The number of points at which the integrand was evaluated.</param>
public sealed record IntegratedProbability(double Value, double Error, int Points);
