using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model behind precision from day to day: what is left of a score once the coffee, its bag, the brew of that bag, the rest and the
/// order of tasting are taken out.
/// </summary>
internal sealed class DayToDayModel
{
    public const string CupsThatDay = "cups that day";
    public const string Sitting = "sitting";

    private const string BrewOfBag = "brew of a bag";
    private const int FewestSittings = 8;

    // A bag's own liking for a brew enters where a one-sided test at 5 % finds it: with no such liking it would only take from the residual.
    private const double NoughtDoubted = 2.705543454095404;

    private DayToDayModel(LinearMixedModelFit fit, IReadOnlyList<Tasting> cups, string words, bool hasSittings, bool hasBags, double sittingsLikelihoodRatio)
    {
        Fit = fit;
        Cups = cups;
        Words = words;
        HasSittings = hasSittings;
        HasBags = hasBags;
        SittingsLikelihoodRatio = sittingsLikelihoodRatio;
    }

    public LinearMixedModelFit Fit { get; }

    public IReadOnlyList<Tasting> Cups { get; }

    /// <summary>The model in words.</summary>
    public string Words { get; }

    /// <summary>Whether sittings have a spread of their own in the model.</summary>
    public bool HasSittings { get; }

    /// <summary>What sorts its cups into sittings; nothing where these have no spread of their own in the model.</summary>
    public CategoricalColumn? SittingColumn => HasSittings ? Grouped(Sitting, Cups, SittingOf) : null;

    /// <summary>Twice the gain in restricted log-likelihood by the spread between sittings; 0 where sittings have none in the model.</summary>
    public double SittingsLikelihoodRatio { get; }

    /// <summary>Bags among the cups.</summary>
    public int BagCount => Cups.Select(cup => cup.Bag.Id).Distinct().Count();

    /// <summary>Cups of each sitting.</summary>
    public IEnumerable<int> SittingSizes => Cups.GroupBy(SittingOf).Select(sitting => sitting.Count());

    private bool HasBags { get; }

    /// <summary>The model; nothing where the log leaves no chance to judge by.</summary>
    /// <param name="cups">Scored cups of one taster, one of each set of repeats.</param>
    /// <param name="cupsByDay">Cups tasted on each day, whatever for.</param>
    /// <param name="watch">Is told of the work.</param>
    public static DayToDayModel? Of(IReadOnlyList<Tasting> cups, IReadOnlyDictionary<DateOnly, int> cupsByDay, WorkWatch watch)
    {
        var columns = ScoreColumns.Of(cups);
        var design = ModelDesign.For("score", columns.Scores);
        foreach (var column in new Column?[] { columns.Brewer, columns.RecipeFrom, columns.Rest, columns.RestStated, columns.Position })
            design = column is null ? design : design.WithFixed(column);
        double[] thatDay = [.. cups.Select(cup => (double)cupsByDay[cup.TastedOn])];
        var terms = new List<string> { columns.BrewInWords() };
        if (thatDay.Distinct().Skip(1).Any())
        {
            design = design.WithFixed(new NumericColumn(CupsThatDay, thatDay));
            terms.Add("number of cups that day");
        }

        var random = new List<string> { "coffee" };
        var coffee = Grouped("coffee", cups, Factor.Coffee.LevelOf);
        design = design.WithRandomIntercept(coffee);
        var bag = Grouped("bag", cups, Factor.Bag.LevelOf);
        var hasBags = bag.Levels.Count - coffee.Levels.Count >= 2;
        if (hasBags)
        {
            design = design.WithRandomIntercept(bag);
            random.Add("bag");
        }

        if (ScoreFit.Of(design, watch) is not { } fit)
            return null;
        var brew = Grouped(BrewOfBag, cups, BrewOf);
        if (brew.Levels.Count > bag.Levels.Count && brew.Levels.Count <= 0.8 * cups.Count
            && ScoreFit.Of(design.WithRandomIntercept(brew), watch) is { } withBrews && fit.Deviance - withBrews.Deviance > NoughtDoubted)
        {
            (design, fit) = (design.WithRandomIntercept(brew), withBrews);
            random.Add("brewer and recipe within the bag");
        }

        var without = fit.Deviance;
        var hasSittings = SittingsRefused(cups) is null;
        if (hasSittings)
        {
            if (ScoreFit.Of(design.WithRandomIntercept(Grouped(Sitting, cups, SittingOf)), watch) is not { } withSittings)
                return null;
            fit = withSittings;
            random.Add(Sitting);
        }

        var words = $"linear mixed model of the score; fixed: {string.Join(", ", terms)}; random intercepts: {string.Join(", ", random)}";
        return new DayToDayModel(fit, cups, words, hasSittings, hasBags, without - fit.Deviance);
    }

