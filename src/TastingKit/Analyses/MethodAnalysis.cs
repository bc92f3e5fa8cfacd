using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodEffects"/>.</summary>
internal sealed class MethodAnalysis
{
    private const int Draws = 4000;
    private const double Level = 0.95;
    private const int DrawsOfLargeLog = 2000;
    private const string Estimator =
        "restricted maximum likelihood; group means of each brewing factor as terms of their own, so that differences are within coffees; "
        + "intervals from joint draws of variances and effects, simultaneous over the factor's pairs by the draws' largest standardised deviation";

    private readonly TastingLog _log;
    private readonly Factor _factor;
    private readonly TastingAttribute _attribute;
    private readonly Scale _scale;
    private readonly double _margin;
    private readonly Tasting[] _cups;
    private readonly List<LeftOut> _leftOut;
    private readonly string[] _levels;
    private readonly Dictionary<(string First, string Second), int> _shared;
    private readonly ScoreColumns? _columns;
    private readonly CategoricalColumn? _method;
    private readonly MethodModel? _model;
    private readonly Support _support;
    private DrawnPairs? _drawn;

    /// <summary>Fits the model, or finds why there is none.</summary>
    public MethodAnalysis(TastingLog log, Factor factor, TastingAttribute attribute, double? margin)
    {
        RequireMethod(factor);
        (_log, _factor, _attribute, _scale) = (log, factor, attribute, log.ScaleOf(attribute));
        _margin = MethodAnswers.Margin(margin, _scale);
        var scored = ScoredCups.Of(log, attribute);
        _cups = [.. scored.Cups.Where(c => factor.LevelOf(c) != Factor.NotStated)];
        _leftOut = [.. scored.LeftOut];
        if (_cups.Length < scored.Cups.Count)
            _leftOut.Add(new LeftOut($"without a {factor.Name}", scored.Cups.Count - _cups.Length));
        _levels = [.. _cups.Select(factor.LevelOf).Distinct()];
        _shared = SharedCoffees(_cups, factor);
        if (WhyNot() is { } why)
        {
            _support = why;
            return;
        }

        _method = ScoreColumns.Varying(factor, _cups)!;
        (_columns, _model) = ScoreFit.LeavingChance(
            ScoreColumns.Of(_cups, attribute).WithoutManySessions(), _scale, columns => MethodModel.Of(columns, attribute, factor, _method, log.Watch), model => model.Fit);
        _support = _model is null ? ScoreFit.NoChanceLeft(_cups.Length) : Support.Given;
    }

    /// <summary>Refuses a factor that can't differ between two cups of one coffee.</summary>
    public static void RequireMethod(Factor factor)
    {
        if (factor.IsOfCoffee)
            throw new ArgumentException($"A method is what can differ between two cups of one coffee (brewer, recipe, filter, water); found {factor.Name}.", nameof(factor));
    }

    /// <summary>What a factor does, in one go.</summary>
    public static MethodEffects Of(TastingLog log, Factor factor, TastingAttribute attribute, double? margin, ulong seed, DrawOptions? varianceDraws = null) =>
        new MethodAnalysis(log, factor, attribute, margin).Answer(seed, varianceDraws);

    /// <summary>Cups that the model was given.</summary>
    public int CupsUsed => _cups.Length;

    public IReadOnlyList<Tasting> Cups => _cups;

    public IReadOnlyList<LeftOut> LeftOut => _leftOut;

    /// <summary>The model; nothing where <see cref="Support"/> says why not.</summary>
    public MethodModel? Model => _model;

    public Support Support => _support;

    /// <summary>First minus second, half of the interval that a reader is shown of it, and the draws behind that; nothing where the two are not compared.</summary>
    /// <param name="first">A level.</param>
    /// <param name="second">Another.</param>
    /// <param name="coffee">A cup of the one coffee asked about; nothing for coffees like the log's.</param>
    /// <param name="seed">Seed of the draws.</param>
    public (FurtherFunction Difference, double HalfWidth, JointDraws Joint)? Compared(string first, string second, Tasting? coffee, ulong seed)
    {
        if (Drawn(seed, Draws, null) is not { } drawn || drawn.Pairs.Index().FirstOrDefault(pair => pair.Item == (first, second) || pair.Item == (second, first)) is not { Item.First: not null } found)
            return null;
        if (coffee is null)
        {
            var all = SimultaneousReach.Of(drawn.Draws, Level);
            return (new FurtherFunction(Contrast(_model!, _method!, _cups, first, second)!), all.Multiplier * all.StandardDeviations[found.Index], drawn.Joint);
        }

        if (_model!.DifferenceFor(coffee, first, second) is not { } difference)
            return null;
        var own = SimultaneousReach.Of(PredictionDraws.Of(drawn.Joint, [difference], seed, _log.Watch), Level);
        return (difference, own.Multiplier * own.StandardDeviations[0], drawn.Joint);
    }

