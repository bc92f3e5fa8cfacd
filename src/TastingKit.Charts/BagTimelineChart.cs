using System.Globalization;

namespace TastingKit.Charts;

/// <summary>Every cup of one bag over its days: brewers by shape and name, what does not count hollow, and what befell the bag below.</summary>
internal static class BagTimelineChart
{
    private const int MostBrewers = 6;
    private const int PixelsOfPlot = 380;
    private const int PixelsBelow = 52;
    private const int ManyCups = 60;
    private const double WidthOfADay = 0.8;
    private const double NextTo = 0.3;

    private static readonly string[] Shapes = ["circle", "square", "diamond", "triangle-up", "cross", "x", "pentagon"];

    public static Chart Draw(BagTimeline bag)
    {
        var brewers = bag.Brewers;
        // The shapes that can be told apart are few: brewers of the fewest cups share the last.
        var shown = brewers.Count <= Shapes.Length ? brewers.Count : MostBrewers;
        var scored = bag.Cups.Where(cup => cup.Cup.Score is not null).Select(cup => cup.Cup.Score!.Value).DefaultIfEmpty(bag.Scale.Min).ToArray();
        var (low, high) = (Math.Min(scored.Min(), bag.Interval?.Low ?? double.MaxValue), Math.Max(scored.Max(), bag.Interval?.High ?? double.MinValue));
        var room = Math.Max(bag.Scale.Step > 0 ? bag.Scale.Step : 0.25, 0.1 * (high - low));
        var (unscored, kept) = (low - room, low - (2 * room));
        var unit = $"points of {NumberText.Fixed(bag.Scale.Min, 0)} to {NumberText.Fixed(bag.Scale.Max, 0)}";
        var places = Places(bag.Cups, unscored);
        var traces = new List<Plotly.NET.Trace>();
        for (var i = 0; i < shown; i++)
            traces.AddRange(Marks(bag, ShortText.Cut(brewers[i].Brewer, 30), [.. brewers[i].Cups], Shapes[i], places));
        if (shown < brewers.Count)
            traces.AddRange(Marks(bag, $"{brewers.Count - shown} other brewers", [.. brewers.Skip(shown).SelectMany(brewer => brewer.Cups)], Shapes[^1], places));
        traces.AddRange(Kept("frozen", bag.FrozenOnDays, "triangle-down", kept));
        traces.AddRange(Kept("thawed", bag.ThawedOnDays, "triangle-up", kept));
        int[] days = [.. bag.Cups.Select(cup => cup.Day), .. bag.FrozenOnDays, .. bag.ThawedOnDays, .. bag.OpenedOnDay is { } day ? [day] : Array.Empty<int>()];
        var (from, to) = (days.Min(), days.Max());
        var ticks = Ticks.Within(low, high + room);
        var entries = Math.Min(brewers.Count, MostBrewers + 1) + 2;
        return Chart.Draw(
            ShortText.Sentence(bag.Finding, bag.Bag.Coffee.Label, bag.Bag.Id),
            Subtitle(bag),
            Words.AltText(
                $"Every cup of the bag by day and score, {unit}, a shape a brewer; hollow what does not count",
                [.. bag.Cups.Select(cup => $"day {cup.Day} {(cup.Cup.Score is { } score ? NumberText.Fixed(score) : "no score")}, {ShortText.Cut(cup.Brewer, 30)}, {cup.Standing}")]),
            traces,
            FigurePart.Layout(
                ("height", PixelsOfPlot + PixelsBelow + Legends.Pixels(entries)),
                ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", 24), ("b", PixelsBelow + Legends.Pixels(entries)))),
                ("hovermode", "closest"),
                ("dragmode", false),
                ("xaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", bag.IsFromRoasting ? "Days after roasting" : "Days from the first cup"), ("standoff", 4))), ("range", new[] { from - 1.5, to + 1.5 }),
                    ("fixedrange", true), ("showgrid", false), ("zeroline", false), ("nticks", 8), ("tickangle", 0))),
                ("yaxis", FigurePart.Of(
                    ("title", FigurePart.Of(("text", $"Score ({unit})"))), ("range", new[] { kept - (0.6 * room), high + (0.6 * room) }), ("fixedrange", true), ("zeroline", false),
                    ("tickvals", ticks.Values), ("ticktext", ticks.Values.Select(value => NumberText.Fixed(value, ticks.Decimals)).ToArray()))),
                ("legend", Legends.Below((double)PixelsBelow / PixelsOfPlot)),
                ("showlegend", true),
                ("shapes", Behind(bag).ToArray()),
                ("annotations", Labels(bag, from, to).ToArray())));
    }

    private static string Subtitle(BagTimeline bag) =>
        $"{NumberText.Count(bag.Cups.Count, "cup")}, {bag.Cups.Count(cup => cup.Counts)} of which count; a shape a brewer, hollow what does not count. "
        + (bag.Interval is null ? "No interval of fewer than three cups. " : "Line and band: mean of the cups that count, with its 95 % interval. ")
        + (bag.Cups.All(cup => cup.Cup.Score is not null) ? "" : "Below the scores: cups without one. ")
        + "Cups of one day and score stand side by side.";

    /// <summary>Where each cup stands: those of one day and score side by side, and those without a score below all others.</summary>
    private static Dictionary<TimelineCup, (double Day, double Score)> Places(IReadOnlyList<TimelineCup> cups, double unscored)
    {
        var places = new Dictionary<TimelineCup, (double, double)>(ReferenceEqualityComparer.Instance);
        foreach (var alike in cups.GroupBy(cup => (cup.Day, Score: cup.Cup.Score ?? unscored)))
        {
            TimelineCup[] row = [.. alike];
            var apart = Math.Min(NextTo, WidthOfADay / Math.Max(1, row.Length - 1));
            for (var i = 0; i < row.Length; i++)
                places[row[i]] = (alike.Key.Day + (apart * (i - ((row.Length - 1) / 2.0))), alike.Key.Score);
        }

        return places;
    }

    private static IEnumerable<Plotly.NET.Trace> Marks(BagTimeline bag, string brewer, TimelineCup[] cups, string shape, Dictionary<TimelineCup, (double Day, double Score)> places)
    {
        var isInLegend = true;
        foreach (var part in cups.GroupBy(cup => cup.Counts).OrderByDescending(part => part.Key))
        {
            yield return FigurePart.Trace(
                "scatter", ("mode", "markers"), ("name", ChartText.Literal($"{brewer} ({NumberText.Count(cups.Length, "cup")})")), ("showlegend", isInLegend),
                ("x", part.Select(cup => places[cup].Day).ToArray()), ("y", part.Select(cup => places[cup].Score).ToArray()), ("cliponaxis", false),
                ("marker", FigurePart.Of(
                    ("symbol", part.Key ? shape : $"{shape}-open"), ("size", bag.Cups.Count > ManyCups ? 8 : 11), ("color", part.Key ? Palette.Main : Palette.Quiet),
                    ("line", FigurePart.Of(("width", part.Key ? 0 : 2))))),
                ("hovertext", part.Select(Hover).ToArray()), ("hoverinfo", "text"));
            isInLegend = false;
        }
    }

    private static string Hover(TimelineCup cup) => HoverText.Of(
        $"{cup.Cup.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}: {(cup.Cup.Score is { } score ? NumberText.Fixed(score) : "no score")}",
        cup.Cup.RestDays is { } rest ? $"day {rest} of rest, {cup.Standing}" : cup.Standing, cup.Brewer, cup.Recipe);

    private static IEnumerable<Plotly.NET.Trace> Kept(string what, IReadOnlyList<int> days, string shape, double at)
    {
        if (days.Count > 0)
        {
            yield return FigurePart.Trace(
                "scatter", ("mode", "markers"), ("name", $"{what} ({NumberText.Count(days.Count, "day")})"), ("x", days.ToArray()), ("y", days.Select(_ => at).ToArray()), ("cliponaxis", false),
                ("marker", FigurePart.Of(("symbol", shape), ("size", 10), ("color", Palette.Second))), ("hovertext", days.Select(day => HoverText.Of($"Day {day}", what)).ToArray()), ("hoverinfo", "text"));
        }
    }

    private static IEnumerable<DynamicObj.DynamicObj> Behind(BagTimeline bag)
    {
        if (bag.Interval is { } interval)
        {
            yield return Level("rect", interval.Low, interval.High).With(("fillcolor", Palette.Veil(Palette.Main)), ("line", FigurePart.Of(("width", 0))));
            yield return Level("line", bag.Mean!.Value, bag.Mean!.Value).With(("line", FigurePart.Of(("color", Palette.Main), ("width", 2))));
        }

        if (bag.OpenedOnDay is { } opened)
            yield return Guides.Upright(opened, Palette.Second);
    }

    private static DynamicObj.DynamicObj Level(string type, double low, double high) => FigurePart.Of(
        ("type", type), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", "y"), ("y0", low), ("y1", high));

    private static IEnumerable<DynamicObj.DynamicObj> Labels(BagTimeline bag, int from, int to)
    {
        if (bag.OpenedOnDay is { } opened)
        {
            yield return FigurePart.Of(
                ("text", $"opened on day {opened}"), ("showarrow", false), ("xref", "x"), ("x", opened), ("xanchor", opened > (from + to) / 2.0 ? "right" : "left"), ("yref", "paper"), ("y", 1),
                ("yanchor", "bottom"));
        }
    }
}
