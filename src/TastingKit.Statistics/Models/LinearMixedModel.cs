namespace TastingKit.Statistics;

/// <summary>Linear mixed models by restricted or full maximum likelihood; without a random term, ordinary (or weighted) least squares.</summary>
/// <remarks>
/// The relative covariance factors minimise the profiled criterion (Bates, Mächler, Bolker and Walker 2015, Fitting linear mixed-effects
/// models using lme4, Journal of Statistical Software 67) over a blocked Cholesky factor, with an analytic gradient.
/// </remarks>
public static class LinearMixedModel
{
    private const double SmallestResidualVariance = 1e-8;

    /// <summary>Fits a design.</summary>
    /// <param name="design">Response, fixed terms, random terms and weights.</param>
    /// <param name="options">Criterion and limits of the search, or null for the usual ones.</param>
    /// <param name="cancellationToken">Stops the search between iterations.</param>
    /// <exception cref="ModelException">The data can't tell what the design asks: no rows to spare, a group with one level or with as many effects as rows, a response that the fixed part or the random effects fit exactly.</exception>
    /// <exception cref="OperationCanceledException">The search was cancelled.</exception>
    public static LinearMixedModelFit Fit(ModelDesign design, LinearMixedModelOptions? options = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(design);
        options ??= new LinearMixedModelOptions();
        Check(design);
        var geometry = MixedModelGeometry.Of(design);
        return Refit(geometry, design, options, null, new ProfiledDeviance(geometry, options.Criterion, options.Threads), cancellationToken);
    }

    /// <summary>Fits a response over a geometry that is known already, from a start that is likely close or from the usual ones.</summary>
    internal static LinearMixedModelFit Refit(MixedModelGeometry geometry, ModelDesign design, LinearMixedModelOptions options, VarianceParameters? start, ProfiledDeviance workspace, CancellationToken cancellationToken)
    {
        var response = Products(geometry, design);
        var search = new VarianceSearch(workspace, response, options, cancellationToken);
        var (parameters, point, record) = search.Run(start);
        // In units of what the fixed part leaves: a residual this small is on its way to nothing, and all inference rests on it.
        if (workspace.ResidualSum / workspace.DegreesOfFreedom < SmallestResidualVariance)
            throw new ModelException($"The random effects fit '{design.ResponseName}' exactly ({geometry.Groups.Sum(group => group.Terms.Sum(term => term.LevelCount * term.EffectNames.Length))} effects for {geometry.RowCount} rows): there is no residual variance left to estimate. Use fewer random terms, or more rows a level.");
        return new LinearMixedModelFit(design, geometry, response, workspace, parameters, point, options, record);
    }

    private static ResponseProducts Products(MixedModelGeometry geometry, ModelDesign design)
    {
        if (geometry.Rank == 0 && geometry.Groups.Length == 0)
            throw new ModelException("The design has neither a fixed column nor a random term; there is nothing to estimate.");
        if (geometry.RowCount <= geometry.Rank)
            throw new ModelException($"The fixed part has {geometry.Rank} coefficients for {geometry.RowCount} rows of '{design.ResponseName}'; a residual variance needs more rows than coefficients.");
        var response = new ResponseProducts(geometry, design.Response);
        if (response.IsExact)
        {
            bool isConstant = design.Response.IndexOfAnyExcept(design.Response[0]) < 0;
            throw new ModelException(isConstant
                ? FormattableString.Invariant($"Response '{design.ResponseName}' is {design.Response[0]} in all {design.RowCount} rows; a model needs a response that varies.")
                : $"The fixed part fits '{design.ResponseName}' exactly, so that there is no residual variance to estimate.");
        }

        return response;
    }

    private static void Check(ModelDesign design)
    {
        if (design.RowCount < 2) throw new ModelException($"Response '{design.ResponseName}' has {design.RowCount} row; a model needs at least two.");
        foreach (RandomTerm term in design.RandomTerms)
        {
            if (term.Covariance == RandomCovariance.CommonVariance) continue;
            int levels = term.Group.Levels.Count;
            if (levels < 2)
                throw new ModelException($"Group '{term.Group.Name}' has one level ('{term.Group.Levels[0]}'); how much levels vary can be told from two or more, better from five or more.");
            if (design.WeightArray is null && term.HasIntercept && levels >= design.RowCount)
                throw new ModelException($"Group '{term.Group.Name}' has {levels} levels in {design.RowCount} rows; without repeats its variance can't be told from the residual's.");
        }
    }
}
