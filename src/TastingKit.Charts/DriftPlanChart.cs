using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>In how many years a drift would be told, by the number of frozen doses, against the 80 in 100 that are asked for.</summary>
internal static class DriftPlanChart
{
    private const double Wanted = 0.8;

    public static Chart Draw(DriftPlan plan)
    {
        DriftPlanOption[] spread = [.. plan.Options.Where(option => option.DaysApart is not null)];
        var traces = new List<Trace>
        {
            Marks("doses of one coffee over the year", spread, "circle", Palette.Main, "lines+markers+text"),
        };
        if (plan.Flight is { } flight)
            traces.Add(Marks("a dose of each of so many bags, at one sitting", [flight], "diamond", Palette.Second, "markers+text"));
        var most = plan.Options.Max(option => option.Doses);
        return Chart.Draw(
            ShortText.Sentence(plan.Finding),
            $"Share of years in which a drift of {NumberText.Fixed(plan.DriftAYear)} points a year is told from none, by frozen doses; beside each mark, half of the width of the 95 % interval in points a year. From the scatter of {NumberText.Count(plan.Computation.CupsUsed, "cup")}. Dashed: 80 in 100.",
            Words.AltText(
                "Marks by the number of frozen doses: the share of years in which the drift is told",
                [.. plan.Options.Select(option => $"{option.What}: {NumberText.Probability(option.Power)}, to within {NumberText.Fixed(option.HalfWidth)}")]),
            traces,
            FigurePart.Layout(
                ("height", 380 + Legends.Pixels(traces.Count)),
                ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", 20), ("b", 56 + Legends.Pixels(traces.Count)))),
                ("hovermode", "closest"), ("dragmode", false),
                ("xaxis", FigurePart.Of(("title", FigurePart.Of(("text", "Frozen doses"))), ("fixedrange", true), ("range", new[] { 0, 1.12 * most }), ("tickangle", 0))),
                ("yaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", "Years in which it is told"))), ("fixedrange", true), ("range", new[] { 0, 1.12 }),
                    ("tickvals", new[] { 0, 0.2, 0.4, 0.6, Wanted, 1 }), ("ticktext", new[] { "0 %", "20 %", "40 %", "60 %", "80 %", "100 %" }))),
                ("legend", Legends.Below(0.2)), ("showlegend", true),
                ("shapes", new[]
                {
                    FigurePart.Of(
                        ("type", "line"), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", "y"), ("y0", Wanted), ("y1", Wanted),
                        ("line", FigurePart.Of(("color", Palette.Quiet), ("width", 1.5), ("dash", "dash")))),
                })));
    }

    private static Trace Marks(string name, DriftPlanOption[] options, string symbol, string colour, string mode) => FigurePart.Trace(
        "scatter", ("mode", mode), ("name", name), ("x", options.Select(option => option.Doses).ToArray()), ("y", options.Select(option => option.Power).ToArray()),
        ("text", options.Select(option => $"\u00b1{NumberText.Fixed(option.HalfWidth)}").ToArray()), ("textposition", symbol == "diamond" ? "bottom center" : "top left"),
        ("marker", FigurePart.Of(("symbol", symbol), ("size", 11), ("color", colour))), ("line", FigurePart.Of(("color", colour), ("width", 2))), ("cliponaxis", false),
        ("hovertext", options.Select(option => HoverText.Of(
            option.What, option.DaysApart is { } apart ? $"one every {NumberText.Fixed(apart, 0)} days" : "", $"told in {NumberText.Probability(option.Power)} of years", $"drift to within {NumberText.Fixed(option.HalfWidth)} points a year either way")).ToArray()),
        ("hoverinfo", "text"));
}
