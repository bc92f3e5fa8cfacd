namespace TastingKit.Statistics;

/// <summary>
/// Cumulative-link models and mixed models for ordered responses, by maximum likelihood: Laplace's approximation for any
/// number of random terms, adaptive Gauss–Hermite quadrature for a single one; without a random term the likelihood is exact.
/// </summary>
/// <remarks>
/// McCullagh (1980), Regression models for ordinal data; Agresti (2010), Analysis of Ordinal Categorical Data; for
/// quadrature Pinheiro and Bates (1995). The gradient is exact throughout.
/// </remarks>
public static class OrdinalMixedModel
{
    /// <summary>Fits a design.</summary>
    /// <param name="design">Response, location, scale and nominal terms, random terms and weights.</param>
    /// <param name="options">Link, thresholds and integration, or null for logit, flexible thresholds and Laplace.</param>
    /// <param name="cancellationToken">Stops the search between iterations.</param>
    /// <returns>The fit; whether the search converged stands in its record and, if it did not, among its cautions.</returns>
    /// <exception cref="ModelException">The data can't tell what the design asks: a group with one level, a constant covariate as a slope, more parameters than rows, structured thresholds for two categories.</exception>
    /// <exception cref="ArgumentOutOfRangeException">An option lies outside its range.</exception>
    /// <exception cref="OperationCanceledException">The search was cancelled.</exception>
    public static OrdinalMixedModelFit Fit(OrdinalDesign design, OrdinalMixedModelOptions? options = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(design);
        options ??= new OrdinalMixedModelOptions();
        if (options.QuadraturePoints is < 1 or > 100)
        {
            throw new ArgumentOutOfRangeException(nameof(options), options.QuadraturePoints, "Quadrature takes 1 (Laplace) to 100 nodes.");
        }

        ArgumentOutOfRangeException.ThrowIfLessThan(options.MaximumIterations, 1, nameof(options));
        if (options.QuadraturePoints > 1 && design.RandomTerms.Count != 1)
        {
            throw new ModelException($"Quadrature needs exactly one random term; the design has {design.RandomTerms.Count}. Laplace's approximation (one quadrature point) serves any number.");
        }

        var system = OrdinalSystem.Of(design, options);
        if (system.ParameterCount >= design.RowCount)
        {
            throw new ModelException($"The model has {system.ParameterCount} parameters for {design.RowCount} rows of '{design.Response.Name}'; it needs more rows than parameters.");
        }

        return new OrdinalMixedModelFit(design, options, system, new OrdinalSearch(system, options, cancellationToken).Run());
    }
}
