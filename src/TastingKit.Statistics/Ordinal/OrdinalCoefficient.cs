namespace TastingKit.Statistics;

/// <summary>What a coefficient of an ordinal model acts on.</summary>
public enum OrdinalPart
{
    /// <summary>A threshold between two categories, or a factor's shift of it.</summary>
    Threshold,

    /// <summary>The location of the latent variable: a positive coefficient moves probability to higher categories.</summary>
    Location,

    /// <summary>The logarithm of the latent variable's scale: a positive coefficient spreads the categories used.</summary>
    LogScale,
}

/// <summary>A coefficient of an ordinal model, with large-sample inference.</summary>
/// <param name="Name">The threshold as "3|4", a covariate, or a factor followed by a level; a shifted threshold as "3|4.period2".</param>
/// <param name="Part">What the coefficient acts on.</param>
/// <param name="Estimate">The estimate, on the latent scale.</param>
/// <param name="StandardError">Its standard error, from the observed information of all parameters, the standard deviations of random effects included.</param>
/// <param name="Z">Estimate over standard error.</param>
/// <param name="P">Two-sided p-value against zero.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
public sealed record OrdinalCoefficient(string Name, OrdinalPart Part, double Estimate, double StandardError, double Z, double P, double Low, double High);
