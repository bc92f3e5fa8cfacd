using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Ordinal models of steps by quarter: one in which all steps of a quarter move together, beside what other coffee and other brews do, and one in
/// which each moves by itself. What the second tells beyond the first is movement against one another; the common part is other coffee and a moving
/// scale in one, and is not read.
/// </summary>
internal sealed class ThresholdModel
{
    private const string Quarter = "quarter";
    private const int FewestGroups = 3;
    private const int FewestCups = 80;
    private const double LargestError = 1e3;

    private static readonly OrdinalMixedModelOptions Options = new() { Link = OrdinalLink.Probit };

    private readonly StepGroups _groups;
    private readonly Scale _scale;
    private readonly CategoricalColumn _quarters;

    private ThresholdModel(StepGroups groups, Scale scale, CategoricalColumn quarters, OrdinalMixedModelFit together, OrdinalMixedModelFit apart, string words)
    {
        (_groups, _scale, _quarters, Together, Apart, Words) = (groups, scale, quarters, together, apart, words);
    }

    /// <summary>The model in which all steps of a quarter move together.</summary>
    public OrdinalMixedModelFit Together { get; }

    /// <summary>That in which each moves by itself.</summary>
    public OrdinalMixedModelFit Apart { get; }

    public string Words { get; }

    /// <summary>The models, or why there are none.</summary>
    /// <param name="cups">Cups of quarters with enough of them.</param>
    /// <param name="steps">Their steps.</param>
    /// <param name="quarters">Their quarters' names.</param>
    /// <param name="groups">The steps taken together.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="periodName">quarter, or what stands in its place in a long log.</param>
    /// <param name="log">The log, for its scale and its watch.</param>
    public static (ThresholdModel? Model, StepMovement.Refused? Refused) Of(
        IReadOnlyList<Tasting> cups, IReadOnlyList<int> steps, IReadOnlyList<string> quarters, StepGroups groups, TastingAttribute attribute, string periodName, TastingLog log)
    {
        var count = quarters.Distinct().Count();
        if (count < 2 || cups.Count < FewestCups || groups.Count < FewestGroups)
        {
            return (null, new StepMovement.Refused(
                $"Whether steps moved against one another can't be told: {NumberText.Count(cups.Count, "cup")} in {NumberText.Count(count, periodName)} with enough of them, on {NumberText.Count(groups.Count, "step")} used often enough, where {FewestCups} in 2 on {FewestGroups} are the fewest.",
                $"Go on logging, by all of the scale that a coffee deserves: it takes about 40 scored cups of five bags or more a {periodName}."));
        }

        // What the cups of a sitting share moves all steps together, and hardly touches one against another; crossed with all coffees it would make a fit ten times the work.
        var columns = ScoreColumns.Of(cups, attribute).WithoutSessions();
        var response = CategoricalColumn.From(attribute.Name, [.. steps.Select(step => Name(groups.GroupOf(step)))], [.. Enumerable.Range(0, groups.Count).Select(Name)]);
        var design = OrdinalDesign.For(response);
        Column[] brew = [.. new Column?[] { columns.Brewer, columns.RecipeFrom, columns.Rest, columns.RestStated, columns.Position }.OfType<Column>()];
        foreach (var column in brew)
            design = design.WithFixed(column);
        CategoricalColumn[] random = [.. RandomTerms(cups, columns)];
        foreach (var column in random)
            design = design.WithRandomIntercept(column);
        var quarter = CategoricalColumn.From(Quarter, quarters);
        log.Watch.Report(new WorkProgress($"fitting {NumberText.Count(cups.Count, "cup")} on {NumberText.Count(groups.Count, "step")}", null));
        try
        {
            var together = OrdinalMixedModel.Fit(design.WithFixed(quarter), Options, log.Watch.CancellationToken);
            var apart = OrdinalMixedModel.Fit(design.WithNominal(quarter), Options, log.Watch.CancellationToken);
            if (together.Convergence.HasConverged && apart.Convergence.HasConverged
                && apart.Coefficients.All(coefficient => coefficient.StandardError < LargestError)
                && apart.ParameterCount - together.ParameterCount == (count - 1) * (groups.Count - 2))
            {
                return (new ThresholdModel(groups, log.ScaleOf(attribute), quarter, together, apart,
                    $"ordinal mixed model (probit) of {MethodWords.Named(attribute)}; thresholds by {periodName}; fixed: {(brew.Length == 0 ? "nothing" : columns.BrewInWords())}; random: {(random.Length == 0 ? "nothing" : string.Join(", ", random.Select(column => column.Name)))}"), null);
            }
        }
        catch (ModelException)
        {
            // What the model asks of the log it does not have: the same answer as for a search that found no end.
        }

        return (null, new StepMovement.Refused(
            $"Whether steps moved against one another can't be told: {NumberText.Count(cups.Count, "cup")} in {NumberText.Count(count, periodName)} do not settle a model of {NumberText.Count(groups.Count, "step")}.",
            $"Go on logging, and taste coffees on several days, so that coffees and {periodName}s can be told apart."));
    }

