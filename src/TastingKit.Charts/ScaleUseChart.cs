namespace TastingKit.Charts;

/// <summary>The part of each quarter's cups that were given each step, a panel a step, the highest on top.</summary>
internal static class ScaleUseChart
{
    private const int MostPanels = 12;

    public static Chart Draw(ScaleUse use)
    {
        if (use.Groups.Count == 0)
            return Chart.Nothing(use.Question, ShortText.Sentence(use.Finding));
        // Of a scale with many steps, those given most.
        int[] shown = [.. Enumerable.Range(0, use.Groups.Count).OrderByDescending(g => use.Groups[g].Cups).Take(MostPanels).OrderDescending()];
        var span = new CalendarSpan([.. use.Quarters.Select(quarter => quarter.From)], use.PeriodName);
        var panels = new QuarterPanels([.. shown.Select(g => Panel(use, g))], span, $"part of the {use.PeriodName}\u2019s cups");
        return Chart.Draw(
            ShortText.Sentence(use.Finding),
            $"Part of each {use.PeriodName}\u2019s cups that were given each step, with its 95 % interval, cups clustered in bags; {NumberText.Count(use.Computation.CupsUsed, "cup")} in all. "
            + $"{Words.HowManyShown(shown.Length, use.Groups.Count, "step or group of steps", "steps or groups of steps", "most given")}, the highest on top: steps hardly used are taken together. Other coffee moves these parts as well as another use of the scale does.",
            Words.AltText(
                $"One panel a step or group of steps: the part of each {use.PeriodName}\u2019s cups that were given it with its 95 % interval",
                [.. shown.Select(g => $"{use.Groups[g].Label}: {string.Join(", ", use.Quarters.Take(6).Select(quarter => $"{quarter.Label} {Figures(quarter.Groups[g])}"))}")]),
            [.. panels.Traces()],
            panels.Layout("Part of cups", (value, _) => NumberText.Percent(Math.Clamp(value, 0, 1)), null));
    }

    private static QuarterPanel Panel(ScaleUse use, int group) => new(
        use.Groups[group].Label, NumberText.Count(use.Groups[group].Cups, "cup"),
        [.. use.Quarters.Select((quarter, q) => new QuarterMark(q, quarter.Groups[group].Share, quarter.Groups[group].Interval, HoverText.Of(
            $"{use.Groups[group].Label} in {quarter.Label}", Figures(quarter.Groups[group]), $"{quarter.Groups[group].Cups} of {NumberText.Count(quarter.Cups, "cup")}, {NumberText.Count(quarter.Bags, "bag")}")))]);

    private static string Figures(StepShare share) =>
        $"{NumberText.Percent(share.Share)} ({(share.Interval is { } interval ? $"{NumberText.Percent(interval.Low)} to {NumberText.Percent(interval.High)}" : "under 3 bags, no interval")})";
}
