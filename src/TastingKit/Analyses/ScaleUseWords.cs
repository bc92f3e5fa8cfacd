namespace TastingKit;

/// <summary>How a scale was used, in sentences that never call a movement drift.</summary>
internal static class ScaleUseWords
{
    public static IReadOnlyList<string> Of(ScaleUse use) =>
        new[]
        {
            use.Movement.Match(told => Say(use, told), no => $"{no.Reason} {no.WhatToLog}"),
            "A movement that all steps share is not read here, since other coffee would show alike; whether the scale as a whole moved is a question for what was kept the same over the year.",
            Top(use),
            JustRight(use),
            Spread(use),
            Never(use),
            Merged(use),
            use.Top is { } top && top.InformationLost < TopOfScale.WarnsFrom
                ? $"At the top little is lost: a cup of a coffee among the best tenth tells {NumberText.Percent(top.InformationLost)} less of it than on a scale of the same steps without an end."
                : "",
        }.Where(sentence => sentence.Length > 0).ToArray();

    private static string Say(ScaleUse use, StepMovement.Estimated told)
    {
        var counts = $"{NumberText.Count(told.Cups, "cup")}, {NumberText.Count(told.Widths.Count, use.PeriodName)}";
        if (!told.IsTold)
            return $"No movement of the steps of {MethodWords.Named(use.Attribute)} against one another can be told ({counts}; p = {PValue(told.P)}).";
        var most = told.Thresholds.MaxBy(move => Math.Abs(move.Estimate) / (move.High - move.Low))!;
        return $"Steps of {MethodWords.Named(use.Attribute)} moved against one another ({counts}; p {(told.P < 0.001 ? "<" : "=")} {PValue(Math.Max(told.P, 0.001))}), most surely in {most.Quarter}: "
            + $"{ScaleText.Step(most.Step)} and above began {NumberText.Fixed(Math.Abs(most.Estimate))} points {(most.Estimate > 0 ? "higher" : "lower")} than over all {use.PeriodName}s, against the other steps (95 % interval {NumberText.DifferenceInterval(most.Low, most.High)}).";
    }

    private static string PValue(double p) => NumberText.Fixed(p, p < 0.1 ? 3 : 2);

    private static string Top(ScaleUse use)
    {
        if (use.Scale.Kind == ScaleKind.JustRight)
            return "";
        var step = use.Quarters[0].Shares[^1].Steps;
        return $"The highest step given is {step.Label}{(step.To >= use.Scale.Max ? ", the end of the scale" : "")}: {string.Join(", ", use.Quarters.Select(quarter => $"{Share(quarter.Shares[^1])} of cups in {quarter.Label}"))}.";
    }

    private static string JustRight(ScaleUse use) => use.Scale.Kind != ScaleKind.JustRight
        ? ""
        : $"On a just-right scale more is not better, so both sides are told: {string.Join("; ", use.Quarters.Select(Sides))}.";

    private static string Sides(ScaleQuarter quarter)
    {
        var sides = quarter.DistanceFromJustRight!;
        return $"{quarter.Label} too little in {NumberText.Percent(sides.TooLittle)} of cups (by {NumberText.Fixed(sides.MeanBelow)} points on average), too much in {NumberText.Percent(sides.TooMuch)} (by {NumberText.Fixed(sides.MeanAbove)})";
    }

    private static string Share(StepShare share) =>
        share.Interval is { } interval ? $"{NumberText.Percent(share.Share)} ({NumberText.Percent(interval.Low)} to {NumberText.Percent(interval.High)})" : NumberText.Percent(share.Share);

    private static string Spread(ScaleUse use) =>
        $"Scores spread by {string.Join(", ", use.Quarters.Select(quarter => $"{NumberText.Fixed(quarter.Spread)}{(quarter.SpreadInterval is { } interval ? $" ({NumberText.Interval(interval.Low, interval.High)})" : "")} in {quarter.Label}"))} (standard deviations in points, coffees\u2019 own differences among them; 95 % intervals).";

    private static string Never(ScaleUse use)
    {
        if (use.NeverUsed.Count == 0)
            return "Every step of the scale was used.";
        var lowest = use.Quarters[0].Shares[0].Steps.From;
        var highest = use.Quarters[0].Shares[^1].Steps.To;
        var all = use.NeverUsed.Count + use.Quarters[0].Shares.Count;
        var parts = new[]
        {
            Range([.. use.NeverUsed.Where(step => step < lowest)]),
            List([.. use.NeverUsed.Where(step => step > lowest && step < highest)]),
            Range([.. use.NeverUsed.Where(step => step > highest)]),
        }.Where(part => part.Length > 0);
        return $"Of {NumberText.Count(all, "step")} {use.NeverUsed.Count} {(use.NeverUsed.Count == 1 ? "was" : "were")} never used: {string.Join("; ", parts)}.";
    }

    private static string Range(double[] steps) => steps.Length switch
    {
        0 => "",
        1 => ScaleText.Step(steps[0]),
        _ => $"{ScaleText.Step(steps[0])} to {ScaleText.Step(steps[^1])}",
    };

    private static string List(double[] steps) => steps.Length > 8 ? $"{steps.Length} between {Range(steps)}" : string.Join(", ", steps.Select(ScaleText.Step));

    private static string Merged(ScaleUse use)
    {
        var merged = use.Groups.Where(group => group.From != group.To).ToArray();
        return merged.Length == 0 || use.Movement is StepMovement.Refused
            ? ""
            : $"For the thresholds steps hardly used are taken together: {string.Join(", ", merged.Select(group => $"{group.Label} ({NumberText.Count(group.Cups, "cup")})"))}.";
    }
}
