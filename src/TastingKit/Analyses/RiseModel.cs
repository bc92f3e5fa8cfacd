using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The mixed model of all cups of the log whose terms are the parts of a change between two stretches of days. A part is the linear function
/// of its term: the mean over the later cups less that over the earlier ones.
/// </summary>
/// <remarks>
/// The date of roasting is a fixed term beside the kinds, so that what kinds are worth comes of cups of one time: a kind bought more often later
/// is not credited with what all coffees gained. Kinds of five levels or more are random terms, shrunk towards none.
/// Kinds that are random terms are known to differ, which the draws of their variances are told: their shares would else be taken for better known
/// than they are.
/// What a bag is worth is what it is worth on average over the days of rest of all cups: the share of rest is of the days it was tasted on against
/// those, and what a kind that peaks late loses at the usual rest is the kind's.
/// </remarks>
internal sealed class RiseModel
{
    private const int FewestRepeats = 5;
    private const int CupsACell = 3;
    private const int FewestBagsThatTilt = 6;
    private const int FewestDaysOfATilt = 3;
    private const int FewestRandomLevels = 5;
    private const int CoffeesAFixedLevel = 4;
    private const double CoffeesALevel = 1.2;
    public const string RestName = "days of rest at tasting";

    private const string TimeName = "date of roasting";
    private const string BlindName = "label known or not";

    private static readonly Factor[] Kinds =
        [Factor.Country, Factor.Process, Factor.Fermentation, Factor.Roaster, Factor.RoastLevel, Factor.Obtained];

    private readonly ScoreColumns _columns;
    private readonly IReadOnlyList<Tasting> _cups;
    private readonly double[] _weights;
    private readonly List<(string What, RiseSource Source, Func<LinearMixedModelFit, LinearFunction?> Share)> _terms = [];
    private readonly List<CategoricalColumn> _levels = [];
    private readonly List<string> _fixedWords = [];
    private readonly List<string> _randomWords = [];
    private readonly List<string> _randomKinds = [];
    private ModelDesign _design;
    private CategoricalColumn? _coffee;
    private CategoricalColumn? _bag;
    private (CategoricalColumn Bag, NumericColumn[] Runs)? _ownRuns;

    private RiseModel(ScoreColumns columns, TastingAttribute attribute, double[] weights)
    {
        (_columns, _cups, _weights) = (columns, columns.Cups, weights);
        _design = ModelDesign.For(attribute.Name, columns.Scores);
    }

    public LinearMixedModelFit Fit { get; private set; } = null!;

    /// <summary>The shares that the fit tells, in order.</summary>
    public IReadOnlyList<(string What, RiseSource Source, LinearFunction Share)> Shares { get; private set; } = [];

    /// <summary>Terms that others settle, so that the fit does not tell their shares.</summary>
    public IReadOnlyList<string> Untold { get; private set; } = [];

    /// <summary>The steady change by the date of roasting; nothing where it is not told.</summary>
    public LinearFunction? Steady { get; private set; }

    /// <summary>What coffees and their bags have to themselves, later less earlier; nothing where cups do not repeat within coffees.</summary>
    public LinearFunction? OwnEffects { get; private set; }

    /// <summary>By how many days the later cups were rested longer; nothing where rest is no term.</summary>
    public double? FurtherRestDays { get; private set; }

    /// <summary>The kinds of coffee that are terms.</summary>
    public IReadOnlyList<Factor> PurchasingFactors { get; private set; } = [];

    public string Words { get; private set; } = "";

    /// <summary>The model; nothing where no chance is left to judge by.</summary>
    /// <param name="log">The log, for its changes of equipment.</param>
    /// <param name="columns">All cups.</param>
    /// <param name="attribute">What is modelled.</param>
    /// <param name="weights">A cup's weight in the change: one over the later cups, minus one over the earlier ones, else nought.</param>
    public static RiseModel? Of(TastingLog log, ScoreColumns columns, TastingAttribute attribute, double[] weights)
    {
        var model = new RiseModel(columns, attribute, weights);
        model.AddPurchasing();
        model.AddBrewing();
        model.AddEquipment(log);
        model.AddTime();
        model.AddCoffees();
        model.AddDeviations();
        model._design = columns.AddRandomTo(model._design);
        model._randomWords.AddRange(columns.RandomTerms);
        if (ScoreFit.Of(model._design, log.Watch) is not { } fit)
            return null;
        model.Ask(fit);
        model.Words = $"linear mixed model of {MethodWords.Named(attribute)} over all cups of the log; fixed: {Listed(model._fixedWords)}; random: {Listed(model._randomWords)}";
        return model;
    }

