namespace TastingKit.Statistics;

/// <summary>A coefficient of the fixed part.</summary>
/// <param name="Name">The coefficient: a covariate, a factor followed by a level, an interaction joined by ':'.</param>
/// <param name="Estimate">The estimate, in the response's unit (per unit of the covariate).</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="DegreesOfFreedom">Satterthwaite's degrees of freedom.</param>
/// <param name="T">Estimate over standard error.</param>
/// <param name="P">Two-sided p-value against zero.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
public sealed record FixedEffect(string Name, double Estimate, double StandardError, double DegreesOfFreedom, double T, double P, double Low, double High);
