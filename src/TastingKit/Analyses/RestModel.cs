using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model of the course over rest: a line and a penalised smooth that all cups share, the deviations of each kind from both, and
/// what bags, coffees, sessions and tasters have to themselves. The rest at a bag's first cup is a term of its own, so that bags opened late
/// being better or poorer makes no course. (The mean over the bag's cups would do that too, but hangs on how long the bag was brewed: where poor
/// bags are dropped, it makes those that were kept look as if they had grown worse.)
/// </summary>
internal sealed class RestModel
{
    private const int Knots = 9;
    private const int CupsAFixedColumn = 6;
    private const int FewestBagsThatTilt = 6;
    private const int FewestCupsOfATilt = 3;
    private const double ShareOfSecondBags = 0.2;
    private const int CupsACell = 2;
    private const int MostRounds = 4;

    // Scales of the half-t prior on standard deviations, against that of the cups about the fixed part: coffees differ by more than any of them
    // changes as it rests, and the courses of kinds and of bags by less than coffees change.
    private const double PriorScale = 0.4;
    private const double PriorScaleOfOwn = 0.08;

    private readonly ScoreColumns _columns;
    private readonly NumericColumn _rest;
    private readonly double _middle;
    private readonly PenalisedSpline _smooth;
    private readonly CategoricalColumn? _kind;
    private readonly CategoricalColumn _bag;
    private readonly CategoricalColumn? _coffee;
    private readonly IReadOnlyList<Cell> _cells;

    private RestModel(
        LinearMixedModelFit fit, ScoreColumns columns, NumericColumn rest, double middle, PenalisedSpline smooth, CategoricalColumn? kind, CategoricalColumn bag, CategoricalColumn? coffee,
        IReadOnlyList<Cell> cells, string words)
    {
        (Fit, _columns, _rest, _middle, _smooth, _kind, _bag, _coffee, _cells, Words) = (fit, columns, rest, middle, smooth, kind, bag, coffee, cells, words);
    }

    public LinearMixedModelFit Fit { get; }

    public string Words { get; }

    /// <summary>That the sessions are too many to be allowed for.</summary>
    public Caution? SessionsLeftOut => _columns.SessionsLeftOut;

    /// <summary>How many cups were set aside since they fit nothing else; nothing where none was.</summary>
    public Caution? OneOffsSetAside { get; private set; }

    /// <summary>The brew under which a course is told.</summary>
    public StandardBrew Brew => new(
        Has(_columns.Brewer) ? _columns.CommonBrew().Brewer : null, Has(_columns.RecipeFrom) ? _columns.CommonBrew().RecipeFrom : null, null);

    /// <summary>
    /// The model without the few cups that fit nothing else, since one that went wrong pulls a whole course down by what no day of rest explains.
    /// </summary>
    /// <param name="scored">Cups with a known rest and a value of the attribute.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="by">What sorts coffees into kinds; nothing for all of them together.</param>
    /// <param name="watch">Who watches.</param>
    /// <param name="used">Those that the model has; the others are accounted for.</param>
    /// <param name="openedAt">As below.</param>
    public static RestModel? Of(
        ScoredCups scored, TastingAttribute attribute, Factor? by, WorkWatch watch, out ScoredCups used, IReadOnlyDictionary<string, int>? openedAt = null)
    {
        used = scored;
        var model = Of(used.Cups, attribute, by, watch, openedAt);
        var setAside = new HashSet<Tasting>(ReferenceEqualityComparer.Instance);
        for (var round = 0; round < MostRounds && model is not null; round++)
        {
            var found = model.FittingNothingElse().ToArray();
            if (found.Length == 0)
                break;
            setAside.UnionWith(found);
            used = scored.Where(cup => !setAside.Contains(cup), "fitting nothing else");
            model = Of(used.Cups, attribute, by, watch, openedAt);
        }

        if (model is not null && setAside.Count > 0)
            model.OneOffsSetAside = ScoreCautions.OneOffsSetAside(setAside.Count, "the course is that of cups that went as cups do.");

        return model;
    }

