using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodEffects"/>.</summary>
internal static class MethodAnalysis
{
    private const int Draws = 4000;
    private const int FewCups = 10;
    private const double MarginShare = 0.5 / 8;
    private const string Estimator =
        "restricted maximum likelihood; group means of each brewing factor as terms of their own, so that differences are within coffees; "
        + "intervals from joint draws of variances and effects, simultaneous over the factor's pairs by the draws' largest standardised deviation";

    public static MethodEffects Of(TastingLog log, Factor factor, double? margin, ulong seed, DrawOptions? varianceDraws = null)
    {
        if (factor.IsOfCoffee)
            throw new ArgumentException($"A method is what can differ between two cups of one coffee (brewer, recipe, filter, water); found {factor.Name}.", nameof(factor));
        var scale = log.ScaleOf(TastingAttribute.Score);
        var fixedMargin = margin ?? MarginShare * (scale.Max - scale.Min);
        if (!(fixedMargin > 0))
            throw new ArgumentOutOfRangeException(nameof(margin), margin, "A margin is a positive number of points.");
        var scored = ScoredCups.Of(log);
        var stated = scored.Cups.Where(c => factor.LevelOf(c) != Factor.NotStated).ToArray();
        var leftOut = scored.LeftOut.ToList();
        if (stated.Length < scored.Cups.Count)
            leftOut.Add(new LeftOut($"without a {factor.Name}", scored.Cups.Count - stated.Length));

        MethodEffects Unsupported(Support why) => new(
            factor, [], fixedMargin, scale, [], new Computation("none", "none", stated.Length, leftOut), why);

        var levels = stated.Select(factor.LevelOf).Distinct().ToArray();
        if (levels.Length < 2)
        {
            return Unsupported(Support.Missing(
                levels.Length == 0
                    ? $"No scored cup names its {factor.Name}, so nothing can be said of what it does."
                    : $"Every scored cup has the same {factor.Name} ({levels[0]}), so nothing can be said of what it does.",
                $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var shared = SharedCoffees(stated, factor);
        if (shared.Count == 0)
        {
            return Unsupported(Support.Missing(
                $"No coffee was brewed with two levels of {factor.Name}: a difference would be one between coffees.",
                $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var columns = ScoreColumns.Of(stated);
        var method = ScoreColumns.Varying(factor, stated)!;
        var (fit, cell, words) = Fit(columns, factor, method, log.Watch);
        if (fit is null)
        {
            return Unsupported(ScoreFit.NoChanceLeft(stated.Length));
        }

        var pairs = shared.Keys.OrderBy(p => p.First, StringComparer.Ordinal).ThenBy(p => p.Second, StringComparer.Ordinal).ToArray();
        var functions = pairs.Select(p => Contrast(fit, method, cell, stated, p.First, p.Second)).ToArray();
        var draws = PredictionDraws.Of(fit, functions, Draws, seed, log.Watch, varianceDraws);
        var contrasts = Contrasts(factor, pairs, draws, stated, shared, fixedMargin);
        var computation = new Computation(words, Estimator, stated.Length, leftOut, seed);
        return new MethodEffects(
            factor, contrasts, fixedMargin, scale,
            [
                .. Cautions(factor, stated, levels, shared, method, cell, columns),
                .. new[] { ScoreCautions.Ceiling(stated, scale), ScoreCautions.HangTogether(fit, stated, seed) }.OfType<Caution>(),
            ],
            computation, Support.Given);
    }

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

    private static (LinearMixedModelFit? Fit, CategoricalColumn? Cell, string Words) Fit(ScoreColumns columns, Factor factor, CategoricalColumn method, WorkWatch watch)
    {
        var coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. columns.Cups.Select(Factor.Coffee.LevelOf)]);
        var design = columns.AddBrewTo(ModelDesign.For("score", columns.Scores));
        var isOfBrew = factor == Factor.Brewer || factor == Factor.RecipeFrom;
        if (!isOfBrew)
            design = design.WithFixed(method);
        foreach (var column in new Column?[] { columns.Brewer, columns.RecipeFrom, columns.Rest, isOfBrew ? null : method })
            design = WithinCoffees.AddMeans(design, coffee, column);
        design = design.WithRandomIntercept(coffee);
        var random = columns.RandomTerms.Prepend("coffee").ToList();
        if (columns.Cups.Select(c => c.Bag.Id).Distinct().Count() - coffee.Levels.Count >= 2)
        {
            design = design.WithRandomIntercept(CategoricalColumn.From(Factor.Bag.Name, [.. columns.Cups.Select(Factor.Bag.LevelOf)]));
            random.Add("bag");
        }

        CategoricalColumn? cell = null;
        if (ScoreColumns.Varying(Factor.Process, columns.Cups) is { } process)
        {
            cell = process.Cross(method);
            if (cell.Levels.Count < columns.Cups.Count / 3)
            {
                design = design.WithRandomIntercept(cell);
                random.Add($"process by {factor.Name}");
            }
            else
            {
                cell = null;
            }
        }

        var byCoffee = coffee.Cross(method);
        if (byCoffee.Levels.Count < columns.Cups.Count * 0.7 && byCoffee.Levels.Count > coffee.Levels.Count)
        {
            design = design.WithRandomIntercept(byCoffee);
            random.Add($"coffee by {factor.Name}");
        }

        var words = $"linear mixed model of the score; fixed: {(isOfBrew ? "" : factor.Name + ", ")}{columns.BrewInWords()}, and the mean of each within the coffee; random intercepts: {string.Join(", ", random)}";
        return (ScoreFit.Of(design, watch), cell, words);
    }

    /// <summary>
    /// First minus second over coffees like the log's: the processes' own deviations enter with the share of the log's coffees that
    /// have each process.
    /// </summary>
    private static LinearFunction Contrast(
        LinearMixedModelFit fit, CategoricalColumn method, CategoricalColumn? cell, IReadOnlyList<Tasting> cups, string first, string second)
    {
        var anywhere = Setting.Averaged(MarginalWeights.AsObserved);
        var function = fit.At(anywhere.With(method.Name, first)) - fit.At(anywhere.With(method.Name, second));
        if (cell is null)
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
        Dictionary<(string First, string Second), int> shared, double margin)
    {
        var cupsOf = cups.GroupBy(factor.LevelOf).ToDictionary(g => g.Key, g => g.Count());
        var reach = SimultaneousReach.Of(draws, 0.95);
        return [.. pairs.Select((pair, i) =>
            {
                var (mean, deviation) = (reach.Means[i], reach.StandardDeviations[i]);
                var (first, second, sign) = mean >= 0 ? (pair.First, pair.Second, 1) : (pair.Second, pair.First, -1);
                var (low, high) = ((sign * mean) - (reach.Multiplier * deviation), (sign * mean) + (reach.Multiplier * deviation));
                var sorted = draws.Column(i).ToArray();
                for (var d = 0; d < sorted.Length; d++)
                    sorted[d] *= sign;
                Array.Sort(sorted);
                var (low90, high90) = (Quantiles.OfSorted(sorted, 0.05), Quantiles.OfSorted(sorted, 0.95));
                return new MethodContrast(
                    factor.Name, first, second, sign * mean, low, high,
                    low > 0 ? Direction.Higher : high < 0 ? Direction.Lower : Direction.Undecided,
                    low > margin || high < -margin ? Size.Matters : low90 > -margin && high90 < margin ? Size.TooSmallToMatter : Size.Undecided,
                    cupsOf[first], cupsOf[second], shared[pair]);
            })
            .OrderByDescending(c => c.Estimate).ThenBy(c => c.First, StringComparer.Ordinal).ThenBy(c => c.Second, StringComparer.Ordinal)];
    }

    private static List<Caution> Cautions(
        Factor factor, IReadOnlyList<Tasting> cups, IReadOnlyList<string> levels, Dictionary<(string First, string Second), int> shared,
        CategoricalColumn method, CategoricalColumn? cell, ScoreColumns columns)
    {
        var cautions = new List<Caution>();
        var few = cups.GroupBy(factor.LevelOf).Where(g => g.Count() < FewCups).OrderBy(g => g.Key, StringComparer.Ordinal).ToArray();
        if (few.Length > 0)
        {
            cautions.Add(new Caution("few-cups",
                $"Few cups with {string.Join(", ", few.Select(g => $"{g.Key} ({g.Count()})"))}: differences with {(few.Length == 1 ? "it" : "them")} are little more than hints."));
        }

        var all = levels.Count * (levels.Count - 1) / 2;
        if (shared.Count < all)
        {
            cautions.Add(new Caution("never-together",
                $"{NumberText.Count(all - shared.Count, "pair was", "pairs were")} never brewed of one coffee, and {(all - shared.Count == 1 ? "is" : "are")} not compared."));
        }

        if (cell is not null)
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