    /// <summary>Why the spread between sittings can't be told from that of single cups; nothing where it can.</summary>
    public static PartAnswer.Refused? SittingsRefused(IReadOnlyList<Tasting> cups)
    {
        int[] sizes = [.. cups.GroupBy(SittingOf).Select(sitting => sitting.Count())];
        var several = sizes.Count(size => size > 1);
        const string More = "Taste two or three different brews in each of eight sittings or more.";
        return 2 * several < sizes.Length
            ? new PartAnswer.Refused($"Most sittings hold one cup ({sizes.Length - several} of {sizes.Length}): a sitting's own form can't be told from the chance of its cup.", More)
            : several < FewestSittings
                ? new PartAnswer.Refused($"Only {NumberText.Count(several, "sitting holds", "sittings hold")} two cups or more: too few to tell sittings from single cups.", More)
                : null;
    }

    /// <summary>The score's fixed part, cup by cup: what the brew, the rest and the order of tasting make of an average coffee.</summary>
    public double[] FixedPart()
    {
        var values = Fit.FittedValues();
        foreach (var (group, levelOf) in Groups())
        {
            var modes = Fit.ConditionalModes(group);
            for (var row = 0; row < values.Length; row++)
                values[row] -= modes[levelOf(Cups[row])].Mode;
        }

        return values;
    }

    /// <summary>Each coffee's deviation from an average one, its bags averaged.</summary>
    public IReadOnlyList<LinearFunction> Coffees() =>
        [.. Cups.GroupBy(Factor.Coffee.LevelOf).Select(cups =>
        {
            var function = Fit.RandomEffect("coffee", cups.Key);
            return HasBags ? function + LinearFunction.Mean(cups.Select(Factor.Bag.LevelOf).Distinct().Select(bag => Fit.RandomEffect("bag", bag))) : function;
        })];

    /// <summary>The variance of one cup over days: the residual's and that between sittings.</summary>
    public VarianceSum Day => HasSittings ? Fit.ResidualVarianceWith(Sitting) : Fit.ResidualVarianceWith();

    /// <summary>The variance between sittings; nothing where it is estimated as nought.</summary>
    public VarianceSum? Sittings => Fit.InterceptVariance(Sitting);

    private IEnumerable<(string Group, Func<Tasting, string> LevelOf)> Groups() =>
        Fit.VarianceComponents.Select(component => component.Group).Distinct().Select(group => (group, group switch
        {
            "coffee" => (Func<Tasting, string>)Factor.Coffee.LevelOf,
            "bag" => Factor.Bag.LevelOf,
            BrewOfBag => BrewOf,
            _ => SittingOf,
        }));

    private static CategoricalColumn Grouped(string name, IReadOnlyList<Tasting> cups, Func<Tasting, string> levelOf) =>
        CategoricalColumn.From(name, [.. cups.Select(levelOf)]);

    private static string BrewOf(Tasting cup) => $"{cup.Bag.Id} | {Factor.Brewer.LevelOf(cup)} | {Factor.Recipe.LevelOf(cup)} | {Factor.RecipeFrom.LevelOf(cup)}";

    private static string SittingOf(Tasting cup) => cup.Sitting ?? $"{cup.TastedOn:O}";
}