    /// <summary>The cups whose distance from all that the model knows of them is no chance, at a false discovery rate of 5 %.</summary>
    private IEnumerable<Tasting> FittingNothingElse()
    {
        var adjusted = MultipleTesting.BenjaminiHochberg(
            [.. Fit.Residuals().Select(residual => 2 * StandardNormal.CumulativeProbability(-Math.Abs(residual) / Fit.ResidualStandardDeviation))]);
        return _columns.Cups.Where((_, row) => adjusted[row] <= OneOffAnalysis.SetAsideUpTo);
    }

    /// <summary>The model; nothing where the log leaves no chance to judge by.</summary>
    /// <param name="cups">Cups with a known rest and a value of the attribute.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="by">What sorts coffees into kinds; nothing for all of them together.</param>
    /// <param name="watch">Who watches.</param>
    /// <param name="openedAt">
    /// The age at which each bag was opened, where rest in an open bag is to be told from rest in a sealed one: the days open are then a term in
    /// place of the rest at the first cup, since the two can't both be known.
    /// </param>
    public static RestModel? Of(IReadOnlyList<Tasting> cups, TastingAttribute attribute, Factor? by, WorkWatch watch, IReadOnlyDictionary<string, int>? openedAt = null)
    {
        var columns = ScoreColumns.Of(cups, attribute).WithoutManySessions();
        var middle = cups.Average(c => Axis(c.RestDays!.Value));
        var rest = new NumericColumn(ScoreColumns.RestName, cups.Select(c => Axis(c.RestDays!.Value) - middle).ToArray());
        if (KnotsOf(rest, Knots) is not { } knots)
            return null;
        var smooth = PenalisedSpline.At(rest, knots);
        var bag = CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(Factor.Bag.LevelOf)]);

        var design = ModelDesign.For(attribute.Name, columns.Scores).WithFixed(rest);
        List<string> isFixed = ["rest (line in the square root of its days)"], random = ["a penalised cubic spline of the same"];
        if (openedAt is not null)
        {
            design = design.WithFixed(new NumericColumn("days open", cups.Select(c => (double)(c.RestDays!.Value - openedAt[c.Bag.Id])).ToArray()));
            isFixed.Add("days open");
        }
        else if (AtFirstCup(cups) is { } atFirstCup)
        {
            design = design.WithFixed(atFirstCup);
            isFixed.Add("the rest at the bag's first cup");
        }

        var left = (cups.Count / CupsAFixedColumn) - 3;
        foreach (var (column, words) in new (Column?, string)[] { (columns.Brewer, "brewer"), (columns.RecipeFrom, "whose recipe"), (columns.Position, "position in the session") })
        {
            var width = column is CategoricalColumn factor ? factor.Levels.Count - 1 : 1;
            if (column is null || width > left)
                continue;
            left -= width;
            design = design.WithFixed(column);
            isFixed.Add(words);
        }

        design = design.WithSmooth(smooth);
        var cells = new List<Cell>();
        var kind = by is null ? null : ScoreColumns.Varying(by, cups);
        if (kind is not null)
        {
            design = design.WithRandomIntercept(kind).WithRandomSlope(kind, rest).WithSmooth(smooth, kind);
            random.Add($"intercept, line and spline by {by!.Name}");
            foreach (var cell in CellsOf(kind, columns, design))
            {
                cells.Add(cell);
                design = design.WithRandomIntercept(cell.Column);
                random.Add($"{by.Name} by {cell.OfBrew.Name}");
            }
        }

        design = design.WithRandomIntercept(bag);
        if (cups.GroupBy(c => c.Bag.Id).Count(g => g.Select(c => c.RestDays).Distinct().Count() >= FewestCupsOfATilt) >= FewestBagsThatTilt)
        {
            design = design.WithRandomSlope(bag, rest);
            random.Add("intercept and line by bag");
        }
        else
        {
            random.Add("intercept by bag");
        }

        CategoricalColumn? coffee = null;
        var coffees = CategoricalColumn.From(Factor.Coffee.Name, [.. cups.Select(Factor.Coffee.LevelOf)]);
        // Where hardly a coffee has two bags, the bag stands for its coffee.
        if (bag.Levels.Count - coffees.Levels.Count >= ShareOfSecondBags * bag.Levels.Count)
        {
            coffee = coffees;
            design = design.WithRandomIntercept(coffee);
            random.Add("coffee");
        }

        design = AddTasters(columns.AddRandomTo(design), columns, rest, random);
        random.AddRange(columns.RandomTerms);
        return ScoreFit.Of(design, watch) is { } fit
            ? new RestModel(
                fit, columns, rest, middle, smooth, kind, bag, coffee, cells,
                $"linear mixed model of {MethodWords.Named(attribute)}; fixed: {string.Join(", ", isFixed)}; random: {string.Join(", ", random)}")
            : null;
    }

    /// <summary>
    /// The few functions of the fit that make a kind's course: its level at the middle of rest, its line, and its weights of the
    /// smooth.
    /// </summary>
    /// <param name="level">The kind; nothing for all coffees.</param>
    /// <param name="bags">Its bags, each counted once.</param>
    public IReadOnlyList<FurtherFunction> PartsOf(string? level, IReadOnlyList<Tasting> bags)
    {
        var setting = Setting.Averaged(MarginalWeights.AsObserved).With(_rest.Name, 0);
        foreach (var (column, stated) in new[] { (_columns.Brewer, Brew.Brewer), (_columns.RecipeFrom, Brew.RecipeFrom) })
        {
            if (column is not null && stated is not null)
                setting = setting.With(column.Name, stated);
        }

        if (Has(_columns.Position))
            setting = setting.With(_columns.Position!.Name, 1);
        var middle = Fit.At(setting);
        var line = Fit.At(setting.With(_rest.Name, 1)) - middle;
        var weights = Enumerable.Range(0, _smooth.Width).Select(i => Fit.RandomEffect(_smooth.Name, "all", _smooth.FunctionName(i))).ToArray();
        if (_kind is not null && level is not null)
        {
            middle += Fit.RandomEffect(_kind.Name, level);
            line += Fit.RandomEffect(_kind.Name, level, _rest.Name);
            for (var i = 0; i < weights.Length; i++)
                weights[i] += Fit.RandomEffect(_kind.Name, level, _smooth.FunctionName(i));
        }

        middle += OverBags(bags, RandomTerm.Intercept);
        if (_coffee is not null)
            middle += LinearFunction.Mean(bags.Select(any => Fit.RandomEffect(_coffee.Name, Factor.Coffee.LevelOf(any))));
        if (HasBagLines)
            line += OverBags(bags, _rest.Name);
        var atBrew = new FurtherFunction(middle);
        foreach (var cell in level is null ? [] : _cells)
            atBrew += ScoreFit.Intercept(Fit, cell.Column.Name, $"{level}:{(cell.OfBrew == Factor.Brewer ? Brew.Brewer : Brew.RecipeFrom)}");
        return [atBrew, .. weights.Prepend(line).Select(part => new FurtherFunction(part))];
    }

    /// <summary>How variances are drawn, with what is known of courses beforehand.</summary>
    /// <param name="draws">How many.</param>
    public DrawOptions WithPrior(DrawOptions draws)
    {
        var scales = new Dictionary<(string Group, string Effect), double> { [(_bag.Name, _rest.Name)] = PriorScaleOfOwn };
        if (_kind is not null)
            (scales[(_kind.Name, _rest.Name)], scales[(_kind.Name, _smooth.FunctionName(0))]) = (PriorScaleOfOwn, PriorScaleOfOwn);
        return draws with { PriorScale = PriorScale, PriorScaleOfEffect = scales };
    }

    /// <summary>What the parts of a course count for on a day.</summary>
    public double[] WeightsAt(int restDays)
    {
        var at = Axis(restDays) - _middle;
        var weights = new double[2 + _smooth.Width];
        (weights[0], weights[1]) = (1, at);
        _smooth.Evaluate(at, weights.AsSpan(2));
        return weights;
    }

    /// <summary>What is left of each cup beside all but its bag's own line over rest.</summary>
    /// <remarks>Cups drawn to the last score of their bag look like bags that run their own ways, whose lines would hide them.</remarks>
    public double[] ResidualsWithBagLines() => HasBagLines ? ScoreFit.ResidualsWithSlopes(Fit, _bag, _rest) : Fit.Residuals();

    private bool HasBagLines => Fit.VarianceComponents.Any(component => component.Group == _bag.Name && component.Terms.Contains(_rest.Name));

    private bool Has(Column? column) => column is not null && Fit.Design.FixedTerms.Any(term => term.Name == column.Name);

    private LinearFunction OverBags(IReadOnlyList<Tasting> bags, string term) =>
        LinearFunction.Mean(bags.Select(any => Fit.RandomEffect(_bag.Name, Factor.Bag.LevelOf(any), term)));

    /// <summary>Young coffee changes faster than old: curves are as smooth early as late on the square root of rest.</summary>
    private static double Axis(int restDays) => Math.Sqrt(restDays);

    /// <summary>
    /// What kinds have to themselves on a brewer or a recipe, under one of which a course is told: without it a kind's level there would be taken for
    /// better known than it is. What a coffee has to itself there counts for little in the mean of a kind.
    /// </summary>
    private static IEnumerable<Cell> CellsOf(CategoricalColumn kind, ScoreColumns columns, ModelDesign design) =>
        new[] { (OfBrew: Factor.Brewer, Column: columns.Brewer), (OfBrew: Factor.RecipeFrom, Column: columns.RecipeFrom) }
            .Where(method => method.Column is not null && design.FixedTerms.Any(term => term.Name == method.Column.Name))
            .Select(method => new Cell(method.OfBrew, kind.Cross(method.Column!)))
            .Where(cell => cell.Column.Levels.Count > kind.Levels.Count && cell.Column.Levels.Count <= kind.Count / CupsACell);

    /// <summary>Rest at the first cup of each cup's bag; nothing where it is the same for all.</summary>
    private static NumericColumn? AtFirstCup(IReadOnlyList<Tasting> cups)
    {
        var first = cups.GroupBy(c => c.Bag.Id).ToDictionary(g => g.Key, g => g.Min(c => c.RestDays!.Value));
        return first.Values.Distinct().Skip(1).Any() ? new NumericColumn("rest at the first cup", cups.Select(c => (double)first[c.Bag.Id]).ToArray()) : null;
    }

    /// <summary>Several tasters have lines of their own, and days of their own where these hold more than one cup.</summary>
    private static ModelDesign AddTasters(ModelDesign design, ScoreColumns columns, NumericColumn rest, List<string> random)
    {
        if (columns.Taster is not { } taster)
            return design;
        random.Add("line by taster");
        design = design.WithRandomSlope(taster, rest);
        var days = CategoricalColumn.From("taster by day", [.. columns.Cups.Select(c => $"{Factor.Taster.LevelOf(c)} {c.TastedOn.DayNumber}")]);
        if (columns.Session is not null || days.Levels.Count > columns.Cups.Count * 0.7)
            return design;
        random.Add(days.Name);
        return design.WithRandomIntercept(days);
    }

    /// <summary>
    /// Knots at even shares of the days between the rarest ends, so that one forgotten bag does not stretch the curve; fewer where there are few days.
    /// </summary>
    private static double[]? KnotsOf(NumericColumn rest, int count)
    {
        double[] sorted = [.. rest.Values.ToArray().Order()];
        var (low, high) = (Quantiles.OfSorted(sorted, 0.01), Quantiles.OfSorted(sorted, 0.99));
        double[] days = [.. sorted.Distinct().Where(day => day >= low && day <= high)];
        var knots = Math.Min(count, days.Length);
        return knots < 3 ? null : [.. Enumerable.Range(0, knots).Select(i => Quantiles.OfSorted(days, (double)i / (knots - 1)))];
    }

    private sealed record Cell(Factor OfBrew, CategoricalColumn Column);
}
