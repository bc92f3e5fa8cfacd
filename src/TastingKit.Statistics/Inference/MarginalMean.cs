namespace TastingKit.Statistics;

/// <summary>The mean of the response at a level of a factor (or a combination of levels of several), other factors averaged and covariates at their mean.</summary>
/// <param name="Factor">The factor, or several joined by ':'.</param>
/// <param name="Level">The level, or the levels joined by ':'.</param>
/// <param name="Mean">The estimated mean, in the response's unit.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="DegreesOfFreedom">Satterthwaite's degrees of freedom.</param>
/// <param name="Low">Lower end of the 95 % interval.</param>
/// <param name="High">Upper end of the 95 % interval.</param>
/// <param name="Weights">How the other factors were averaged.</param>
public sealed record MarginalMean(string Factor, string Level, double Mean, double StandardError, double DegreesOfFreedom, double Low, double High, MarginalWeights Weights);
