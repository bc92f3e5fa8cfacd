using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>
/// The pairs of what rest does by itself and of drift that fit a log: a line with its band, on which a log alone marks no place. What was kept
/// the same, or what the user states, cuts the line, each under its assumption.
/// </summary>
internal static class DriftLineChart
{
    private const double MonthsAYear = 12;
    private const double LeastReach = 0.15;
    private const int Places = 21;

    private static readonly string[] Colours = [Palette.Second, Palette.Third, Palette.Quiet];
    private static readonly string[] Symbols = ["diamond", "square", "triangle-up"];

    public static Chart Draw(ScaleDrift drift)
    {
        if (drift.Sums.FirstOrDefault(sum => sum.Sum == DriftSum.RestAndDrift) is not { } sum)
            return Chart.Nothing(drift.Question, "No bag was tasted on several days: nothing in this log tells rest and drift together.");
        var cuts = drift.Case.Match<Cut[]>(
            _ => [],
            anchored => [.. anchored.Drifts.Select((one, i) => new Cut(one.Anchor.Assumption, one.AYear.Estimate, one.AYear.Low, one.AYear.High, Colours[i % Colours.Length], Symbols[i % Symbols.Length]))]);
        var days = drift.RestIsKnown ? $"day {drift.RestDaysFrom} to day {drift.RestDaysTo} of rest" : $"the first {drift.RestDaysTo} days from a bag\u2019s first cup";
        return Figure(
            drift.Finding,
            $"Line: every pair of rest and drift whose sum fits the log, with the 95 % band of the sum; {NumberText.Count(sum.Cups, "cup")} of {NumberText.Count(sum.Bags, "bag")}, {days}. "
            + (cuts.Length == 0 ? "Nothing in this log marks a place on it." : $"Bands across: the drift with its 95 % interval under each assumption ({string.Join("; ", drift.Case.Match(_ => [], anchored => anchored.Drifts.Select(one => one.Anchor.RestsOn).Distinct()))}); marks show where it cuts the line."),
            sum.Slope, cuts, null, Words.Unit(drift));
    }

    public static Chart Draw(DriftGivenRest given)
    {
        var middle = (given.Lowest + given.Highest) / 2;
        return Figure(
            given.Finding,
            $"Upright band: what you state rest to do, which this log does not tell. Band across: the drift that follows, with its 95 % interval; {NumberText.Count(given.Computation.CupsUsed, "cup")}.",
            given.Together, [new Cut("your statement of rest", middle, given.Low, given.High, Palette.Second, "diamond")], (given.RestLowest, given.RestHighest), Words.Unit(given));
    }

    private sealed record Cut(string Name, double Drift, double Low, double High, string Colour, string Symbol);

    private static Chart Figure(string finding, string subtitle, DriftSlope sum, Cut[] cuts, (double Low, double High)? stated, string unit)
    {
        double[] shown = [sum.Low, sum.High, stated?.Low ?? 0, stated?.High ?? 0, .. cuts.Select(cut => sum.Estimate - (cut.Drift / MonthsAYear))];
        var reach = Math.Max(LeastReach, 1.3 * shown.Max(Math.Abs));
        double[] ends = [-reach, reach];
        double[] along = [.. Enumerable.Range(0, Places).Select(i => reach * (((2.0 * i) / (Places - 1)) - 1))];
        double Drift(double together, double rest) => MonthsAYear * (together - rest);
        var edge = FigurePart.Of(("width", 0), ("color", Palette.Main));
        var traces = new List<Trace>
        {
            FigurePart.Trace("scatter", ("mode", "lines"), ("name", "lower bound"), ("showlegend", false), ("x", ends), ("y", ends.Select(x => Drift(sum.Low, x)).ToArray()), ("line", edge), ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "95 % band"), ("x", ends), ("y", ends.Select(x => Drift(sum.High, x)).ToArray()), ("fill", "tonexty"),
                ("fillcolor", Palette.Veil(Palette.Main, 0x40)), ("line", edge), ("hoverinfo", "skip")),
            FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "pairs that fit the log alike"), ("x", along), ("y", along.Select(x => Drift(sum.Estimate, x)).ToArray()),
                ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))),
                ("hovertext", along.Select(x => HoverText.Of(
                    $"If rest by itself does {NumberText.Difference(x)} points a month",
                    $"drift {NumberText.Difference(Drift(sum.Estimate, x))} points a year (95 %: {NumberText.DifferenceInterval(Drift(sum.Low, x), Drift(sum.High, x))})")).ToArray()),
                ("hoverinfo", "text")),
        };
        traces.AddRange(cuts.Select(cut => FigurePart.Trace(
            "scatter", ("mode", "markers"), ("name", ChartText.Literal(cut.Name)), ("x", new[] { sum.Estimate - (cut.Drift / MonthsAYear) }), ("y", new[] { cut.Drift }),
            ("marker", FigurePart.Of(("symbol", cut.Symbol), ("size", 13), ("color", cut.Colour))), ("cliponaxis", false),
            ("hovertext", new[] { HoverText.Of(cut.Name, $"drift {NumberText.Difference(cut.Drift)} points a year (95 %: {NumberText.DifferenceInterval(cut.Low, cut.High)})", $"rest {NumberText.Difference(sum.Estimate - (cut.Drift / MonthsAYear))} points a month") }),
            ("hoverinfo", "text"))));
        var shapes = cuts.SelectMany(cut => new[] { Across(cut.Low, cut.High, cut.Colour), Line(cut.Drift, cut.Colour) }).ToList();
        if (stated is var (from, to))
            shapes.Add(from == to ? Guides.Upright(from, Palette.Second) : Guides.UprightBand(from, to, Palette.Second));
        return Chart.Draw(
            ShortText.Sentence(finding),
            subtitle,
            Words.AltText(
                "A falling line with its band: drift against what rest does by itself; a higher drift asks for a lower slope of rest",
                [
                    $"their sum {NumberText.Difference(sum.Estimate)} points a month ({NumberText.DifferenceInterval(sum.Low, sum.High)})",
                    .. cuts.Select(cut => $"{cut.Name}: drift {NumberText.Difference(cut.Drift)} points a year ({NumberText.DifferenceInterval(cut.Low, cut.High)})"),
                ]),
            traces,
            FigurePart.Layout(
                ("height", 430 + Legends.Pixels(traces.Count)),
                ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", 20), ("b", 56 + Legends.Pixels(traces.Count)))),
                ("hovermode", "closest"),
                ("dragmode", false),
                ("xaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", ChartText.Literal($"What rest does by itself (points a month)")))), ("range", ends), ("fixedrange", true), ("zeroline", true), ("tickangle", 0))),
                ("yaxis", FigurePart.Of(("title", FigurePart.Of(("text", ChartText.Literal($"Drift ({unit} a year)")))), ("fixedrange", true), ("zeroline", true))),
                ("legend", Legends.Below(0.17)),
                ("showlegend", true),
                ("shapes", shapes.ToArray())));
    }

    private static DynamicObj.DynamicObj Across(double from, double to, string colour) => FigurePart.Of(
        ("type", "rect"), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", "y"), ("y0", from), ("y1", to),
        ("fillcolor", Palette.Veil(colour)), ("line", FigurePart.Of(("width", 0))));

    private static DynamicObj.DynamicObj Line(double at, string colour) => FigurePart.Of(
        ("type", "line"), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", "y"), ("y0", at), ("y1", at),
        ("line", FigurePart.Of(("color", colour), ("width", 1.5), ("dash", "dash"))));
}
