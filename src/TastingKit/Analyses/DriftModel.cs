using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model that tells the sums of slopes. With a, b, c, f the slopes of effective rest, calendar, roast date and days frozen, and
/// calendar = roast date + effective rest + days frozen, its slope of rest is a + b, that of the roast date b + c, that of days frozen b + f.
/// </summary>
/// <remarks>
/// <para>
/// Bags have random intercepts and the roast date is a fixed term beside them: what makes later bags better stays out of the slope of rest, and
/// bags that were dropped after poor first cups do not tilt it, as they would with a level of its own for each bag. A bag with frozen doses, and
/// each roasting of a lot roasted again, has a fixed level of its own, so that no such bag is taken for a random one of all.
/// </para>
/// <para>
/// Columns are added with the slopes of time last, so that one that the others settle is left out and never told in their place.
/// </para>
/// </remarks>
internal sealed class DriftModel
{
    public const double DaysAMonth = Covariate.DaysAYear / 12;

    private const string OwnLevel = "bags with a level of their own";
    private const string Others = "(other bags)";
    private const string FrozenName = "years frozen";
    private const string StepName = "frozen";
    private const string RoastName = "roast date in years";
    private const int FewestRandomBags = 5;

    private static readonly Covariate[] Brew = [Covariate.WaterTemperature, Covariate.Ratio, Covariate.Strength];

    private readonly CategoricalColumn? _own;
    private readonly NumericColumn? _roast;
    private readonly double _middleRoast;
    private readonly Column? _rest;

    private DriftModel(LinearMixedModelFit fit, CategoricalColumn? own, NumericColumn? roast, double middleRoast, Column? rest, int from, int to, Caution? sessionsLeftOut, string words)
    {
        (Fit, _own, _roast, _middleRoast, _rest, FromDay, ToDay, SessionsLeftOut, Words) = (fit, own, roast, middleRoast, rest, from, to, sessionsLeftOut, words);
    }

    public LinearMixedModelFit Fit { get; }

    /// <summary>The days of rest between which the slope of rest is the mean one.</summary>
    public int FromDay { get; }

    public int ToDay { get; }

    public string Words { get; }

    /// <summary>That the sessions are too many to be allowed for.</summary>
    public Caution? SessionsLeftOut { get; }

    /// <summary>The model; nothing where no chance is left to judge by.</summary>
    /// <param name="log">The log, for its changes of equipment.</param>
    /// <param name="cups">The cups, frozen doses among them; each has a value of the attribute.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="restIsKnown">Whether rest is effective rest, of every cup; else it is counted from the bag's first cup.</param>
    /// <param name="adjustedFor">Numbers of the brew that cups are held against one another at equal values of, beside its temperature, ratio and strength.</param>
    public static DriftModel? Of(TastingLog log, IReadOnlyList<Tasting> cups, TastingAttribute attribute, bool restIsKnown, IReadOnlyList<Covariate> adjustedFor)
    {
        var columns = ScoreColumns.Of(cups, attribute);
        var design = ModelDesign.For(attribute.Name, columns.Scores);
        var words = new List<string>();
        foreach (var column in new Column?[] { columns.Brewer, columns.RecipeFrom, columns.Position })
            Add(column);
        foreach (var column in ScoreColumns.Equipment(cups))
            Add(column);
        foreach (var column in adjustedFor.Concat(Brew).DistinctBy(covariate => covariate.Name).Where(covariate => covariate.Name != columns.Position?.Name).SelectMany(covariate => ScoreColumns.Stated(covariate, cups)))
        {
            if ((words.Count + 1) * MethodModel.CupsAFixedColumn <= cups.Count)
                Add(column);
        }

        var own = OwnLevels(cups);
        Add(own);
        foreach (var step in Steps(log, cups))
            Add(step);
        if (cups.GroupBy(c => c.Bag.Id).Any(bag => bag.Any(IsFrozen) && !bag.All(IsFrozen)))
            Add(new NumericColumn(StepName, cups.Select(c => IsFrozen(c) ? 1.0 : 0).ToArray()));

        var days = restIsKnown ? cups.Select(c => (double)c.RestDays!.Value).ToArray() : DaysSinceFirst(cups);
        var (from, to) = Range(cups, days);
        Column? rest = from == to ? null : restIsKnown && columns.RestCurve(days) is { } curve ? curve : new NumericColumn(ScoreColumns.RestName, days);
        Add(rest);
        NumericColumn? roast = null;
        var middle = 0.0;
        if (restIsKnown && cups.Select(c => c.Bag.RoastDate).Distinct().Count() > 2)
        {
            double[] dates = [.. cups.Select(c => YearOf(c.Bag))];
            middle = dates.Average();
            roast = new NumericColumn(RoastName, dates.Select(date => date - middle).ToArray());
            Add(roast);
        }

        if (cups.Any(IsFrozen))
            Add(new NumericColumn(FrozenName, cups.Select(c => c.FrozenDays / Covariate.DaysAYear).ToArray()));

        var withSessions = columns.WithoutManySessions();
        design = withSessions.AddRandomTo(design);
        if (RandomBags(cups, own) is { } bags)
        {
            design = design.WithRandomIntercept(bags);
            // Without roast dates the mean day within the bag keeps what differs between bags out of the slope.
            if (!restIsKnown)
                design = WithinCoffees.AddMeans(design, bags, rest);
        }

        return ScoreFit.Of(design, log.Watch) is { } fit
            ? new DriftModel(fit, own, roast, middle, rest, from, to, withSessions.SessionsLeftOut,
                $"linear mixed model of {MethodWords.Named(attribute)}; fixed: {string.Join(", ", words)}; random: {string.Join(", ", design.RandomTerms.Select(term => term.Group.Name))}")
            : null;

        void Add(Column? column)
        {
            if (column is null)
                return;
            design = design.WithFixed(column);
            words.Add(column is CovariateBasis ? $"{ScoreColumns.RestName} (natural cubic spline)" : column.Name);
        }
    }

