namespace TastingKit.Statistics;

/// <summary>
/// What an ordinal model is made of: an ordered response, location terms, scale and nominal effects, random terms and
/// case weights. Immutable; each method returns a new design.
/// </summary>
/// <remarks>
/// P(Y ≤ j) = F((θ_j + w′α_j − x′β − z′u) / exp(s′ζ)): x are the fixed (location) terms, z the random ones, s the scale
/// effects and w the nominal ones, by which thresholds shift one by one.
/// </remarks>
/// <example>
/// <code>
/// var design = OrdinalDesign.For(score).WithFixed(brewer).WithNominal(period).WithRandomIntercept(coffee);
/// var fit = OrdinalMixedModel.Fit(design);
/// </code>
/// </example>
public sealed class OrdinalDesign
{
    private OrdinalDesign(CategoricalColumn response, ModelDesign location, ModelDesign scale, ModelDesign nominal, double[]? weights)
    {
        Response = response;
        Location = location;
        Scale = scale;
        Nominal = nominal;
        WeightArray = weights;
    }

    /// <summary>The ordered response; its levels are the categories, the lowest first.</summary>
    public CategoricalColumn Response { get; }

    /// <summary>Number of rows.</summary>
    public int RowCount => Response.Count;

    /// <summary>The fixed terms of the location.</summary>
    public IReadOnlyList<FixedTerm> FixedTerms => Location.FixedTerms;

    /// <summary>The terms of the logarithm of the scale.</summary>
    public IReadOnlyList<FixedTerm> ScaleTerms => Scale.FixedTerms;

    /// <summary>The terms that shift thresholds one by one.</summary>
    public IReadOnlyList<FixedTerm> NominalTerms => Nominal.FixedTerms;

    /// <summary>The random terms as they were added.</summary>
    public IReadOnlyList<RandomTerm> RandomTerms => Location.RandomTerms;

    /// <summary>Case weights, one a row; empty when all are one.</summary>
    public ReadOnlySpan<double> Weights => WeightArray;

    internal ModelDesign Location { get; }

    internal ModelDesign Scale { get; }

    internal ModelDesign Nominal { get; }

    internal double[]? WeightArray { get; }

    /// <summary>Starts a design with thresholds and nothing else.</summary>
    /// <param name="response">The ordered response: state its levels, the lowest first, when their names don't sort that way.</param>
    /// <exception cref="ModelException">There are no rows, or all rows are in one category.</exception>
    public static OrdinalDesign For(CategoricalColumn response)
    {
        ArgumentNullException.ThrowIfNull(response);
        if (response.Count == 0)
        {
            throw new ModelException($"Response '{response.Name}' has no rows; a model needs at least two.");
        }

        if (response.Levels.Count < 2)
        {
            throw new ModelException($"Response '{response.Name}' is '{response.Levels[0]}' in all {response.Count} rows; an ordinal model needs at least two categories.");
        }

        // The three parts share the checks and the coding of columns with linear models; the response in them is a placeholder.
        var part = ModelDesign.For(response.Name, new double[response.Count]);
        return new OrdinalDesign(response, part, part, part, null);
    }

    /// <summary>Adds a main effect on the location: a covariate's slope, a factor's treatment contrasts, or a curve's coefficients.</summary>
    /// <param name="column">A column of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public OrdinalDesign WithFixed(Column column) => With(Location.WithFixed(column));

    /// <summary>Adds the square of a covariate to the location.</summary>
    /// <param name="covariate">A covariate of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public OrdinalDesign WithFixedSquare(NumericColumn covariate) => With(Location.WithFixedSquare(covariate));

    /// <summary>Adds the interaction of two or more columns to the location.</summary>
    /// <param name="columns">Two or more different columns.</param>
    /// <exception cref="ArgumentException">Fewer than two columns, a column twice, another length, or the term is already there.</exception>
    public OrdinalDesign WithInteraction(params Column[] columns) => With(Location.WithInteraction(columns));

    /// <summary>Lets the latent scale differ: the response uses a wider or narrower range of categories.</summary>
    /// <param name="column">A covariate or factor of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public OrdinalDesign WithScale(Column column) => new(Response, Location, Scale.WithFixed(column), Nominal, WeightArray);

    /// <summary>
    /// Lets the thresholds shift one by one: the scale itself is used otherwise, not only higher or lower. The column's
    /// common shift is part of this, so it is left out of the location.
    /// </summary>
    /// <param name="column">A covariate or factor of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public OrdinalDesign WithNominal(Column column) => new(Response, Location, Scale, Nominal.WithFixed(column), WeightArray);

    /// <summary>Adds an intercept that varies by the levels of a group.</summary>
    /// <param name="group">The grouping factor; crossed or nested with others as the data have it.</param>
    public OrdinalDesign WithRandomIntercept(CategoricalColumn group) => With(Location.WithRandomIntercept(group));

    /// <summary>Adds a slope that varies by the levels of a group, independent of the group's other terms.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="covariate">The covariate whose coefficient varies.</param>
    public OrdinalDesign WithRandomSlope(CategoricalColumn group, NumericColumn covariate) => With(Location.WithRandomSlope(group, covariate));

    /// <summary>Sets case weights: a row counts as that many.</summary>
    /// <param name="weights">One positive finite number a row; copied.</param>
    /// <exception cref="ArgumentException">Another length, or a weight that is not positive and finite.</exception>
    public OrdinalDesign WithWeights(ReadOnlyMemory<double> weights) =>
        new(Response, Location, Scale, Nominal, Location.WithWeights(weights).WeightArray);

    private OrdinalDesign With(ModelDesign location) => new(Response, location, Scale, Nominal, WeightArray);
}
