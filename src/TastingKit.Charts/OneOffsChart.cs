using System.Globalization;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>Every cup's distance from what all others say of it, over the year; the cups flagged are named.</summary>
internal static class OneOffsChart
{
    private const int Named = 5;

    public static Chart Draw(OneOffs oneOffs)
    {
        OneOffCup[] flagged = [.. oneOffs.Flagged];
        OneOffCup[] others = [.. oneOffs.Cups.Where(cup => !cup.IsFlagged)];
        var traces = new List<Trace> { Marks("fits the others", others, "circle", Palette.Quiet, 6) };
        if (flagged.Length > 0)
            traces.Add(Marks("one-off", flagged, "diamond", Palette.Second, 13));
        var days = oneOffs.Cups.Select(cup => cup.Cup.TastedOn).Order().ToArray();
        var middle = days[0].AddDays((days[^1].DayNumber - days[0].DayNumber) / 2);
        return Chart.Draw(
            ShortText.Sentence(oneOffs.Finding),
            $"{NumberText.Count(oneOffs.Cups.Count, "cup")}, each against what all the others say of it. Grey band: the 95 % interval of a prediction. "
            + $"Diamonds: flagged at a false discovery rate of {NumberText.Percent(oneOffs.FalseDiscoveryRate)}.",
            Words.AltText(
                "Dots over the days of the log: how many standard deviations each score lies above its prediction, with a band from minus to plus two",
                [$"{flagged.Length} of {NumberText.Count(oneOffs.Cups.Count, "cup")} flagged", .. oneOffs.Cups.Take(Named).Select(cup => $"{cup.Cup.Id} {NumberText.Difference(cup.Standardised, 1)}{(cup.IsFlagged ? ", flagged" : "")}")]),
            traces,
            FigurePart.Layout(
                ("height", 400),
                ("hovermode", "closest"),
                ("dragmode", false),
                ("xaxis", FigurePart.Of(("type", "date"), ("fixedrange", true), ("showgrid", false), ("title", FigurePart.Of(("text", "Day tasted"))))),
                ("yaxis", FigurePart.Of(("title", FigurePart.Of(("text", "Score less prediction (standard deviations)"))), ("fixedrange", true))),
                ("legend", Legends.Above()),
                ("shapes", new[] { Band() }),
                ("annotations", flagged.Take(Named).Select(cup => Label(cup, middle)).ToArray())));
    }

    private static Trace Marks(string name, OneOffCup[] cups, string symbol, string colour, int size) => FigurePart.Trace(
        "scatter", ("mode", "markers"), ("name", name), ("x", cups.Select(Day).ToArray()), ("y", cups.Select(cup => cup.Standardised).ToArray()),
        ("marker", FigurePart.Of(("symbol", symbol), ("size", size), ("color", colour))), ("cliponaxis", false),
        ("hovertext", cups.Select(cup => HoverText.Of(
            cup.Cup.Bag.Coffee.Label,
            $"{cup.Cup.Id}, {Day(cup)}, {cup.Cup.Brewer ?? "brewer not stated"}",
            $"scored {NumberText.Fixed(cup.Cup.Score!.Value)}, expected {NumberText.Fixed(cup.Expected)} (95 %: {NumberText.Interval(cup.Low, cup.High)})")).ToArray()),
        ("hoverinfo", "text"));

    private static DynamicObj.DynamicObj Band() => FigurePart.Of(
        ("type", "rect"), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", "y"), ("y0", -1.96), ("y1", 1.96),
        ("fillcolor", Palette.Veil(Palette.Quiet)), ("line", FigurePart.Of(("width", 0))));

    private static DynamicObj.DynamicObj Label(OneOffCup cup, DateOnly middle)
    {
        var isLate = cup.Cup.TastedOn > middle;
        return FigurePart.Of(
            ("text", ChartText.Literal(ShortText.Cut(cup.Cup.Bag.Coffee.Name ?? cup.Cup.Bag.Coffee.Id, 20))), ("showarrow", false),
            ("xref", "x"), ("x", Day(cup)), ("xanchor", isLate ? "right" : "left"), ("xshift", isLate ? -10 : 10), ("yref", "y"), ("y", cup.Standardised), ("yanchor", "middle"));
    }

    private static string Day(OneOffCup cup) => cup.Cup.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
