namespace TastingKit;

/// <summary>What a log says of drift, in sentences that can't be taken for more: a drift always begins with the assumption it rests on.</summary>
internal static class DriftWords
{
    public static string Named(TastingAttribute attribute) => MethodWords.Named(attribute);

    public static string Name(DriftSum sum) => sum switch
    {
        DriftSum.RestAndDrift => "rest and drift together",
        DriftSum.CoffeeAndDrift => "other coffee and drift together",
        DriftSum.FreezerAndDrift => "freezer and drift together",
        DriftSum.CoffeeLessFreezer => "other coffee less the freezer",
        DriftSum.FreezingStep => "freezing itself",
        _ => throw new ArgumentOutOfRangeException(nameof(sum), sum, "An unknown sum."),
    };

    public static string Per(DriftSum sum) => sum switch
    {
        DriftSum.RestAndDrift => "month",
        DriftSum.FreezingStep => "freezing",
        DriftSum.CoffeeAndDrift or DriftSum.CoffeeLessFreezer => "year of roast date",
        _ => "year",
    };

    public static string RestsOn(IdentifiedSum sum) => $"{NumberText.Count(sum.Cups, "cup")} of {NumberText.Count(sum.Bags, "bag")}";

    public static IReadOnlyList<string> Of(ScaleDrift drift)
    {
        string[] first = drift.Case.Match<string[]>(
            none => [Cannot(drift)],
            anchored => [.. anchored.Drifts.Select(Say), .. Agreement(anchored.Drifts)]);
        return
        [
            .. first,
            .. drift.Sums.Select(sum => Say(drift, sum)),
            .. drift.Case.Match<string[]>(
                none =>
                [
                    $"{string.Join(" ", none.WhatIsMissing)} Any of these would tell it under one assumption, and so does a statement of what rest does by itself; a dozen doses of one coffee frozen on one day, one thawed and tasted blind each month, ask the least.",
                    "Coffee that is only set aside ages, and tells nothing of drift. Tasting blind takes the label away, not the drift.",
                ],
                anchored => anchored.Drifts.Any(one => one.Anchor is DriftAnchor.FrozenDoses) && drift.FreezerLossAYear == 0
                    ? ["Whatever a dose loses in the freezer hides as much drift: each tenth of a point lost in a year adds a tenth to the drift a year."]
                    : []),
        ];
    }

    private static string Cannot(ScaleDrift drift) => drift.SumOf(DriftSum.RestAndDrift) is { } sum
        ? $"This log can\u2019t tell a drifting scale from {(drift.RestIsKnown ? "rest" : "what time does to a bag")}: both run together within a bag, and nothing was kept the same throughout ({NumberText.Count(sum.Cups, "cup")} of {NumberText.Count(sum.Bags, "bag")})."
        : $"This log can\u2019t tell whether the scale drifted: no bag was tasted on several days, and nothing was kept the same throughout ({NumberText.Count(drift.Computation.CupsUsed, "cup")}).";

    private static string Say(AnchoredDrift drift)
    {
        var figures = $"{NumberText.Difference(drift.AYear.Estimate)} points a year (95 % interval {NumberText.DifferenceInterval(drift.AYear.Low, drift.AYear.High)}; {drift.Anchor.RestsOn})";
        return drift.AYear.IsToldFromNone
            ? $"{drift.Anchor.Assumption}, the scale drifted {(drift.AYear.Estimate > 0 ? "up" : "down")}: {figures}."
            : $"{drift.Anchor.Assumption}, no drift of the scale can be told from none: {figures}.";
    }

    private static IEnumerable<string> Agreement(IReadOnlyList<AnchoredDrift> drifts)
    {
        var kinds = drifts.Select(one => one.Anchor.GetType()).Distinct().Count();
        if (kinds < 2)
            yield break;
        var overlap = drifts.Max(one => one.AYear.Low) <= drifts.Min(one => one.AYear.High);
        yield return overlap
            ? "Their intervals have drifts in common; that they agree does not show that their assumptions hold."
            : "Their intervals have no drift in common: at least one of the assumptions does not hold.";
    }

    private static string Say(ScaleDrift drift, IdentifiedSum sum)
    {
        // A log of a few weeks is read by the week; its month is no more than the same slope carried on.
        var byWeek = sum.Sum == DriftSum.RestAndDrift && drift.RestDaysTo - drift.RestDaysFrom < 21 ? 7 / DriftModel.DaysAMonth : 1;
        var slope = sum.Slope.Times(byWeek);
        var figures = $"{NumberText.Difference(slope.Estimate)} points (95 % interval {NumberText.DifferenceInterval(slope.Low, slope.High)}; {RestsOn(sum)})";
        return sum.Sum switch
        {
            DriftSum.RestAndDrift =>
                $"Within a bag, a {(byWeek == 1 ? "month" : "week")} changed {Named(drift.Attribute)} by {figures} on average {(drift.RestIsKnown ? $"from day {drift.RestDaysFrom} to day {drift.RestDaysTo} of rest" : $"over the first {drift.RestDaysTo} days from a bag\u2019s first cup")}. That is what rest does and what the scale did, added up: every pair of the two with this sum fits the log alike.",
            DriftSum.CoffeeAndDrift =>
                $"Between bags at equal rest, a year later roasted changed it by {figures}. That is other coffee and drift, added up.",
            DriftSum.FreezerAndDrift =>
                $"Between frozen doses of a bag, a year in the freezer changed it by {figures}. That is what the freezer does and drift, added up.",
            DriftSum.CoffeeLessFreezer =>
                $"At one blind sitting of frozen doses, a year later roasted made a difference of {figures}. No calendar lies in it: it is other coffee less what the freezer does.",
            _ => $"Freezing itself changed it by {figures}, between fresh and frozen cups of one bag.",
        };
    }
}
