using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Whether the score of a cup goes with how good the cup was to be expected that was tasted before it in the sitting. What is expected of a cup leaves
/// its sitting out, so that what a sitting does to all its cups is no sign of it.
/// </summary>
internal static class CarryOver
{
    private const int FewestPairs = 40;

    // Thousands of cups tell from nought what moves no answer.
    private const double LeastCarried = 0.05;

    /// <summary>The caution, where what is expected of a cup is the mean of its bag in other sittings.</summary>
    /// <param name="cups">Cups with a value of the attribute.</param>
    /// <param name="attribute">What is asked about.</param>
    /// <param name="seed">Seed of the shuffling.</param>
    public static Caution? In(IReadOnlyList<Tasting> cups, TastingAttribute attribute, ulong seed)
    {
        var ofBag = cups.GroupBy(cup => cup.Bag.Id).ToDictionary(bag => bag.Key, Total, StringComparer.Ordinal);
        var here = cups.GroupBy(cup => (cup.Bag.Id, ScoreColumns.SessionOf(cup))).ToDictionary(some => some.Key, Total);
        return In(cups, [.. cups.Select(cup => cup.ValueOf(attribute)!.Value)], [.. cups.Select(Elsewhere)], seed);

        double? Elsewhere(Tasting cup)
        {
            var (all, these) = (ofBag[cup.Bag.Id], here[(cup.Bag.Id, ScoreColumns.SessionOf(cup))]);
            return all.Cups > these.Cups ? (all.Sum - these.Sum) / (all.Cups - these.Cups) : null;
        }

        (double Sum, int Cups) Total(IEnumerable<Tasting> some) => some.Aggregate((Sum: 0.0, Cups: 0), (total, cup) => (total.Sum + cup.ValueOf(attribute)!.Value, total.Cups + 1));
    }

    /// <summary>The same where a model says what is expected.</summary>
    /// <param name="fit">The model.</param>
    /// <param name="cups">Its cups.</param>
    /// <param name="attribute">What it is a model of.</param>
    /// <param name="sittings">What sorts its cups into sittings; nothing where it has no term for them.</param>
    /// <param name="seed">Seed of the shuffling.</param>
    public static Caution? In(LinearMixedModelFit fit, IReadOnlyList<Tasting> cups, TastingAttribute attribute, CategoricalColumn? sittings, ulong seed)
    {
        double[] ofSitting = sittings is null ? [] : [.. sittings.Levels.Select(sitting => fit.Value(fit.RandomEffect(sittings.Name, sitting)))];
        var fitted = fit.FittedValues();
        return In(
            cups, [.. cups.Select(cup => cup.ValueOf(attribute)!.Value)],
            [.. fitted.Select((value, row) => (double?)(value - (sittings is null ? 0 : ofSitting[sittings.Codes[row]])))], seed);
    }

    /// <summary>By the products of what was expected of the cup before and of what the cup has beyond its own, against cups before that are shuffled; two-sided, and of a slope that matters.</summary>
    private static Caution? In(IReadOnlyList<Tasting> cups, double[] values, double?[] expected, ulong seed)
    {
        var (before, beyond) = Pairs(cups, values, expected);
        if (before.Length < FewestPairs)
            return null;
        var (ofBefore, ofBeyond) = (before.Average(), beyond.Average());
        var observed = Products();
        if (Math.Abs(observed) < LeastCarried * before.Sum(value => (value - ofBefore) * (value - ofBefore)))
            return null;
        var isBeyondChance = ScoreCautions.IsBeyondChance(Math.Abs(observed), new RandomStream(seed).Split(4), random =>
        {
            random.Shuffle<double>(before);
            return Math.Abs(Products());
        });
        return !isBeyondChance ? null : new Caution("carried-over", observed > 0
            ? "A cup is scored higher after a good cup and lower after a poor one: what was tasted before is in the score. Cups of one sitting go together more than their sitting makes them, and coffees that were tasted side by side look alike."
            : "A cup is scored lower after a good cup and higher after a poor one: it is set off from what was tasted before. Coffees that were tasted side by side look further apart than they are.");

        double Products() => before.Select((value, pair) => (value - ofBefore) * (beyond[pair] - ofBeyond)).Sum();
    }

    /// <summary>Of each cup that follows one of another bag in its sitting what was expected of that one, and what it has beyond its own.</summary>
    private static (double[] Before, double[] Beyond) Pairs(IReadOnlyList<Tasting> cups, double[] values, double?[] expected)
    {
        var (before, beyond) = (new List<double>(), new List<double>());
        foreach (var (first, second) in ScoreColumns.Neighbours(cups))
        {
            if (cups[first].Bag.Id == cups[second].Bag.Id || expected[first] is not { } good || expected[second] is not { } own)
                continue;
            before.Add(good);
            beyond.Add(values[second] - own);
        }

        return ([.. before], [.. beyond]);
    }
}
