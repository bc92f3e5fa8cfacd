using System.Globalization;

namespace TastingKit.Statistics;

/// <summary>
/// What a model is made of: a response, fixed terms, random terms and prior weights. Immutable; each method returns a new design.
/// </summary>
/// <example>
/// <code>
/// var design = ModelDesign.For("score", scores)
///     .WithFixed(brewer).WithFixed(restDays).WithFixedSquare(restDays)
///     .WithRandomIntercept(coffee)
///     .WithRandomSlope(coffee, restDays);
/// </code>
/// </example>
public sealed class ModelDesign
{
    private readonly double[] _response;
    private readonly double[]? _weights;
    private readonly FixedTerm[] _fixedTerms;
    private readonly RandomTerm[] _randomTerms;

    private ModelDesign(string responseName, double[] response, bool hasIntercept, FixedTerm[] fixedTerms, RandomTerm[] randomTerms, double[]? weights)
    {
        ResponseName = responseName;
        _response = response;
        HasIntercept = hasIntercept;
        _fixedTerms = fixedTerms;
        _randomTerms = randomTerms;
        _weights = weights;
    }

    /// <summary>The response's name.</summary>
    public string ResponseName { get; }

    /// <summary>The response, one number a row.</summary>
    public ReadOnlySpan<double> Response => _response;

    /// <summary>Number of rows.</summary>
    public int RowCount => _response.Length;

    /// <summary>Whether the fixed part has an intercept.</summary>
    public bool HasIntercept { get; }

    /// <summary>The fixed terms beside the intercept: main effects and squares as they were added, then interactions by their number of columns.</summary>
    public IReadOnlyList<FixedTerm> FixedTerms => _fixedTerms;

    /// <summary>The random terms as they were added.</summary>
    public IReadOnlyList<RandomTerm> RandomTerms => _randomTerms;

    /// <summary>Prior weights, one a row (a row's variance is the residual variance divided by its weight); empty when all are one.</summary>
    public ReadOnlySpan<double> Weights => _weights;

    internal double[] ResponseArray => _response;

    internal double[]? WeightArray => _weights;

