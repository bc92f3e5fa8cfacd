using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Which of two levels of a part of the brew is the better, by the very model, difference and interval that <see cref="MethodEffects"/> shows.
/// </summary>
internal static class MethodInquiry
{
    /// <summary>The question put to the cups, or why it can't be.</summary>
    /// <param name="log">The log.</param>
    /// <param name="better">The question.</param>
    /// <param name="seed">Seed of the draws.</param>
    public static (BrewInquiry? Inquiry, Support Support) Of(TastingLog log, BrewQuestion.Better better, ulong seed)
    {
        var factor = better.Factor;
        Tasting[] stated = [.. ScoredCups.Of(log).Cups.Where(cup => factor.LevelOf(cup) != Factor.NotStated)];
        string[] known = [.. stated.GroupBy(factor.LevelOf).OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => g.Key)];
        BrewShelf.Unknown(factor.Name, new[] { better.First, better.Second }.OfType<string>(), known);
        if (better.First is not null && better.First == better.Second)
            throw new ArgumentException($"A question of two needs two; found {factor.Name} '{better.First}' twice.", nameof(better));
        var coffee = better.CoffeeId is { } id ? AskedQuestion.CupsOf([id], stated)[0][0] : null;
        if (known.Length < 2)
        {
            return (null, Support.Missing(
                $"The scored cups name {(known.Length == 0 ? "no" : "only one")} {factor.Name}, so there is no difference to settle.", $"Brew the same coffee with two levels of {factor.Name}."));
        }

        var first = better.First ?? known.First(level => level != better.Second);
        var second = better.Second ?? known.First(level => level != first);
        var analysis = new MethodAnalysis(log, factor, TastingAttribute.Score, null);
        if (analysis.Model is not { } model)
            return (null, analysis.Support);
        if (!ScoreFit.LeavesChance(model.Fit, log.ScaleOf(TastingAttribute.Score)))
            return (null, ScoreFit.NoChanceLeft(analysis.CupsUsed));
        if (analysis.Compared(first, second, coffee, seed) is not { } compared)
        {
            return (null, Support.Missing(
                $"No coffee was brewed with both {first} and {second} so that nothing else of the brew changed with them, and by other coffees their difference can\u2019t be told.",
                "Brew one coffee with both and everything else alike."));
        }

        var asked = new AskedQuestion(
            $"{first} against {second} ({factor.Name}), {(coffee is null ? "over coffees like the log\u2019s" : $"for {coffee.Bag.Coffee.Label}")}",
            coffee is null ? [] : [coffee.Bag.Coffee.Id], false, factor, (first, second));
        return (new BrewInquiry(
            asked, analysis.Cups, analysis.LeftOut, model.Columns, model.OfCup,
            (cups, _) => BrewState.OfNumber(FurtherObservations.Of(model.Fit, [compared.Difference, .. cups], compared.Joint, Factor.Coffee.Name), compared.HalfWidth),
            new StandardBrew(null, null, null), model.Words,
            $"the model and the interval of what the {factor.Name} does (MethodEffects), simultaneous over its pairs as there; each coffee\u2019s own level is left free, as that model\u2019s means within the coffee leave it; {BrewInquiry.OneMoreCup}, "
                + "with the variances held at the middle of their draws; the interval is taken to shrink as the root of that; a level not met so far (a new sitting) enters with its own variance; a further cup has the filter, grinder, water, dose and temperature that its brewer was last used with; the plan takes cup after cup the highest gain",
            model.Columns.SessionsLeftOut is { } caution ? [caution] : []), Support.Given);
    }
}
