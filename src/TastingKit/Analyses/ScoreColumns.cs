using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Scored cups as the columns of a model, with what the log supports of each: a column is only there if it can tell cups apart.
/// </summary>
internal sealed class ScoreColumns
{
    public const string RestName = "rest days";

    private const int FewestCupsForRest = 30;
    private const int FewestRestDays = 6;
    private const int MostSessions = 500;
    private const int CupsForCurve = 150;
    private const int MostEquipment = 6;

    // A parameter of the method must be known of most cups before others are held against one another at equal values of it.
    private const double ShareStated = 0.5;

    // Clear of the days between which a slope is asked for.
    private static readonly double[] CurveKnots = [0.005, 0.1, 0.4, 0.7, 0.995];

    private ScoreColumns(IReadOnlyList<Tasting> cups, TastingAttribute attribute)
    {
        Cups = cups;
        Scores = [.. cups.Select(c => c.ValueOf(attribute)!.Value)];
        Brewer = Varying(Factor.Brewer, cups);
        RecipeFrom = Varying(Factor.RecipeFrom, cups);
        var positions = cups.Select(c => c.Position).OfType<int>().ToArray();
        if (positions.Distinct().Count() > 1)
        {
            var mean = positions.Average();
            Position = new NumericColumn("position", cups.Select(c => c.Position ?? mean).ToArray());
        }

        var rests = cups.Select(c => c.RestDays).OfType<int>().Order().ToArray();
        if (rests.Length >= FewestCupsForRest && rests.Distinct().Count() >= FewestRestDays)
        {
            MedianRest = rests[rests.Length / 2];
            RestDays = new NumericColumn(RestName, cups.Select(c => (double)(c.RestDays ?? MedianRest)).ToArray());
            double[] inner = [Quantile(rests, 1 / 3.0), Quantile(rests, 2 / 3.0)];
            var (low, high) = (Quantile(rests, 0.02), Quantile(rests, 0.98));
            Rest = low < inner[0] && inner[0] < inner[1] && inner[1] < high
                ? NaturalSpline.At(RestDays, [low, .. inner, high])
                : null;
            if (rests.Length < cups.Count)
                RestStated = CategoricalColumn.From("rest stated", [.. cups.Select(c => c.RestDays is null ? "no" : "yes")], ["yes", "no"]);
        }

        var tasters = Varying(Factor.Taster, cups);
        if (tasters is not null && tasters.Levels.Count < 0.5 * cups.Count)
            Taster = tasters;

        var sessions = cups.Where(c => c.Sitting is not null).GroupBy(c => c.Sitting).ToArray();
        if (sessions.Count(s => s.Count() > 1) >= 5 && sessions.Length >= 8)
        {
            Session = CategoricalColumn.From("session", [.. cups.Select(SessionOf)]);
        }
    }

    private ScoreColumns(ScoreColumns withSessions)
    {
        (Cups, Scores, Brewer, RecipeFrom, Position) = (withSessions.Cups, withSessions.Scores, withSessions.Brewer, withSessions.RecipeFrom, withSessions.Position);
        (RestDays, Rest, RestStated, MedianRest, Taster) = (withSessions.RestDays, withSessions.Rest, withSessions.RestStated, withSessions.MedianRest, withSessions.Taster);
    }

    public IReadOnlyList<Tasting> Cups { get; }

    public double[] Scores { get; }

    public CategoricalColumn? Brewer { get; }

    public CategoricalColumn? RecipeFrom { get; }

    public NumericColumn? Position { get; }

    public NumericColumn? RestDays { get; }

    public CovariateBasis? Rest { get; }

    public CategoricalColumn? RestStated { get; }

    public CategoricalColumn? Session { get; }

    /// <summary>The taster, where more than one tasted.</summary>
    public CategoricalColumn? Taster { get; }

    public int? MedianRest { get; }

    public static ScoreColumns Of(IReadOnlyList<Tasting> cups) => new(cups, TastingAttribute.Score);

    /// <summary>The columns of a model of an attribute that every cup has a value of.</summary>
    public static ScoreColumns Of(IReadOnlyList<Tasting> cups, TastingAttribute attribute) => new(cups, attribute);

