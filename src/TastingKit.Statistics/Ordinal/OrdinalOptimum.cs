namespace TastingKit.Statistics;

/// <summary>Where a search ended.</summary>
/// <param name="Parameters">All parameters.</param>
/// <param name="LogLikelihood">The value there.</param>
/// <param name="Information">The observed information of the parameters that are not held.</param>
/// <param name="Held">Standard deviations held at zero.</param>
/// <param name="Likelihood">The marginal likelihood, last evaluated at the optimum; null without random effects.</param>
/// <param name="Convergence">The record.</param>
internal sealed record OrdinalOptimum(double[] Parameters, double LogLikelihood, double[,] Information, int[] Held, IMarginalLikelihood? Likelihood, Convergence Convergence);
