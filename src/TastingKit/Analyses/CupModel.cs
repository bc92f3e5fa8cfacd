namespace TastingKit;

/// <summary>
/// A model of one attribute over the cups, put together term by term: for questions that the ready-made results do not ask, such as a
/// designed experiment with columns of its own. It holds the terms stated and no others. Immutable; each method returns a new model.
/// </summary>
/// <example>
/// <code>
/// log.Estimate(TastingAttribute.Score).Bent(Covariate.Strength.Per(0.25)).Along(Covariate.Position).By(Factor.Column("week")).VaryingBy(Factor.Taster).Fit()
/// </code>
/// </example>
public sealed class CupModel
{
    private readonly TastingLog _log;

    internal CupModel(TastingLog log, TastingAttribute attribute)
        : this(log, attribute, [], [], [], [], [], [])
    {
    }

    private CupModel(
        TastingLog log, TastingAttribute attribute, IReadOnlyList<Factor> factors, IReadOnlyList<Covariate> covariates, IReadOnlyList<Covariate> bent,
        IReadOnlyList<(Covariate, Covariate)> together, IReadOnlyList<IReadOnlyList<Factor>> groups, IReadOnlyList<(Factor, Covariate)> slopes)
    {
        (_log, Attribute, Factors, Covariates, BentOnes, Pairs, Groups, Slopes) = (log, attribute, factors, covariates, bent, together, groups, slopes);
    }

    /// <summary>What is modelled.</summary>
    public TastingAttribute Attribute { get; }

    internal IReadOnlyList<Factor> Factors { get; }

    internal IReadOnlyList<Covariate> Covariates { get; }

    internal IReadOnlyList<Covariate> BentOnes { get; }

    internal IReadOnlyList<(Covariate First, Covariate Second)> Pairs { get; }

    internal IReadOnlyList<IReadOnlyList<Factor>> Groups { get; }

    internal IReadOnlyList<(Factor Group, Covariate Covariate)> Slopes { get; }

    /// <summary>Adds the differences between a factor's levels.</summary>
    /// <param name="factor">A factor of the brew or the coffee, or a column of the log.</param>
    public CupModel By(Factor factor)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return new CupModel(_log, Attribute, [.. Factors, factor], Covariates, BentOnes, Pairs, Groups, Slopes);
    }

    /// <summary>Adds a straight line over a covariate, stated for its step.</summary>
    /// <param name="covariate">A number of the brew, or a column of the log.</param>
    public CupModel Along(Covariate covariate)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        return new CupModel(_log, Attribute, Factors, [.. Covariates, covariate], BentOnes, Pairs, Groups, Slopes);
    }

    /// <summary>Adds a line over a covariate that may bend: its steps and their square, counted from the mean of the cups.</summary>
    /// <param name="covariate">A number of the brew, or a column of the log.</param>
    public CupModel Bent(Covariate covariate)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        return new CupModel(_log, Attribute, Factors, [.. Covariates, covariate], [.. BentOnes, covariate], Pairs, Groups, Slopes);
    }

    /// <summary>Adds how far a step of one covariate changes what a step of another does. Both are terms of their own.</summary>
    /// <param name="first">A covariate that the model has.</param>
    /// <param name="second">Another.</param>
    /// <exception cref="ArgumentException">The model does not have both, or they are one.</exception>
    public CupModel Together(Covariate first, Covariate second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        if (first.Name == second.Name || Covariates.All(c => c.Name != first.Name) || Covariates.All(c => c.Name != second.Name))
            throw new ArgumentException($"{first} and {second} must be two covariates that the model has already; it has {string.Join(", ", Covariates)}.", nameof(first));
        return new CupModel(_log, Attribute, Factors, Covariates, BentOnes, [.. Pairs, (first, second)], Groups, Slopes);
    }

    /// <summary>Lets cups vary by the levels of a factor, or by the combinations of several, as drawn from a normal distribution.</summary>
    /// <param name="factors">One factor, or several whose combinations vary.</param>
    /// <exception cref="ArgumentException">There is none.</exception>
    public CupModel VaryingBy(params IReadOnlyList<Factor> factors)
    {
        ArgumentNullException.ThrowIfNull(factors);
        if (factors.Count == 0)
            throw new ArgumentException("Cups vary by at least one factor.", nameof(factors));
        return new CupModel(_log, Attribute, Factors, Covariates, BentOnes, Pairs, [.. Groups, [.. factors]], Slopes);
    }

    /// <summary>Lets what a step of a covariate does vary by the levels of a factor, independently of the rest.</summary>
    /// <param name="factor">The factor.</param>
    /// <param name="covariate">A covariate that the model has.</param>
    /// <exception cref="ArgumentException">The model does not have the covariate.</exception>
    public CupModel SlopeVaryingBy(Factor factor, Covariate covariate)
    {
        ArgumentNullException.ThrowIfNull(factor);
        ArgumentNullException.ThrowIfNull(covariate);
        if (Covariates.All(c => c.Name != covariate.Name))
            throw new ArgumentException($"{covariate} must be a covariate that the model has already; it has {string.Join(", ", Covariates)}.", nameof(covariate));
        return new CupModel(_log, Attribute, Factors, Covariates, BentOnes, Pairs, Groups, [.. Slopes, (factor, covariate)]);
    }

    /// <summary>Fits the model by restricted maximum likelihood.</summary>
    public CupEstimates Fit() => CupModelAnalysis.Of(_log, this);
}