    /// <summary>
    /// The p-value of all pairs being alike: how often a draw lies as far from the estimates, by its largest standardised deviation, as nought
    /// does. It is at most 5 % exactly where a simultaneous 95 % interval leaves nought out. Nothing where no pair can be compared.
    /// </summary>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="count">Number of draws.</param>
    /// <param name="varianceDraws">How the variances are drawn.</param>
    public double? OmnibusP(ulong seed, int count, DrawOptions? varianceDraws)
    {
        if (Drawn(seed, count, varianceDraws) is not { } drawn)
            return null;
        var reach = SimultaneousReach.Of(drawn.Draws, Level);
        var observed = reach.Means.Select((mean, i) => reach.StandardDeviations[i] > 0 ? Math.Abs(mean) / reach.StandardDeviations[i] : 0).Max();
        return (reach.Largest.Count(largest => largest >= observed) + 1.0) / (reach.Largest.Count + 1);
    }

    /// <summary>The contrasts with both answers.</summary>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="varianceDraws">How the variances are drawn.</param>
    /// <param name="level">Level at which the intervals hold for all pairs at once.</param>
    /// <param name="count">Number of draws.</param>
    public MethodEffects Answer(ulong seed, DrawOptions? varianceDraws = null, double level = Level, int count = Draws)
    {
        MethodEffects Unsupported(Support why) => new(
            _factor, _attribute, [], level, _margin, _scale, [], new Computation("none", "none", _cups.Length, _leftOut), why);

        if (_model is not { } model || _method is not { } method || _columns is not { } columns)
            return Unsupported(_support);
        if (Drawn(seed, count, varianceDraws) is not { } drawn)
        {
            return Unsupported(Support.Missing(
                $"Whatever the {_factor.Name} changed, something else of the brew changed with it in every coffee, so that its difference can't be told from theirs.",
                $"Brew the same coffee with two levels of {_factor.Name} and everything else alike."));
        }

        var contrasts = Contrasts(_factor, drawn.Pairs, drawn.Draws, drawn.Joint, model, _cups, _shared, _margin, level);
        var computation = new Computation(model.Words, Estimator, _cups.Length, _leftOut, seed);
        var deviations = new DeviationAnalysis(model, method, _factor, _attribute, _cups, _margin, _scale, computation, drawn.Joint, _log.Watch);
        return new MethodEffects(
            _factor, _attribute, contrasts, level, _margin, _scale,
            [
                .. MethodCautions.Of(_factor, _cups, _levels, _shared.Count, method, model, columns, _shared.Count - drawn.Pairs.Length),
                .. new[] { columns.SessionsLeftOut, ScoreCautions.Ceiling(columns.Scores, _scale), ScoreCautions.HangTogether(model.Fit, _cups, seed) }.OfType<Caution>(),
            ],
            computation, Support.Given, deviations.Of)
        {
            BetweenTwoCups = PrecisionAnalysis.LimitOf(_log, _attribute),
        };
    }

    /// <summary>Draws of every pair that can be told from the rest of the brew; nothing where none can.</summary>
    private DrawnPairs? Drawn(ulong seed, int count, DrawOptions? varianceDraws)
    {
        if (_drawn is { } before && before.Seed == seed && before.Count == count)
            return before;
        if (_model is not { } model)
            return null;
        var told = _shared.Keys.OrderBy(p => p.First, StringComparer.Ordinal).ThenBy(p => p.Second, StringComparer.Ordinal)
            .Select(pair => (Pair: pair, Function: Contrast(model, _method!, _cups, pair.First, pair.Second))).Where(p => p.Function is not null).ToArray();
        if (told.Length == 0)
            return null;
        var isLarge = _cups.Length > PredictionDraws.LargeLog;
        var joint = PredictionDraws.Joint(model.Fit, isLarge ? Math.Min(count, DrawsOfLargeLog) : count, seed, _log.Watch, varianceDraws ?? (isLarge ? PredictionDraws.OfLargeLog : null));
        return _drawn = new DrawnPairs(seed, count, [.. told.Select(p => p.Pair)], joint, PredictionDraws.Of(joint, [.. told.Select(p => p.Function!)], _log.Watch));
    }