    private void AddPurchasing()
    {
        var coffees = _cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        var factors = new List<Factor>();
        foreach (var factor in Kinds)
        {
            // A kind that nearly every coffee has to itself can't be told from the coffee.
            if (ScoreColumns.Varying(factor, _cups) is not { } column || column.Levels.Count * CoffeesALevel > coffees)
                continue;
            factors.Add(factor);
            if (column.Levels.Count >= FewestRandomLevels || coffees < CoffeesAFixedLevel * column.Levels.Count)
                AddRandomKind(column);
            else
                AddFixed(column, column.Name, RiseSource.Purchasing);
        }

        PurchasingFactors = factors;
        if (_cups.Select(c => c.Bag.Currency).OfType<string>().Distinct().Count() == 1)
            AddStated(Covariate.LogPrice, RiseSource.Purchasing);
    }

    private void AddBrewing()
    {
        AddFixed(_columns.Brewer, Factor.Brewer.Name, RiseSource.Brewing);
        AddFixed(_columns.RecipeFrom, Factor.RecipeFrom.Name, RiseSource.Brewing);
        AddStated(Covariate.WaterTemperature, RiseSource.Brewing);
        AddStated(Covariate.Ratio, RiseSource.Brewing);
        if (_columns.Rest is not null)
        {
            var days = _columns.RestDays!.Values.ToArray();
            var rest = _columns.RestCurve(days)!;
            FurtherRestDays = Change(days);
            _design = _design.WithFixed(rest);
            _fixedWords.Add("days of rest (natural cubic spline)");
            var stated = _columns.RestStated;
            if (stated is not null)
                _design = _design.WithFixed(stated);
            _terms.Add((RestName, RiseSource.Brewing, fit => Sum(
                [.. ByLevel(days).Select(day => (day.Weight, fit.At(Anywhere.With(ScoreColumns.RestName, day.Level)))), .. stated is null ? [] : Levels(fit, stated)])));
        }

        AddNumber(_columns.Position, "place in the sitting", RiseSource.Brewing);
        string[] labels = [.. _cups.Select(c => c.BlindTo.HasFlag(BlindTo.Label) || c.BlindTo.HasFlag(BlindTo.Coffee) ? "hidden" : "known")];
        if (labels.Distinct().Skip(1).Any())
            AddFixed(CategoricalColumn.From(BlindName, labels), BlindName, RiseSource.Brewing);
    }

    private void AddEquipment(TastingLog log)
    {
        var changes = ScoreCautions.ChangesAmong(log, _cups).GroupBy(change => change.ChangedOn).ToArray();
        var periods = CategoricalColumn.From("since", [.. _cups.Select(c => NumberText.Fixed(changes.Count(day => c.TastedOn >= day.Key), 0))]);
        foreach (var column in ScoreColumns.Equipment(_cups))
        {
            // What the cups state may be no more than what the listed changes say.
            if (column.Cross(periods).Levels.Count > periods.Levels.Count)
                AddFixed(column, column.Name, RiseSource.Equipment);
        }

        foreach (var day in changes)
            AddNumber(ScoreColumns.EquipmentSince(day.Key, _cups), $"change of {ScoreCautions.Said([.. day])}", RiseSource.Equipment);
    }

    /// <summary>The roast date, or where that is not known the day of the bag's first cup; last of all, so that it is left out if others settle it.</summary>
    private void AddTime()
    {
        var first = _cups.GroupBy(c => c.Bag.Id).ToDictionary(bag => bag.Key, bag => bag.Min(c => c.TastedOn.DayNumber), StringComparer.Ordinal);
        double[] dates = [.. _cups.Select(c => (c.Bag.RoastDate?.DayNumber ?? first[c.Bag.Id]) / Covariate.DaysAYear)];
        var middle = dates.Average();
        if (dates.All(date => date == dates[0]))
            return;
        _design = _design.WithFixed(new NumericColumn(TimeName, dates.Select(date => date - middle).ToArray()));
        _fixedWords.Add(TimeName);
    }

