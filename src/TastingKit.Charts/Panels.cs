using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>Two panels over one calendar: what was found above, the counts it rests on below.</summary>
internal static class Panels
{
    private const int MostNumberedBars = 14;
    private const int PixelsOfPanels = 370;
    private const int PixelsOfDates = 44;

    /// <summary>The layout, but for the axis of counts.</summary>
    /// <param name="span">The calendar.</param>
    /// <param name="title">What the upper panel measures, with its unit.</param>
    /// <param name="legendEntries">The most entries that the legend may have.</param>
    public static Layout Layout(CalendarSpan span, string title, int legendEntries)
    {
        var below = PixelsOfDates + Legends.Pixels(legendEntries);
        return FigurePart.Layout(
            ("height", PixelsOfPanels + 30 + below),
            ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", 30), ("b", below))),
            ("dragmode", false),
            ("xaxis", span.Axis().With(("anchor", "y2"), ("automargin", false))),
            ("yaxis", FigurePart.Of(("domain", new[] { 0.3, 1 }), ("fixedrange", true), ("title", FigurePart.Of(("text", ChartText.Literal(title)))))),
            ("legend", Legends.Below((double)PixelsOfDates / PixelsOfPanels)),
            ("showlegend", true));
    }

    /// <summary>The axis of the lower panel.</summary>
    /// <param name="title">What is counted.</param>
    /// <param name="most">The largest count.</param>
    public static DynamicObj.DynamicObj CountAxis(string title, int most) => FigurePart.Of(
        ("domain", new[] { 0, 0.18 }), ("range", new[] { 0, 1.4 * Math.Max(1, most) }), ("fixedrange", true), ("nticks", 3), ("tickformat", "d"),
        ("title", FigurePart.Of(("text", title))));

    /// <summary>A bar a period with its number, where there is room for numbers.</summary>
    public static Trace Bars(CalendarSpan span, string name, IEnumerable<int> counts)
    {
        var numbers = counts.ToArray();
        var trace = FigurePart.Trace(
            "bar", ("name", name), ("x", span.Middles), ("y", numbers), ("width", span.Milliseconds.Select(length => 0.7 * length).ToArray()),
            ("textposition", "none"), ("cliponaxis", false));
        return numbers.Length > MostNumberedBars
            ? trace
            : trace.With(("text", numbers.Select(number => number == 0 ? "" : NumberText.Fixed(number, 0)).ToArray()), ("textposition", "outside"), ("textangle", 0));
    }
}