    private sealed record DrawnPairs(ulong Seed, int Count, (string First, string Second)[] Pairs, JointDraws Joint, PredictionDraws Draws);

    private Support? WhyNot() => (_levels.Length, _shared.Count) switch
    {
        (0, _) => Support.Missing($"No cup with {Named(_attribute)} names its {_factor.Name}, so nothing can be said of what it does.", WhatToLog),
        (1, _) => Support.Missing($"Every cup with {Named(_attribute)} has the same {_factor.Name} ({_levels[0]}), so nothing can be said of what it does.", WhatToLog),
        (_, 0) => Support.Missing($"No coffee was brewed with two levels of {_factor.Name}: a difference would be one between coffees.", WhatToLog),
        _ => null,
    };

    private string WhatToLog => $"Brew the same coffee with two levels of {_factor.Name}.";

    private static string Named(TastingAttribute attribute) => attribute.Equals(TastingAttribute.Score) ? "a score" : $"a value for {attribute}";

    private static Dictionary<(string First, string Second), int> SharedCoffees(IReadOnlyList<Tasting> cups, Factor factor)
    {
        var shared = new Dictionary<(string, string), int>();
        foreach (var coffee in cups.GroupBy(c => c.Bag.Coffee.Id))
        {
            var levels = coffee.Select(factor.LevelOf).Distinct().Order(StringComparer.Ordinal).ToArray();
            for (var i = 0; i < levels.Length; i++)
            {
                for (var j = i + 1; j < levels.Length; j++)
                    shared[(levels[i], levels[j])] = shared.GetValueOrDefault((levels[i], levels[j])) + 1;
            }
        }

        return shared;
    }

    /// <summary>First minus second in the fixed part; nothing where the other columns can't be told from it.</summary>
    public static LinearFunction? FixedContrast(LinearMixedModelFit fit, CategoricalColumn method, string first, string second)
    {
        var anywhere = Setting.Averaged(MarginalWeights.AsObserved);
        return ScoreFit.At(fit, anywhere.With(method.Name, first)) is { } of && ScoreFit.At(fit, anywhere.With(method.Name, second)) is { } against ? of - against : null;
    }

    /// <summary>
    /// First minus second over coffees like the log's: the processes' own deviations enter with the share of the log's coffees that
    /// have each process.
    /// </summary>
    private static LinearFunction? Contrast(MethodModel model, CategoricalColumn method, IReadOnlyList<Tasting> cups, string first, string second)
    {
        var fit = model.Fit;
        var function = FixedContrast(fit, method, first, second);
        if (function is null || model.ProcessCell is not { } cell)
            return function;
        var coffees = cups.DistinctBy(c => c.Bag.Coffee.Id).ToArray();
        foreach (var process in coffees.GroupBy(Factor.Process.LevelOf))
        {
            var share = (double)process.Count() / coffees.Length;
            if (cell.Levels.Contains($"{process.Key}:{first}"))
                function += share * fit.RandomEffect(cell.Name, $"{process.Key}:{first}");
            if (cell.Levels.Contains($"{process.Key}:{second}"))
                function -= share * fit.RandomEffect(cell.Name, $"{process.Key}:{second}");
        }

        return function;
    }

    private static MethodContrast[] Contrasts(
        Factor factor, (string First, string Second)[] pairs, PredictionDraws draws, JointDraws joint, MethodModel model, IReadOnlyList<Tasting> cups,
        Dictionary<(string First, string Second), int> shared, double margin, double level)
    {
        var cupsOf = cups.GroupBy(factor.LevelOf).ToDictionary(g => g.Key, g => g.Count());
        var reach = SimultaneousReach.Of(draws, level);
        return [.. pairs.Select((pair, i) =>
            {
                var (first, second, sign) = reach.Means[i] >= 0 ? (pair.First, pair.Second, 1) : (pair.Second, pair.First, -1);
                var answer = MethodAnswers.Of(draws, reach, i, sign, margin);
                var further = answer.Direction == Direction.Undecided && answer.Size == Size.Undecided
                    ? model.PlanFor(factor, first, second, reach.StandardDeviations[i], reach.Multiplier, SimultaneousReach.Of(draws.Slice(i, 1), level).Multiplier, level, margin, joint).Find()
                    : FurtherCups.None;
                return new MethodContrast(factor.Name, first, second, answer, cupsOf[first], cupsOf[second], shared[pair], further);
            })
            .OrderByDescending(c => c.Answer.Estimate).ThenBy(c => c.First, StringComparer.Ordinal).ThenBy(c => c.Second, StringComparer.Ordinal)];
    }
}
