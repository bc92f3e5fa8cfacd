using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>The score's course over effective rest.</summary>
internal static class RestCourseChart
{
    public static Chart Draw(RestCourse course)
    {
        if (course.Points.Count < 2)
            return Chart.Nothing(course.Question, "The cups with a score and a day of rest lie on too few days to draw a course.");
        var first = course.Points[0].RestDays;
        var last = course.Points[^1].RestDays;
        // Lone cups far outside would squeeze the course into a corner: they are counted instead.
        var room = Math.Max(7, (last - first) / 4.0);
        var cups = course.Cups.Where(day => day.RestDays >= first - room && day.RestDays <= last + room).ToArray();
        var beyond = course.Cups.Sum(day => day.Cups) - cups.Sum(day => day.Cups);
        var from = Math.Min(first, cups.Select(day => day.RestDays).DefaultIfEmpty(first).Min());
        var to = Math.Max(last, cups.Select(day => day.RestDays).DefaultIfEmpty(last).Max());
        var unit = Words.Unit(course);
        var peak = course.Shape as RestShape.Peak;
        return Chart.Draw(
            ShortText.Sentence(course.Finding),
            $"Expected score under the standard brew ({ShortText.Cut(course.StandardBrew.ToString(), 120)}) with its 95 % band, each day by itself, over day {first} to {last}; {NumberText.Count(course.Computation.CupsUsed, "cup")}. "
            + "Dots: mean score of each day\u2019s cups as they are, larger for more cups."
            + (peak is null ? "" : " Shaded: 95 % interval of the peak day.")
            + (beyond == 0 ? "" : $" Not drawn: {NumberText.Count(beyond, "cup")} far outside these days."),
            AltText(course, unit),
            Traces(course, cups),
            FigurePart.Layout(
                ("height", 440),
                ("hovermode", "closest"),
                ("dragmode", false),
                ("xaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", "Effective rest (days)"))), ("range", Padded(from, to)), ("fixedrange", true), ("showgrid", false), ("tickangle", 0))),
                ("yaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", ChartText.Literal($"Score ({unit})")))), ("fixedrange", true))),
                ("legend", Legends.Above()),
                ("shapes", peak is null ? null : new[] { Guides.UprightBand(peak.Low, peak.High, Palette.Second), Guides.Upright(peak.Day, Palette.Second) }),
                ("annotations", peak is null ? null : new[] { PeakLabel(peak, (from + to) / 2.0) })));
    }

    private static Trace[] Traces(RestCourse course, RestCups[] cups)
    {
        var days = course.Points.Select(point => point.RestDays).ToArray();
        var edge = FigurePart.Of(("width", 0), ("color", Palette.Main));
        var traces = new List<Trace>
        {
            FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "lower bound"), ("showlegend", false), ("x", days),
                ("y", course.Points.Select(point => point.Low).ToArray()), ("line", edge), ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "95 % band"), ("legendrank", 1002), ("x", days), ("y", course.Points.Select(point => point.High).ToArray()),
                ("fill", "tonexty"), ("fillcolor", Palette.Veil(Palette.Main, 0x40)), ("line", edge), ("hoverinfo", "skip")),
        };
        if (cups.Length > 0)
        {
            traces.Add(FigurePart.Trace(
                "scatter", ("mode", "markers"), ("name", "mean of the day\u2019s cups"), ("legendrank", 1003),
                ("x", cups.Select(day => day.RestDays).ToArray()), ("y", cups.Select(day => day.MeanScore).ToArray()),
                ("marker", FigurePart.Of(
                    ("color", Palette.Quiet), ("opacity", 0.75), ("size", cups.Select(day => day.Cups).ToArray()),
                    ("sizemode", "area"), ("sizeref", 2.0 * cups.Max(day => day.Cups) / (18 * 18)), ("sizemin", 2.5))),
                ("hovertext", cups.Select(day => HoverText.Of(
                    $"Day {day.RestDays} of rest", $"mean score {NumberText.Fixed(day.MeanScore)} of {NumberText.Count(day.Cups, "cup")}, as they are")).ToArray()),
                ("hoverinfo", "text")));
        }

        traces.Add(FigurePart.Trace(
            "scatter", ("mode", "lines"), ("name", "expected score"), ("legendrank", 1001), ("x", days), ("y", course.Points.Select(point => point.Estimate).ToArray()),
            ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))),
            ("hovertext", course.Points.Select(point => HoverText.Of(
                $"Day {point.RestDays} of rest", $"expected score {NumberText.Fixed(point.Estimate)} (95 %: {NumberText.Interval(point.Low, point.High)})")).ToArray()),
            ("hoverinfo", "text")));
        return [.. traces];
    }

    private static DynamicObj.DynamicObj PeakLabel(RestShape.Peak peak, double middle) => FigurePart.Of(
        ("text", ChartText.Literal($"peak: day {peak.Day} ({peak.Low} to {peak.High})")), ("showarrow", false),
        ("xref", "x"), ("x", peak.Day), ("xanchor", peak.Day > middle ? "right" : "left"), ("xshift", peak.Day > middle ? -4 : 4),
        ("yref", "paper"), ("y", 0), ("yanchor", "bottom"));

    private static string AltText(RestCourse course, string unit)
    {
        var highest = course.Points.MaxBy(point => point.Estimate)!;
        return Words.AltText(
            $"A curve of the expected score over days of effective rest, in {unit}, with its 95 % band, over dots for the mean of each day\u2019s cups",
            [
                Day(course.Points[0]),
                $"at its highest on {Day(highest)}",
                Day(course.Points[^1]),
                course.Shape.Match(
                    peak => $"peak on day {peak.Day}, 95 % interval day {peak.Low} to {peak.High}",
                    _ => "still rising on the last days",
                    _ => "falling from the first days",
                    _ => "no peak can be told from this log"),
                NumberText.Count(course.Computation.CupsUsed, "cup"),
            ]);
    }

    private static string Day(RestPoint point) =>
        $"day {point.RestDays}: {NumberText.Fixed(point.Estimate)} ({NumberText.Interval(point.Low, point.High)})";

    private static double[] Padded(int from, int to)
    {
        var room = Math.Max(1, 0.03 * (to - from));
        return [from - room, to + room];
    }
}