    private void AddCoffees()
    {
        var coffees = _cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        if (coffees < 2 || _cups.Count - coffees < FewestRepeats)
            return;
        _coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. _cups.Select(Factor.Coffee.LevelOf)]);
        _design = _design.WithRandomIntercept(_coffee);
        _randomWords.Add(_coffee.Name);
        var bags = _cups.Select(c => c.Bag.Id).Distinct().Count();
        if (bags - coffees < 2 || _cups.Count - bags < FewestRepeats)
            return;
        _bag = CategoricalColumn.From(Factor.Bag.Name, [.. _cups.Select(Factor.Bag.LevelOf)]);
        _design = _design.WithRandomIntercept(_bag);
        _randomWords.Add(_bag.Name);
    }

    /// <summary>
    /// What brewers and recipes do to coffees of one process and not of another, and how a bag runs over rest in a way of its own: part of the share
    /// of each, which would be taken for better known than it is without.
    /// </summary>
    private void AddDeviations()
    {
        foreach (var (column, what) in new[] { (_columns.Brewer, Factor.Brewer.Name), (_columns.RecipeFrom, Factor.RecipeFrom.Name) })
        {
            if (column is null || ScoreColumns.Varying(Factor.Process, _cups) is not { } process || process.Cross(column) is not { } cell
                || cell.Levels.Count <= column.Levels.Count || cell.Levels.Count >= _cups.Count / CupsACell)
            {
                continue;
            }

            _design = _design.WithRandomIntercept(cell);
            _randomWords.Add($"process by {what}");
            AddToShare(what, fit => Effects(fit, cell));
        }

        if (_columns.Rest is null)
            return;
        var days = _columns.RestDays!.Values.ToArray();
        var (tilt, bend) = RunsOverRest(days);
        var bag = _bag ?? CategoricalColumn.From(Factor.Bag.Name, [.. _cups.Select(Factor.Bag.LevelOf)]);
        if (_cups.Select((cup, row) => (cup.Bag.Id, Day: days[row])).GroupBy(cup => cup.Id).Count(ofBag => ofBag.Select(cup => cup.Day).Distinct().Count() >= FewestDaysOfATilt) < FewestBagsThatTilt)
            return;
        _randomWords.Add("line and bend over rest by bag");
        _ownRuns = (bag, [tilt, bend]);
        foreach (var run in new[] { tilt, bend })
        {
            _design = _design.WithRandomSlope(bag, run);
            AddToShare(RestName, fit => Sum(
                [.. Enumerable.Range(0, bag.Count).GroupBy(row => bag.Levels[bag.Codes[row]]).Select(rows => (Weight: rows.Sum(row => _weights[row] * run.Values[row]), Level: rows.Key))
                    .Where(ofBag => Math.Abs(ofBag.Weight) > 1e-12).Select(ofBag => (ofBag.Weight, fit.RandomEffect(bag.Name, ofBag.Level, run.Name)))]));
        }
    }

    /// <summary>The days of rest, and their square with the line taken off, in standard deviations of the days.</summary>
    private static (NumericColumn Tilt, NumericColumn Bend) RunsOverRest(double[] days)
    {
        var middle = days.Average();
        var spread = Math.Sqrt(days.Average(day => (day - middle) * (day - middle)));
        double[] line = [.. days.Select(day => (day - middle) / spread)];
        var skew = line.Average(value => value * value * value);
        return (new NumericColumn("line over rest", line), new NumericColumn("bend over rest", line.Select(value => (value * value) - 1 - (skew * value)).ToArray()));
    }

    /// <summary>How variances are drawn, with what is known of kinds beforehand.</summary>
    /// <param name="draws">How many.</param>
    public DrawOptions WithPrior(DrawOptions draws) => draws with { KnownToDiffer = [.. _randomKinds.Select(kind => (kind, RandomTerm.Intercept))] };

    /// <summary>What is left of each cup beside all but how its bag runs over rest.</summary>
    /// <remarks>Cups drawn to the last score of their bag look like bags that run their own ways, which would hide them.</remarks>
    public double[] ResidualsWithOwnRuns() => _ownRuns is var (bag, runs) ? ScoreFit.ResidualsWithSlopes(Fit, bag, runs) : Fit.Residuals();

    private void AddToShare(string what, Func<LinearMixedModelFit, LinearFunction> further)
    {
        var at = _terms.FindIndex(term => term.What == what);
        var (_, source, share) = _terms[at];
        _terms[at] = (what, source, fit => share(fit) is { } own ? own + further(fit) : null);
    }

    private void Ask(LinearMixedModelFit fit)
    {
        Fit = fit;
        var asked = _terms.Select(term => (term.What, term.Source, Share: Told(() => term.Share(fit)))).ToArray();
        Shares = [.. asked.Where(term => term.Share is not null).Select(term => (term.What, term.Source, term.Share!))];
        Untold = [.. asked.Where(term => term.Share is null).Select(term => term.What)];
        if (fit.FixedEffects.Any(effect => effect.Name == TimeName))
        {
            var column = fit.Design.FixedTerms.SelectMany(term => term.Columns).OfType<NumericColumn>().Single(each => each.Name == TimeName);
            Steady = Change(column.Values.ToArray()) * fit.FixedEffect(TimeName);
        }

        if (_coffee is not null)
            OwnEffects = new[] { _coffee, _bag }.OfType<CategoricalColumn>().Select(column => Effects(fit, column)).Aggregate((one, other) => one + other);
    }

    private void AddFixed(CategoricalColumn? column, string what, RiseSource source)
    {
        if (column is null)
            return;
        _design = _design.WithFixed(column);
        _levels.Add(column);
        _fixedWords.Add(column.Name);
        _terms.Add((what, source, fit => Sum([.. Levels(fit, column)])));
    }

    private void AddNumber(NumericColumn? column, string what, RiseSource source)
    {
        if (column is null)
            return;
        _design = _design.WithFixed(column);
        _fixedWords.Add(column.Name);
        _terms.Add((what, source, fit => fit.FixedEffects.Any(effect => effect.Name == column.Name) ? Change(column.Values.ToArray()) * fit.FixedEffect(column.Name) : null));
    }

    private void AddStated(Covariate covariate, RiseSource source)
    {
        var columns = ScoreColumns.Stated(covariate, _cups);
        if (columns.Count == 0)
            return;
        var values = (NumericColumn)columns[0];
        // Whether it is stated may be settled by another factor, as the price by how the bag was obtained: that one then has it.
        var stated = columns.OfType<CategoricalColumn>().FirstOrDefault(column => !_levels.Any(other => other.Cross(column).Levels.Count == other.Levels.Count));
        _design = _design.WithFixed(values);
        if (stated is not null)
            _design = _design.WithFixed(stated);
        _fixedWords.Add(covariate.Name);
        _terms.Add((covariate.Name, source, fit => fit.FixedEffects.All(effect => effect.Name != values.Name)
            ? null
            : Sum([(Change(values.Values.ToArray()), fit.FixedEffect(values.Name)), .. stated is null ? [] : Levels(fit, stated)])));
    }

    private void AddRandomKind(CategoricalColumn column)
    {
        _design = _design.WithRandomIntercept(column);
        _randomWords.Add(column.Name);
        _randomKinds.Add(column.Name);
        _terms.Add((column.Name, RiseSource.Purchasing, fit => Effects(fit, column)));
    }

    private LinearFunction Effects(LinearMixedModelFit fit, CategoricalColumn column) =>
        Sum([.. ByLevel([.. Enumerable.Range(0, column.Count).Select(row => column.Levels[column.Codes[row]])]).Select(level => (level.Weight, fit.RandomEffect(column.Name, level.Level)))]);

    private IEnumerable<(double, LinearFunction)> Levels(LinearMixedModelFit fit, CategoricalColumn column) =>
        ByLevel([.. Enumerable.Range(0, column.Count).Select(row => column.Levels[column.Codes[row]])]).Select(level => (level.Weight, fit.At(Anywhere.With(column.Name, level.Level))));

    /// <summary>The later share of each level less its earlier share, those that did not change left out.</summary>
    private IEnumerable<(T Level, double Weight)> ByLevel<T>(IReadOnlyList<T> levels) =>
        levels.Select((level, row) => (level, Weight: _weights[row])).Where(each => each.Weight != 0)
            .GroupBy(each => each.level).Select(level => (level.Key, level.Sum(each => each.Weight))).Where(level => Math.Abs(level.Item2) > 1e-12);

    private double Change(double[] values) => values.Select((value, row) => value * _weights[row]).Sum();

    // LinearFunction's own sum of many is a mean: cheaper than adding them one by one.
    private static LinearFunction Sum(IReadOnlyList<(double Weight, LinearFunction Function)> terms) =>
        terms.Count == 0 ? LinearFunction.Zero : terms.Count * LinearFunction.Mean(terms.Select(term => term.Weight * term.Function));

    private static Setting Anywhere => Setting.Averaged(MarginalWeights.AsObserved);

    private static LinearFunction? Told(Func<LinearFunction?> function)
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

    private static string Listed(IReadOnlyList<string> words) => words.Count == 0 ? "none" : string.Join(", ", words);
}
