using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>What is taken out of a score by the day of its cup, with the uncertainty that all cups share: nothing on the common day, ever less surely away from it.</summary>
internal static class AdjustedScoresChart
{
    private const int Places = 25;

    public static Chart Draw(AdjustedScores scores)
    {
        if (scores.Cups.Count == 0 || scores.Drift is not { } drift)
            return Chart.Nothing(scores.Question, "No cup is brought to another day\u2019s scale.");
        var (first, last) = (scores.Cups.Min(cup => cup.Cup.TastedOn), scores.Cups.Max(cup => cup.Cup.TastedOn));
        DateOnly[] days = [.. Enumerable.Range(0, Places).Select(i => first.AddDays((last.DayNumber - first.DayNumber) * i / (Places - 1))).Distinct()];
        double Years(DateOnly day) => (day.DayNumber - scores.OnScaleOf.DayNumber) / 365.25;
        (double Low, double High) Band(DateOnly day) =>
            (Math.Min(-Years(day) * drift.AYear.Low, -Years(day) * drift.AYear.High), Math.Max(-Years(day) * drift.AYear.Low, -Years(day) * drift.AYear.High));
        var edge = FigurePart.Of(("width", 0), ("color", Palette.Main));
        var unit = Words.Unit(scores);
        Trace[] traces =
        [
            FigurePart.Trace("scatter", ("mode", "lines"), ("name", "lower bound"), ("showlegend", false), ("x", days), ("y", days.Select(day => Band(day).Low).ToArray()), ("line", edge), ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "95 % band, shared by all cups"), ("x", days), ("y", days.Select(day => Band(day).High).ToArray()), ("fill", "tonexty"),
                ("fillcolor", Palette.Veil(Palette.Main, 0x40)), ("line", edge), ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "lines+markers"), ("name", "added to a score of that day"), ("x", days), ("y", days.Select(day => -Years(day) * drift.AYear.Estimate).ToArray()),
                ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))), ("marker", FigurePart.Of(("color", Palette.Main), ("size", 5))),
                ("hovertext", days.Select(day => HoverText.Of(
                    NumberText.Day(day), $"{NumberText.Difference(-Years(day) * drift.AYear.Estimate)} points (95 %: {NumberText.DifferenceInterval(Band(day).Low, Band(day).High)})")).ToArray()),
                ("hoverinfo", "text")),
        ];
        return Chart.Draw(
            ShortText.Sentence(scores.Finding),
            $"What is added to a score to bring it to the scale of {NumberText.Day(scores.OnScaleOf)} (dashed), with its 95 % band; {NumberText.Count(scores.Cups.Count, "cup")}. Cups of one day move together: the band is one error for all.",
            Words.AltText(
                "A line through nought on the common day, with a band that widens away from it",
                [.. new[] { first, last }.Select(day => $"{NumberText.Day(day)} {NumberText.Difference(-Years(day) * drift.AYear.Estimate)} ({NumberText.DifferenceInterval(Band(day).Low, Band(day).High)})")]),
            traces,
            FigurePart.Layout(
                ("height", 380 + Legends.Pixels(2)),
                ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", 20), ("b", 56 + Legends.Pixels(2)))),
                ("hovermode", "closest"), ("dragmode", false),
                ("xaxis", FigurePart.Of(("type", "date"), ("fixedrange", true), ("nticks", 5), ("tickangle", 0), ("title", FigurePart.Of(("text", "Day tasted"))))),
                ("yaxis", FigurePart.Of(("title", FigurePart.Of(("text", ChartText.Literal($"Added to the score ({unit})")))), ("fixedrange", true), ("zeroline", true))),
                ("legend", Legends.Below(0.2)), ("showlegend", true),
                ("shapes", new[] { Guides.Upright(scores.OnScaleOf, Palette.Second) })));
    }
}
