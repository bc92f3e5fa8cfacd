namespace TastingKit.Statistics;

/// <summary>How the p-values and intervals of several contrasts allow for there being several.</summary>
public enum Adjustment
{
    /// <summary>Not at all: each contrast is right for itself.</summary>
    None,

    /// <summary>Holm's step-down p-values; the intervals are Bonferroni's, since Holm's procedure has no simple ones.</summary>
    Holm,

    /// <summary>Tukey's studentised range, for all pairs of the levels of one factor.</summary>
    Tukey,

    /// <summary>Exact simultaneous p-values and intervals from the multivariate t distribution of the contrasts, by quasi-Monte-Carlo with a seed.</summary>
    Simultaneous,
}

/// <summary>A linear function with the name it is reported under.</summary>
/// <param name="Name">What the function is called in results.</param>
/// <param name="Function">The function.</param>
public sealed record NamedFunction(string Name, LinearFunction Function);

/// <summary>A contrast with its test and interval.</summary>
/// <param name="Name">The contrast, as "cone - flat-bed".</param>
/// <param name="Estimate">The estimate, in the response's unit.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="DegreesOfFreedom">Satterthwaite's degrees of freedom.</param>
/// <param name="T">Estimate over standard error.</param>
/// <param name="P">Two-sided p-value of this contrast alone.</param>
/// <param name="AdjustedP">Two-sided p-value that allows for the family.</param>
/// <param name="Low">Lower end of the interval, adjusted as <paramref name="Adjustment"/> says.</param>
/// <param name="High">Upper end of the interval.</param>
/// <param name="Level">Coverage that the interval, or the family of intervals, aims at.</param>
/// <param name="Adjustment">How the family is allowed for.</param>
/// <param name="FamilySize">Number of contrasts in the family.</param>
public sealed record Contrast(string Name, double Estimate, double StandardError, double DegreesOfFreedom, double T, double P, double AdjustedP,
    double Low, double High, double Level, Adjustment Adjustment, int FamilySize);
