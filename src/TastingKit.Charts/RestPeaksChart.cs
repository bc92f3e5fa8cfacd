namespace TastingKit.Charts;

/// <summary>The courses of kinds of coffee over effective rest, one panel a kind over one axis of days, all on one scale.</summary>
internal static class RestPeaksChart
{
    private const int MostPanels = 6;
    private const int PixelsOfOne = 440;
    private const int PixelsOfEach = 235;
    private const int PixelsOfHeading = 44;
    private const int PixelsBelow = 52;
    private const int PixelsAbove = 8;

    public static Chart Draw(RestPeaks peaks)
    {
        // Where there are many kinds, those tasted most.
        var shown = peaks.Groups.OrderByDescending(group => group.Cups).Take(MostPanels).OrderBy(group => group.Level, StringComparer.Ordinal).ToArray();
        if (shown.Length == 0)
            return Chart.Nothing(peaks.Question, ShortText.Sentence(peaks.Finding));
        var panels = shown.Select((group, i) => new RestPanel(group, i, peaks)).ToArray();
        var (from, to) = (panels.Min(panel => panel.From), panels.Max(panel => panel.To));
        var beyond = panels.Sum(panel => panel.Beyond);
        var unit = $"points of {NumberText.Fixed(peaks.Scale.Min, 0)} to {NumberText.Fixed(peaks.Scale.Max, 0)}";
        var panelPixels = shown.Length == 1 ? PixelsOfOne : PixelsOfEach;
        var headingPixels = peaks.By is null ? 0 : PixelsOfHeading;
        var plot = shown.Length * (headingPixels + panelPixels);
        var room = Math.Max(1, 0.03 * (to - from));
        var layout = FigurePart.Layout(
            ("height", plot + PixelsBelow + PixelsAbove + Legends.Pixels(RestPanel.LegendEntries)),
            ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", PixelsAbove), ("b", PixelsBelow + Legends.Pixels(RestPanel.LegendEntries)))),
            ("hovermode", "closest"),
            ("dragmode", false),
            ("xaxis", FigurePart.Of(
                ("title", FigurePart.Of(("text", "Effective rest (days)"), ("standoff", 4))), ("range", new[] { from - room, to + room }), ("fixedrange", true),
                ("showgrid", false), ("tickangle", 0), ("anchor", panels[^1].Axis), ("automargin", false))),
            ("legend", Legends.Below((double)PixelsBelow / plot).With(("itemsizing", "constant"))),
            ("showlegend", true),
            ("shapes", panels.SelectMany(panel => panel.Shapes()).ToArray()),
            ("annotations", panels.SelectMany(panel => panel.Labels((from + to) / 2.0)).ToArray()));
        var range = Range(panels);
        foreach (var (panel, i) in panels.Select((panel, i) => (panel, i)))
        {
            var top = 1 - ((i * (headingPixels + panelPixels)) + headingPixels) / (double)plot;
            layout.SetProperty(panel.LayoutAxis, FigurePart.Of(
                ("domain", new[] { top - (panelPixels / (double)plot), top }), ("range", range), ("fixedrange", true), ("nticks", 6),
                ("title", FigurePart.Of(("text", ChartText.Literal($"{ShortText.Cut(Capital(peaks.Attribute.Name), 20)} ({unit})"))))));
        }

        return Chart.Draw(
            ShortText.Sentence(peaks.Finding, shown.Select(group => group.Level)),
            Subtitle(peaks, shown, beyond),
            Words.AltText(
                $"{(shown.Length == 1 ? "A curve" : "One panel a kind, each with a curve")} of the expected {ShortText.Cut(peaks.Attribute.Name, 40)} over days of effective rest, in {unit}, with its 95 % band, over dots for the mean of each day\u2019s cups{(shown.Any(group => group.NamesBestDays) ? "; the best days are shaded" : "")}",
                [.. shown.Select(Figures)]),
            [.. panels.SelectMany(panel => panel.Traces())],
            layout);
    }

    private static string Subtitle(RestPeaks peaks, IReadOnlyList<RestGroup> shown, int beyond) =>
        $"Expected {ShortText.Cut(peaks.Attribute.Name, 40)} under the standard brew ({ShortText.Cut(peaks.StandardBrew.ToString(), 120)}) with its 95 % band, each day by itself, over the days tasted, whose ends are dotted; {NumberText.Count(peaks.Computation.CupsUsed, "cup")}. "
        + "Dots: mean of each day\u2019s cups as they are, larger for more cups. "
        + (shown.Any(group => group.NamesBestDays) ? $"Shaded: the best days, within {NumberText.Fixed(peaks.Near)} points of the highest. " : "No best days can be named, and none are shaded. ")
        + (shown.Any(group => group.Outcome is RestOutcome.Peak) ? "Dashed: the peak, told with its 95 % interval." : "No peak is marked where none is sure.")
        + (shown.Count == peaks.Groups.Count ? "" : $" The {shown.Count} kinds of most cups of {peaks.Groups.Count}.")
        + (beyond == 0 ? "" : $" Not drawn: {NumberText.Count(beyond, "cup")} far outside these days.");

    private static string Capital(string name) => char.ToUpperInvariant(name[0]) + name[1..];

    private static string Figures(RestGroup group) =>
        $"{ShortText.Cut(group.Level, 40)}: {RestPanel.Outcome(group)}, {Day(group.Days[0])}, highest {Day(group.Best)}, {Day(group.Days[^1])}, {(group.NamesBestDays ? $"best days {group.BestFrom} to {group.BestTo}, " : "")}{NumberText.Count(group.Cups, "cup")} of {NumberText.Count(group.Bags, "bag")}";

    private static string Day(RestDay day) => $"day {day.RestDays} {NumberText.Fixed(day.Estimate)} ({NumberText.Interval(day.Low, day.High)})";

    /// <summary>One range for all panels, so that kinds can be compared.</summary>
    private static double[] Range(IReadOnlyList<RestPanel> panels)
    {
        var (low, high) = (panels.Min(panel => panel.Lowest), panels.Max(panel => panel.Highest));
        var room = Math.Max(1e-6, 0.06 * (high - low));
        return [low - room, high + room];
    }
}