    /// <summary>The movement of the steps against one another, in points: the mean distance of the steps on the latent scale is that on the scale itself.</summary>
    public StepMovement.Estimated Movement()
    {
        var thresholds = _groups.Count - 1;
        var points = StepGroups.ValueOf(_groups.FirstOf(thresholds), _scale) - StepGroups.ValueOf(_groups.FirstOf(1), _scale);
        var means = Enumerable.Range(0, thresholds).Select(j => LinearFunction.Mean(_quarters.Levels.Select(quarter => At(j, quarter)))).ToArray();
        var unit = points / Apart.Estimate(means[^1] - means[0]).Value;
        var moves = new List<ThresholdMove>();
        var widths = new List<WidthMove>();
        foreach (var quarter in _quarters.Levels)
        {
            var moved = Enumerable.Range(0, thresholds).Select(j => At(j, quarter) - means[j]).ToArray();
            var common = LinearFunction.Mean(moved);
            for (var j = 0; j < thresholds; j++)
            {
                var (estimate, reach) = Reach(unit * (moved[j] - common));
                moves.Add(new ThresholdMove(quarter, StepGroups.ValueOf(_groups.FirstOf(j + 1), _scale), estimate, estimate - reach, estimate + reach));
            }

            var (width, half) = Reach(unit * (moved[^1] - moved[0]));
            widths.Add(new WidthMove(quarter, width, width - half, width + half));
        }

        var test = LikelihoodRatio.Of(Together, Apart).Against(Residual);
        return new StepMovement.Estimated(test.P, test.DegreesOfFreedom, moves, widths, Apart.ObservationCount);
    }

    /// <summary>Cups less all that the model takes up, each level of its random terms among it.</summary>
    private int Residual => Math.Max(1, Apart.ObservationCount - Apart.ParameterCount - Apart.VarianceComponents.Sum(part => part.LevelCount - 1));

    private (double Value, double Reach) Reach(LinearFunction function)
    {
        var estimate = Apart.Estimate(function);
        return (estimate.Value, StudentsT.TwoSidedQuantile(0.05, Residual) * estimate.StandardError);
    }

    private LinearFunction At(int threshold, string quarter) => Apart.Threshold(threshold, Setting.Averaged(MarginalWeights.AsObserved).With(Quarter, quarter));

    private static string Name(int group) => NumberText.Fixed(group, 0);

    private static IEnumerable<CategoricalColumn> RandomTerms(IReadOnlyList<Tasting> cups, ScoreColumns columns)
    {
        var coffees = cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        var bags = cups.Select(c => c.Bag.Id).Distinct().Count();
        if (coffees > 1 && coffees < cups.Count)
            yield return CategoricalColumn.From(Factor.Coffee.Name, [.. cups.Select(c => c.Bag.Coffee.Id)]);
        if (bags > coffees && bags < cups.Count)
            yield return CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(c => c.Bag.Id)]);
        if (columns.Taster is { } taster)
            yield return taster;
    }
}