    /// <summary>The factor's column, or nothing where all cups have the same level.</summary>
    public static CategoricalColumn? Varying(Factor factor, IReadOnlyList<Tasting> cups)
    {
        string[] levels = [.. cups.Select(factor.LevelOf)];
        return levels.Distinct().Skip(1).Any() ? CategoricalColumn.From(factor.Name, levels) : null;
    }

    /// <summary>
    /// The covariate's column, about its mean, and where some cups do not state it, whether they do; nothing where fewer than half do, or all that
    /// do have one value.
    /// </summary>
    public static IReadOnlyList<Column> Stated(Covariate covariate, IReadOnlyList<Tasting> cups)
    {
        double[] known = [.. cups.Select(covariate.ValueOf).OfType<double>()];
        if (known.Length < ShareStated * cups.Count || known.Max() - known.Min() <= 1e-9)
            return [];
        var mean = known.Average();
        var values = new NumericColumn(covariate.Name, cups.Select(c => (covariate.ValueOf(c) ?? mean) - mean).ToArray());
        return known.Length == cups.Count
            ? [values]
            : [values, CategoricalColumn.From($"{covariate.Name} stated", [.. cups.Select(c => covariate.ValueOf(c) is null ? "no" : "yes")], ["yes", "no"])];
    }

    /// <summary>Water, filter and grinder as the cups state them, where they vary and are few.</summary>
    public static IEnumerable<CategoricalColumn> Equipment(IReadOnlyList<Tasting> cups) =>
        new[] { Factor.Water, Factor.Filter, Factor.Grinder }.Select(factor => Varying(factor, cups)).OfType<CategoricalColumn>().Where(column => column.Levels.Count <= MostEquipment);

    /// <summary>A step for all cups from a day on, at which water or equipment changed.</summary>
    public static NumericColumn EquipmentSince(DateOnly day, IReadOnlyList<Tasting> cups) =>
        new($"equipment since {NumberText.Day(day)}", cups.Select(c => c.TastedOn >= day ? 1.0 : 0).ToArray());

