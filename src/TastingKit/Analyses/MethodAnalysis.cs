using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodEffects"/>.</summary>
internal static class MethodAnalysis
{
    private const int Draws = 4000;
    private const int FewCups = 10;
    private const double Level = 0.95;
    private const string Estimator =
        "restricted maximum likelihood; group means of each brewing factor as terms of their own, so that differences are within coffees; "
        + "intervals from joint draws of variances and effects, simultaneous over the factor's pairs by the draws' largest standardised deviation";

    public static MethodEffects Of(
        TastingLog log, Factor factor, TastingAttribute attribute, double? margin, ulong seed, DrawOptions? varianceDraws = null, double level = Level)
    {
        if (factor.IsOfCoffee)
            throw new ArgumentException($"A method is what can differ between two cups of one coffee (brewer, recipe, filter, water); found {factor.Name}.", nameof(factor));
        var scale = log.ScaleOf(attribute);
        var fixedMargin = MethodAnswers.Margin(margin, scale);
        var scored = ScoredCups.Of(log, attribute);
        var stated = scored.Cups.Where(c => factor.LevelOf(c) != Factor.NotStated).ToArray();
        var leftOut = scored.LeftOut.ToList();
        if (stated.Length < scored.Cups.Count)
            leftOut.Add(new LeftOut($"without a {factor.Name}", scored.Cups.Count - stated.Length));

        MethodEffects Unsupported(Support why) => new(
            factor, attribute, [], level, fixedMargin, scale, [], new Computation("none", "none", stated.Length, leftOut), why);

        var levels = stated.Select(factor.LevelOf).Distinct().ToArray();
        if (levels.Length < 2)
        {
            return Unsupported(Support.Missing(
                levels.Length == 0
                    ? $"No cup with {Named(attribute)} names its {factor.Name}, so nothing can be said of what it does."
                    : $"Every cup with {Named(attribute)} has the same {factor.Name} ({levels[0]}), so nothing can be said of what it does.",
                $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var shared = SharedCoffees(stated, factor);
        if (shared.Count == 0)
        {
            return Unsupported(Support.Missing(
                $"No coffee was brewed with two levels of {factor.Name}: a difference would be one between coffees.",
                $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var columns = ScoreColumns.Of(stated, attribute);
        var method = ScoreColumns.Varying(factor, stated)!;
        if (MethodModel.Of(columns, attribute, factor, method, log.Watch) is not { } model)
            return Unsupported(ScoreFit.NoChanceLeft(stated.Length));

        var asked = shared.Keys.OrderBy(p => p.First, StringComparer.Ordinal).ThenBy(p => p.Second, StringComparer.Ordinal)
            .Select(pair => (Pair: pair, Function: Contrast(model, method, stated, pair.First, pair.Second))).ToArray();
        var told = asked.Where(p => p.Function is not null).ToArray();
        if (told.Length == 0)
        {
            return Unsupported(Support.Missing(
                $"Whatever the {factor.Name} changed, something else of the brew changed with it in every coffee, so that its difference can't be told from theirs.",
                $"Brew the same coffee with two levels of {factor.Name} and everything else alike."));
        }

        var draws = PredictionDraws.Of(model.Fit, [.. told.Select(p => p.Function!)], Draws, seed, log.Watch, varianceDraws);
        var contrasts = Contrasts(factor, [.. told.Select(p => p.Pair)], draws, stated, shared, fixedMargin, level);
        var computation = new Computation(model.Words, Estimator, stated.Length, leftOut, seed);
        return new MethodEffects(
            factor, attribute, contrasts, level, fixedMargin, scale,
            [
                .. Cautions(factor, stated, levels, shared, method, model, columns, asked.Length - told.Length),
                .. new[] { ScoreCautions.Ceiling(columns.Scores, scale), ScoreCautions.HangTogether(model.Fit, stated, seed) }.OfType<Caution>(),
            ],
            computation, Support.Given);
    }

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

    /// <summary>
    /// First minus second over coffees like the log's: the processes' own deviations enter with the share of the log's coffees that
    /// have each process.
    /// </summary>
    private static LinearFunction? Contrast(MethodModel model, CategoricalColumn method, IReadOnlyList<Tasting> cups, string first, string second)
    {
        var fit = model.Fit;
        var anywhere = Setting.Averaged(MarginalWeights.AsObserved);
        LinearFunction function;
        try
        {
            function = fit.At(anywhere.With(method.Name, first)) - fit.At(anywhere.With(method.Name, second));
        }
        catch (ModelException)
        {
            // The engine refuses what the other columns can't be told from.
            return null;
        }

        if (model.ProcessCell is not { } cell)
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
        Factor factor, (string First, string Second)[] pairs, PredictionDraws draws, IReadOnlyList<Tasting> cups,
        Dictionary<(string First, string Second), int> shared, double margin, double level)
    {
        var cupsOf = cups.GroupBy(factor.LevelOf).ToDictionary(g => g.Key, g => g.Count());
        var reach = SimultaneousReach.Of(draws, level);
        return [.. pairs.Select((pair, i) =>
            {
                var (first, second, sign) = reach.Means[i] >= 0 ? (pair.First, pair.Second, 1) : (pair.Second, pair.First, -1);
                return new MethodContrast(
                    factor.Name, first, second, MethodAnswers.Of(draws, reach, i, sign, margin), cupsOf[first], cupsOf[second], shared[pair]);
            })
            .OrderByDescending(c => c.Answer.Estimate).ThenBy(c => c.First, StringComparer.Ordinal).ThenBy(c => c.Second, StringComparer.Ordinal)];
    }

    private static List<Caution> Cautions(
        Factor factor, IReadOnlyList<Tasting> cups, IReadOnlyList<string> levels, Dictionary<(string First, string Second), int> shared,
        CategoricalColumn method, MethodModel model, ScoreColumns columns, int notTold)
    {
        var cautions = new List<Caution>();
        var few = cups.GroupBy(factor.LevelOf).Where(g => g.Count() < FewCups).OrderBy(g => g.Key, StringComparer.Ordinal).ToArray();
        if (few.Length > 0)
        {
            cautions.Add(new Caution("few-cups",
                $"Few cups with {string.Join(", ", few.Select(g => $"{g.Key} ({g.Count()})"))}: differences with {(few.Length == 1 ? "it" : "them")} are little more than hints."));
        }

        if (model.PartOfIt.Count > 0)
        {
            cautions.Add(new Caution("part-of-it",
                $"The {string.Join(" and the ", model.PartOfIt)} always changed with the {factor.Name}: a difference is that of all of them together."));
        }

        if (notTold > 0)
        {
            cautions.Add(new Caution("not-told-apart",
                $"{NumberText.Count(notTold, "pair")} of {factor.Name} can't be told from the rest of the brew, which changed with {(notTold == 1 ? "it" : "them")}, and {(notTold == 1 ? "is" : "are")} not compared."));
        }

        var all = levels.Count * (levels.Count - 1) / 2;
        if (shared.Count < all)
        {
            cautions.Add(new Caution("never-together",
                $"{NumberText.Count(all - shared.Count, "pair was", "pairs were")} never brewed of one coffee, and {(all - shared.Count == 1 ? "is" : "are")} not compared."));
        }

        if (model.ProcessCell is { } cell)
        {
            var processes = cups.Select(Factor.Process.LevelOf).Distinct().Count();
            var unseen = (processes * method.Levels.Count) - cell.Levels.Count;
            if (unseen > 0)
            {
                cautions.Add(new Caution("process-not-covered",
                    $"{NumberText.Count(unseen, "combination")} of process and {factor.Name} {(unseen == 1 ? "was" : "were")} never brewed; there the average difference is assumed."));
            }
        }

        if (columns.Rest is not null && RestDiffers(cups, factor) is { } late)
        {
            cautions.Add(new Caution("brewed-at-other-rest",
                $"{late.Level} was brewed {late.Days} days of rest apart from the others in the middle: the rest is adjusted for, but only as far as its course is known."));
        }

        return cautions;
    }

    private static (string Level, int Days)? RestDiffers(IReadOnlyList<Tasting> cups, Factor factor)
    {
        var known = cups.Where(c => c.RestDays is not null).ToArray();
        foreach (var level in known.GroupBy(factor.LevelOf).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var others = known.Where(c => factor.LevelOf(c) != level.Key).ToArray();
            if (others.Length == 0)
                continue;
            var days = (int)Math.Round(Math.Abs(level.Average(c => c.RestDays!.Value) - others.Average(c => c.RestDays!.Value)));
            if (days >= 7)
                return (level.Key, days);
        }

        return null;
    }
}