    /// <summary>Starts a design with an intercept and nothing else.</summary>
    /// <param name="responseName">The response's name.</param>
    /// <param name="response">One finite number a row; copied.</param>
    /// <exception cref="ArgumentException">There are no rows, or a value is NaN or infinite.</exception>
    public static ModelDesign For(string responseName, ReadOnlyMemory<double> response)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(responseName);
        if (response.IsEmpty) throw new ArgumentException($"Response '{responseName}' has no rows; a model needs at least two.", nameof(response));
        NumericColumn.RequireFinite(responseName, response.Span);
        return new ModelDesign(responseName, response.ToArray(), true, [], [], null);
    }

    /// <summary>Takes the intercept out of the fixed part: the first factor then has one coefficient a level.</summary>
    public ModelDesign WithoutIntercept() => new(ResponseName, _response, false, _fixedTerms, _randomTerms, _weights);

    /// <summary>Adds a main effect: a covariate's slope, a factor's treatment contrasts, or a curve's coefficients.</summary>
    /// <param name="column">A column of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public ModelDesign WithFixed(Column column) => WithTerm(new FixedTerm([Checked(column)], false));

    /// <summary>Adds the square of a covariate (the covariate itself is a term of its own).</summary>
    /// <param name="covariate">A covariate of as many rows as the response.</param>
    /// <exception cref="ArgumentException">The column's length differs, or the term is already there.</exception>
    public ModelDesign WithFixedSquare(NumericColumn covariate) => WithTerm(new FixedTerm([Checked(covariate)], true));

    /// <summary>Adds the interaction of two or more columns. Main effects are terms of their own; a factor whose margin is missing is coded by one effect a level.</summary>
    /// <param name="columns">Two or more different columns.</param>
    /// <exception cref="ArgumentException">Fewer than two columns, a column twice, another length, or the term is already there.</exception>
    public ModelDesign WithInteraction(params Column[] columns)
    {
        ArgumentNullException.ThrowIfNull(columns);
        if (columns.Length < 2) throw new ArgumentException("An interaction needs at least two columns.", nameof(columns));
        if (columns.DistinctBy(column => column?.Name).Count() != columns.Length) throw new ArgumentException("An interaction needs different columns.", nameof(columns));
        return WithTerm(new FixedTerm([.. columns.Select(Checked)], false));
    }

    /// <summary>Adds a curve with free coefficients, such as a natural spline.</summary>
    /// <param name="basis">The curve's functions.</param>
    public ModelDesign WithSpline(CovariateBasis basis) => WithFixed(basis);

    /// <summary>Adds the wiggly part of a penalised curve: its coefficients are independent random effects of one variance, which is its smoothness. The part that is not penalised (the straight line) is a fixed term of its own.</summary>
    /// <param name="penalised">The penalised functions, scaled so that their coefficients have a common variance.</param>
    public ModelDesign WithSmooth(CovariateBasis penalised)
        => WithSmooth(penalised, CategoricalColumn.From(Checked(penalised).Name, Enumerable.Repeat("all", penalised.Count).ToArray()));

    /// <summary>Adds deviations from a curve by the levels of a group, all of one smoothness.</summary>
    /// <param name="penalised">The penalised functions, scaled so that their coefficients have a common variance.</param>
    /// <param name="group">Each level has its own coefficients.</param>
    public ModelDesign WithSmooth(CovariateBasis penalised, CategoricalColumn group)
        => WithTerm(new RandomTerm(Checked(group), false, [Checked(penalised)], RandomCovariance.CommonVariance));

    /// <summary>Adds an intercept that varies by the levels of a group.</summary>
    /// <param name="group">The grouping factor; crossed or nested with others as the data have it.</param>
    public ModelDesign WithRandomIntercept(CategoricalColumn group) => WithRandomEffects(group, true);

    /// <summary>Adds a slope that varies by the levels of a group, independent of the group's other terms.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="covariate">The column whose coefficient varies; a factor has one effect a level, correlated with each other.</param>
    public ModelDesign WithRandomSlope(CategoricalColumn group, Column covariate) => WithRandomEffects(group, false, covariate);

    /// <summary>Adds correlated effects that vary by the levels of a group.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="intercept">Whether an intercept is among them.</param>
    /// <param name="slopes">The columns whose coefficients vary.</param>
    /// <exception cref="ArgumentException">No effect at all, or a column of another length.</exception>
    public ModelDesign WithRandomEffects(CategoricalColumn group, bool intercept, params Column[] slopes)
    {
        ArgumentNullException.ThrowIfNull(slopes);
        if (!intercept && slopes.Length == 0) throw new ArgumentException("A random term needs an intercept, a slope, or both.", nameof(slopes));
        return WithTerm(new RandomTerm(Checked(group), intercept, [.. slopes.Select(Checked)], RandomCovariance.Unstructured));
    }

    /// <summary>Sets prior weights: a row's residual variance is the model's divided by its weight.</summary>
    /// <param name="weights">One positive finite number a row; copied.</param>
    /// <exception cref="ArgumentException">Another length, or a weight that is not positive and finite.</exception>
    public ModelDesign WithWeights(ReadOnlyMemory<double> weights)
    {
        if (weights.Length != RowCount) throw new ArgumentException($"There are {weights.Length} weights for {RowCount} rows.", nameof(weights));
        for (int row = 0; row < RowCount; row++)
        {
            if (!(weights.Span[row] > 0) || !double.IsFinite(weights.Span[row]))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture, $"The weight of row {row} (counted from 0) is {weights.Span[row]}; a weight must be positive and finite."), nameof(weights));
        }

        return new ModelDesign(ResponseName, _response, HasIntercept, _fixedTerms, _randomTerms, weights.ToArray());
    }

    /// <summary>The same design with another response of as many rows, as a simulation needs.</summary>
    /// <param name="response">One finite number a row; copied.</param>
    /// <exception cref="ArgumentException">Another length, or a value that is NaN or infinite.</exception>
    public ModelDesign WithResponse(ReadOnlyMemory<double> response)
    {
        if (response.Length != RowCount) throw new ArgumentException($"The response has {response.Length} rows; the design has {RowCount}.", nameof(response));
        NumericColumn.RequireFinite(ResponseName, response.Span);
        return new ModelDesign(ResponseName, response.ToArray(), HasIntercept, _fixedTerms, _randomTerms, _weights);
    }

    // A response that was just simulated is finite, of the right length and nobody else's.
    internal ModelDesign WithSimulated(double[] response) => new(ResponseName, response, HasIntercept, _fixedTerms, _randomTerms, _weights);

    private ModelDesign WithTerm(FixedTerm term)
    {
        if (_fixedTerms.Any(other => other.IsSquare == term.IsSquare && (term.IsSquare ? other.Name == term.Name : other.HasSameVariables(term.Columns))))
            throw new ArgumentException($"The fixed term '{term.Name}' is already in the design.", nameof(term));
        // Stable by number of columns, so that an interaction never takes the place of a main effect when columns depend on each other.
        FixedTerm[] terms = [.. _fixedTerms.Append(term).OrderBy(each => each.Columns.Count)];
        return new ModelDesign(ResponseName, _response, HasIntercept, terms, _randomTerms, _weights);
    }

    private ModelDesign WithTerm(RandomTerm term) => new(ResponseName, _response, HasIntercept, _fixedTerms, [.. _randomTerms, term], _weights);

    private T Checked<T>(T column) where T : Column
    {
        ArgumentNullException.ThrowIfNull(column);
        if (column.Count != RowCount) throw new ArgumentException($"Column '{column.Name}' has {column.Count} rows; the response '{ResponseName}' has {RowCount}.", nameof(column));
        return column;
    }
}
