namespace TastingKit.Statistics;

/// <summary>An interval for a standard deviation of the model.</summary>
/// <param name="Group">The grouping factor, or "Residual".</param>
/// <param name="Term">The effect, "(Intercept)" or a slope's name; empty for the residual.</param>
/// <param name="Estimate">The estimated standard deviation.</param>
/// <param name="Low">Lower end of the interval; zero where a variance of zero can't be excluded.</param>
/// <param name="High">Upper end of the interval.</param>
/// <param name="Level">Coverage that the interval aims at.</param>
public sealed record VarianceInterval(string Group, string Term, double Estimate, double Low, double High, double Level);
