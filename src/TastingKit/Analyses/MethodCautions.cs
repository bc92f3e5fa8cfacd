using TastingKit.Statistics;

namespace TastingKit;

/// <summary>What stands between a method's differences and the method alone: few cups, and what changed together with it.</summary>
internal static class MethodCautions
{
    private const int FewCups = 10;
    private const double FarInRest = 7;
    private const double OneOnly = 0.9;

    /// <summary>The cautions.</summary>
    /// <param name="factor">The factor asked.</param>
    /// <param name="cups">The cups used.</param>
    /// <param name="levels">The factor's levels among them.</param>
    /// <param name="pairsTogether">Pairs of levels that a coffee was brewed with.</param>
    /// <param name="method">The factor's column.</param>
    /// <param name="model">The model.</param>
    /// <param name="columns">The columns of the model.</param>
    /// <param name="notTold">Pairs that can't be told from the rest of the brew.</param>
    public static IReadOnlyList<Caution> Of(
        Factor factor, IReadOnlyList<Tasting> cups, IReadOnlyList<string> levels, int pairsTogether,
        CategoricalColumn method, MethodModel model, ScoreColumns columns, int notTold)
    {
        var cautions = new List<Caution>();
        var few = cups.GroupBy(factor.LevelOf).Where(g => g.Count() < FewCups).OrderBy(g => g.Key, StringComparer.Ordinal).ToArray();
        if (few.Length > 0)
        {
            cautions.Add(new Caution("few-cups",
                $"Few cups with {string.Join(", ", few.Select(g => $"{g.Key} ({g.Count()})"))}: differences with {(few.Length == 1 ? "it" : "them")} are little more than hints."));
        }

        var coffees = cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        if (model.CoffeeCell is null && coffees < 3)
        {
            cautions.Add(new Caution("these-coffees-only",
                $"{NumberText.Count(coffees, "coffee")} can't tell how coffees differ in what the {factor.Name} does: what is said holds for {(coffees == 1 ? "this one" : "these two")}."));
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
        if (pairsTogether < all)
        {
            cautions.Add(new Caution("never-together",
                $"{NumberText.Count(all - pairsTogether, "pair was", "pairs were")} never brewed of one coffee, and {(all - pairsTogether == 1 ? "is" : "are")} not compared."));
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
                $"{MethodWords.SentenceCase(late.Level)} was brewed {late.Days} days of rest apart from the others in the middle ({NumberText.Count(late.Cups, "cup")} against {late.Others}): the rest is adjusted for, but only as far as its course is known."));
        }

        cautions.AddRange(OneKindOnly(cups, factor));
        cautions.AddRange(GoesWithAnother(cups, factor));
        return cautions;
    }

    /// <summary>A level that was brewed with coffees of one roaster or process alone, where the others had several.</summary>
    private static IEnumerable<Caution> OneKindOnly(IReadOnlyList<Tasting> cups, Factor factor)
    {
        foreach (var kind in new[] { Factor.Roaster, Factor.Process })
        {
            if (cups.Select(kind.LevelOf).Distinct().Count() < 3)
                continue;
            foreach (var level in cups.GroupBy(factor.LevelOf).OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                var most = level.GroupBy(kind.LevelOf).MaxBy(g => g.Count())!;
                var others = cups.Count(c => factor.LevelOf(c) != level.Key);
                var othersOfIt = cups.Count(c => factor.LevelOf(c) != level.Key && kind.LevelOf(c) == most.Key);
                if (level.Count() < FewCups || most.Count() < OneOnly * level.Count() || othersOfIt >= OneOnly * others)
                    continue;
                yield return new Caution("one-kind-only",
                    $"{most.Count()} of {level.Count()} cups with {level.Key} are of coffees with the {kind.Name} {most.Key}, of the other cups {othersOfIt} of {others}: what is said of {level.Key} holds for these coffees, and is carried over to others on trust.");
            }
        }
    }

    /// <summary>A level that nearly always came with one level of another part of the method, where the others hardly did.</summary>
    private static IEnumerable<Caution> GoesWithAnother(IReadOnlyList<Tasting> cups, Factor factor)
    {
        foreach (var other in new[] { Factor.Brewer, Factor.RecipeFrom, Factor.Water, Factor.Filter, Factor.Grinder })
        {
            if (other == factor)
                continue;
            foreach (var level in cups.GroupBy(factor.LevelOf).OrderBy(g => g.Key, StringComparer.Ordinal))
            {
                var most = level.GroupBy(other.LevelOf).MaxBy(g => g.Count())!;
                var rest = cups.Where(c => factor.LevelOf(c) != level.Key).ToArray();
                var restWithIt = rest.Count(c => other.LevelOf(c) == most.Key);
                if (level.Count() < FewCups || most.Count() < OneOnly * level.Count() || restWithIt > (1 - OneOnly) * rest.Length)
                    continue;
                yield return new Caution("goes-with-another",
                    $"{most.Count()} of {level.Count()} cups with {level.Key} had the {other.Name} {most.Key}, of the other cups {restWithIt} of {rest.Length}: the two can hardly be told apart.");
            }
        }
    }

    private static (string Level, int Days, int Cups, int Others)? RestDiffers(IReadOnlyList<Tasting> cups, Factor factor)
    {
        var known = cups.Where(c => c.RestDays is not null).ToArray();
        foreach (var level in known.GroupBy(factor.LevelOf).OrderBy(g => g.Key, StringComparer.Ordinal))
        {
            var others = known.Where(c => factor.LevelOf(c) != level.Key).ToArray();
            if (others.Length == 0)
                continue;
            var days = (int)Math.Round(Math.Abs(level.Average(c => c.RestDays!.Value) - others.Average(c => c.RestDays!.Value)));
            if (days >= FarInRest)
                return (level.Key, days, level.Count(), others.Length);
        }

        return null;
    }
}