    public static bool IsFrozen(Tasting cup) => cup.FrozenOn is not null;

    /// <summary>Lots of which cups of at least two roast dates are there.</summary>
    public static IEnumerable<IGrouping<string, Tasting>> LotsRoastedAgain(IEnumerable<Tasting> cups) =>
        cups.Where(c => !IsFrozen(c) && c.Bag.RoastDate is not null).GroupBy(c => c.Bag.Coffee.Id).Where(lot => lot.Select(c => c.Bag.RoastDate).Distinct().Count() > 1);

    /// <summary>The mean slope of rest and drift together from the first to the last of the days, a day; nothing where the cups do not tell it.</summary>
    public LinearFunction? RestAndDrift() => _rest switch
    {
        null => null,
        NumericColumn line => Coefficient(line.Name),
        _ => Told(() => (1.0 / (ToDay - FromDay)) * (Fit.At(Anywhere.With(ScoreColumns.RestName, ToDay)) - Fit.At(Anywhere.With(ScoreColumns.RestName, FromDay)))),
    };

    /// <summary>Coffee and drift together, a year of the roast date.</summary>
    public LinearFunction? CoffeeAndDrift() => _roast is null ? null : Coefficient(RoastName);

    /// <summary>Freezer and drift together, a year.</summary>
    public LinearFunction? FreezerAndDrift() => Coefficient(FrozenName);

    /// <summary>What freezing itself does.</summary>
    public LinearFunction? FreezingStep() => Coefficient(StepName);

    /// <summary>A roasting's level at the mean of everything else, rest included.</summary>
    public LinearFunction? LevelOf(Bag bag) => _own is null || _roast is null
        ? null
        : Told(() => Fit.At(Anywhere.With(OwnLevel, bag.Id).With(RoastName, YearOf(bag) - _middleRoast)));

    /// <summary>A bag's roast date in years.</summary>
    public static double YearOf(Bag bag) => bag.RoastDate!.Value.DayNumber / Covariate.DaysAYear;

    public DriftSlope Estimate(LinearFunction function) => DriftSlope.Of(Fit.Estimate(function));

    private static Setting Anywhere => Setting.Averaged(MarginalWeights.AsObserved);

    // A column that the others settle is left out of the fit, and has no coefficient.
    private LinearFunction? Coefficient(string name) => Fit.FixedEffects.Any(effect => effect.Name == name) ? Told(() => Fit.FixedEffect(name)) : null;

    private static LinearFunction? Told(Func<LinearFunction> function)
    {
        try
        {
            return function();
        }
        catch (ModelException)
        {
            return null;
        }
    }

    private static CategoricalColumn? OwnLevels(IReadOnlyList<Tasting> cups)
    {
        var own = cups.Where(IsFrozen).Select(c => c.Bag.Id)
            .Concat(LotsRoastedAgain(cups).SelectMany(lot => lot).Select(c => c.Bag.Id)).ToHashSet(StringComparer.Ordinal);
        // Of a handful of bags it can't be told how bags scatter: each has its own level then.
        var all = cups.Select(c => c.Bag.Id).Distinct().ToArray();
        if (all.Length - own.Count < FewestRandomBags)
            own.UnionWith(all);
        string[] levels = [.. cups.Select(c => own.Contains(c.Bag.Id) ? c.Bag.Id : Others)];
        return levels.Distinct().Skip(1).Any() ? CategoricalColumn.From(OwnLevel, levels) : null;
    }

    /// <summary>Bags as a random term; those with a level of their own share one, which cancels where they are held against each other.</summary>
    private static CategoricalColumn? RandomBags(IReadOnlyList<Tasting> cups, CategoricalColumn? own)
    {
        string[] levels = [.. cups.Select((cup, row) => own is null || own.Levels[own.Codes[row]] == Others ? cup.Bag.Id : Others)];
        var count = levels.Distinct().Count();
        return count > FewestRandomBags && count < cups.Count ? CategoricalColumn.From(Factor.Bag.Name, levels) : null;
    }

    private static IEnumerable<NumericColumn> Steps(TastingLog log, IReadOnlyList<Tasting> cups) =>
        ScoreCautions.ChangesAmong(log, cups).Select(change => change.ChangedOn).Distinct().Select(day => ScoreColumns.EquipmentSince(day, cups));

    private static double[] DaysSinceFirst(IReadOnlyList<Tasting> cups)
    {
        var first = cups.GroupBy(c => c.Bag.Id).ToDictionary(bag => bag.Key, bag => bag.Min(c => c.TastedOn.DayNumber - c.FrozenDays));
        return [.. cups.Select(c => (double)(c.TastedOn.DayNumber - c.FrozenDays - first[c.Bag.Id]))];
    }

    /// <summary>The middle eight tenths of the days of bags that were tasted fresh on more than one day; twice the same where there is no such bag.</summary>
    private static (int From, int To) Range(IReadOnlyList<Tasting> cups, double[] days)
    {
        double[] told = [.. cups.Select((cup, row) => (cup, Day: days[row])).Where(c => !IsFrozen(c.cup)).GroupBy(c => c.cup.Bag.Id)
            .Where(bag => bag.Max(c => c.Day) > bag.Min(c => c.Day)).SelectMany(bag => bag.Select(c => c.Day)).Order()];
        return told.Length == 0 ? (0, 0) : ((int)told[(int)(0.1 * (told.Length - 1))], (int)told[(int)(0.9 * (told.Length - 1))]);
    }
}