    /// <summary>The most common level, the first in ordinal order among equals; nothing where no cup states one.</summary>
    public static string? MostCommon(Factor factor, IReadOnlyList<Tasting> cups) =>
        cups.Select(factor.LevelOf).Where(level => level != Factor.NotStated)
            .GroupBy(level => level).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal)
            .FirstOrDefault()?.Key;

    /// <summary>
    /// The curve of rest where it is asked about, and not only held equal. A natural spline is straight beyond its last knots, which a coffee is not
    /// in its first days: where there are cups enough the knots reach nearly to the ends. Nothing where there is no <see cref="Rest"/> either.
    /// </summary>
    /// <param name="days">The days of each cup.</param>
    public CovariateBasis? RestCurve(double[] days)
    {
        double[] sorted = [.. days.Order()];
        double[] knots = [.. CurveKnots.Select(share => sorted[(int)Math.Round(share * (sorted.Length - 1))])];
        return days.Length >= CupsForCurve && knots.Distinct().Count() == knots.Length
            ? NaturalSpline.At(new NumericColumn(RestName, days), knots)
            : Rest;
    }

    /// <summary>Adds the brew to a design: brewer, recipe, rest and position as fixed terms, session and taster as random ones.</summary>
    public ModelDesign AddBrewTo(ModelDesign design)
    {
        foreach (var column in new Column?[] { Brewer, RecipeFrom, Rest, RestStated, Position })
        {
            if (column is not null)
                design = design.WithFixed(column);
        }

        return AddRandomTo(design);
    }

    /// <summary>Adds what a session and a taster have to themselves.</summary>
    public ModelDesign AddRandomTo(ModelDesign design)
    {
        foreach (var column in Random)
            design = design.WithRandomIntercept(column);
        return design;
    }

    /// <summary>
    /// The same without sessions where there are more than five hundred: crossed with all coffees they would make a fit take minutes. It is
    /// told by <see cref="SessionsLeftOut"/>.
    /// </summary>
    public ScoreColumns WithoutManySessions() => Session is null || Session.Levels.Count <= MostSessions
        ? this
        : new ScoreColumns(this)
        {
            SessionsLeftOut = new Caution("sessions-not-allowed-for",
                $"Of more than {MostSessions} sessions ({Session.Levels.Count}) what the cups of one share is not allowed for: where sessions differ much, intervals are a little too narrow."),
        };

    /// <summary>The same with a session's own shift left among what scatters by chance.</summary>
    public ScoreColumns WithoutSessions() => Session is null
        ? this
        : new ScoreColumns(this)
        {
            SessionsLeftOut = new Caution("sessions-take-up-chance",
                $"A term for each of {Session.Levels.Count} sessions would leave a single cup of {Cups.Count} less chance than the steps of the scale: what the cups of one session share counts as chance of each."),
        };

    /// <summary>Why sessions are not allowed for.</summary>
    public Caution? SessionsLeftOut { get; private init; }

    /// <summary>A cup's session in the model: a cup without one is a sitting of its own.</summary>
    public static string SessionOf(Tasting cup) => cup.Sitting ?? $"only {cup.Id}";

    /// <summary>Rows of cups that follow one another in a sitting, in the order of tasting as far as the log tells it.</summary>
    /// <param name="cups">The cups; those without a sitting follow none.</param>
    public static IEnumerable<(int First, int Second)> Neighbours(IReadOnlyList<Tasting> cups)
    {
        foreach (var sitting in Enumerable.Range(0, cups.Count).Where(row => cups[row].Sitting is not null).GroupBy(row => cups[row].Sitting))
        {
            int[] inOrder = [.. sitting.OrderBy(row => cups[row].Position).ThenBy(row => cups[row].TastedAt).ThenBy(row => cups[row].Id, StringComparer.Ordinal)];
            foreach (var pair in inOrder.Zip(inOrder.Skip(1)))
                yield return pair;
        }
    }

    /// <summary>The setting of the brew's fixed terms of a cup that is yet to be brewed.</summary>
    public Setting At(Tasting planned)
    {
        return WhenAndWhere(At(new StandardBrew(Factor.Brewer.LevelOf(planned), Factor.RecipeFrom.LevelOf(planned), null)), planned);
    }

    /// <summary>A setting with the rest and the position of a cup that is yet to be brewed.</summary>
    public Setting WhenAndWhere(Setting setting, Tasting planned)
    {
        if (Rest is not null && (planned.RestDays ?? MedianRest) is { } rest)
            setting = setting.With(RestName, rest);
        if (RestStated is not null)
            setting = setting.With(RestStated.Name, planned.RestDays is null ? "no" : "yes");
        return Position is not null && planned.Position is { } position ? setting.With(Position.Name, position) : setting;
    }

    /// <summary>The setting of the brew's fixed terms at a standard brew, first in its session.</summary>
    public Setting At(StandardBrew brew)
    {
        var setting = Setting.Averaged(MarginalWeights.AsObserved);
        if (Brewer is not null && brew.Brewer is not null)
            setting = setting.With(Brewer.Name, brew.Brewer);
        if (RecipeFrom is not null && brew.RecipeFrom is not null)
            setting = setting.With(RecipeFrom.Name, brew.RecipeFrom);
        if (Position is not null)
            setting = setting.With(Position.Name, 1);
        if (Rest is not null && brew.RestDays is { } days)
            setting = setting.With(RestName, days);
        return RestStated is null ? setting : setting.With(RestStated.Name, "yes");
    }

    /// <summary>The brew most cups had: brewer, recipe, median rest.</summary>
    public StandardBrew CommonBrew() =>
        new(MostCommon(Factor.Brewer, Cups), MostCommon(Factor.RecipeFrom, Cups), Rest is null ? null : MedianRest);

    /// <summary>The random terms of the brew, by name.</summary>
    public IEnumerable<string> RandomTerms => Random.Select(column => column.Name);

    private IEnumerable<CategoricalColumn> Random => new[] { Session, Taster }.OfType<CategoricalColumn>();

    /// <summary>The fixed terms of the brew in words.</summary>
    public string BrewInWords()
    {
        var terms = new List<string>();
        if (Brewer is not null)
            terms.Add("brewer");
        if (RecipeFrom is not null)
            terms.Add("whose recipe");
        if (Rest is not null)
            terms.Add("days of rest (natural cubic spline)");
        if (Position is not null)
            terms.Add("position in the session");
        return terms.Count == 0 ? "no adjustment for the brew, which does not vary in the log" : string.Join(", ", terms);
    }

    private static double Quantile(int[] sorted, double share) => sorted[(int)Math.Round(share * (sorted.Length - 1))];
}
