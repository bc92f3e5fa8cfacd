namespace TastingKit.Statistics;

/// <summary>The optimiser's record of a fit: why it stopped and where.</summary>
/// <param name="HasConverged">Whether the criterion's predicted fall was below the tolerance and no variance of zero wanted to rise.</param>
/// <param name="Reason">Why the search stopped, in words.</param>
/// <param name="Iterations">Steps taken, over all starts.</param>
/// <param name="Evaluations">Factorisations of the system, over all starts.</param>
/// <param name="Starts">Number of starting points.</param>
/// <param name="LargestGradient">Largest absolute derivative of the criterion in a free entry of the relative covariance factors, in the fit's own basis.</param>
/// <param name="PredictedDecrease">By how much the criterion was still predicted to fall.</param>
public sealed record Convergence(bool HasConverged, string Reason, int Iterations, int Evaluations, int Starts, double LargestGradient, double PredictedDecrease);
