using System.Globalization;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>An estimate of one quarter.</summary>
/// <param name="Quarter">The quarter's place in order, from 0.</param>
/// <param name="Estimate">Where the mark stands.</param>
/// <param name="Interval">Its 95 % interval, if it has one.</param>
/// <param name="Hover">What the mark says when pointed at, from <see cref="HoverText"/>.</param>
internal sealed record QuarterMark(int Quarter, double Estimate, MeanInterval? Interval, string Hover);

/// <summary>One low panel.</summary>
/// <param name="Heading">What it is of.</param>
/// <param name="Aside">A few words at the right edge.</param>
/// <param name="Marks">One a quarter.</param>
internal sealed record QuarterPanel(string Heading, string Aside, IReadOnlyList<QuarterMark> Marks);

/// <summary>Low panels, one above the other, over the same quarters and on one scale: marks with intervals, joined by a thin line.</summary>
internal sealed class QuarterPanels(IReadOnlyList<QuarterPanel> panels, CalendarSpan span, string name)
{
    private const int PixelsOfPanel = 74;
    private const int PixelsOfHeading = 22;
    private const int PixelsOfDates = 44;
    private const int PixelsAbove = 4;
    private const int HeadingWidth = 34;

    private static readonly string IntervalName = "95 % interval";

    private int Height => panels.Count * (PixelsOfPanel + PixelsOfHeading);

    private bool HasOpen => panels.Any(panel => panel.Marks.Any(mark => mark.Interval is null));

    private int LegendEntries => HasOpen ? 3 : 2;

    /// <summary>The intervals, the thin lines and the marks, panel by panel.</summary>
    public IEnumerable<Trace> Traces()
    {
        for (var i = 0; i < panels.Count; i++)
        {
            var marks = panels[i].Marks;
            var axis = Axis(i);
            var sure = marks.Where(mark => mark.Interval is not null).ToArray();
            yield return FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", "joined"), ("showlegend", false), ("yaxis", axis), ("x", Middles(marks)), ("y", marks.Select(mark => mark.Estimate).ToArray()),
                ("line", FigurePart.Of(("color", Palette.Quiet), ("width", 1))), ("hoverinfo", "skip"));
            yield return FigurePart.Trace(
                "scatter", ("mode", "lines"), ("name", IntervalName), ("legendrank", 1002), ("showlegend", i == 0), ("yaxis", axis),
                ("x", sure.SelectMany(mark => new DateOnly?[] { span.Middles[mark.Quarter], span.Middles[mark.Quarter], null }).ToArray()),
                ("y", sure.SelectMany(mark => new double?[] { mark.Interval!.Low, mark.Interval.High, null }).ToArray()),
                ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))), ("hoverinfo", "skip"));
            if (sure.Length > 0)
                yield return Dots(sure, name, "circle", axis, i == 0);
            if (sure.Length < marks.Count)
                yield return Dots([.. marks.Except(sure)], $"{name}, no interval", "circle-open", axis, panels.Take(i).All(panel => panel.Marks.All(mark => mark.Interval is not null)));
        }
    }

    /// <summary>The layout.</summary>
    /// <param name="title">What the scale measures, with its unit, said once beside the middle panel.</param>
    /// <param name="label">The text of a tick from its value and the decimals that tell the ticks apart.</param>
    /// <param name="guide">A value that the marks are held against, if there is one.</param>
    public Layout Layout(string title, Func<double, int, string> label, double? guide)
    {
        var drawn = panels.SelectMany(panel => panel.Marks).SelectMany(mark => new[] { mark.Estimate, mark.Interval?.Low ?? mark.Estimate, mark.Interval?.High ?? mark.Estimate })
            .Concat(guide is { } at ? [at] : []).ToArray();
        var room = Math.Max(1e-6, 0.08 * (drawn.Max() - drawn.Min()));
        var (low, high) = (drawn.Min() - room, drawn.Max() + room);
        var ticks = Ticks.Within(low, high);
        // A panel has room for three ticks.
        double[] shown = [.. ticks.Values.Where((_, i) => i % ((ticks.Values.Count + 2) / 3) == 0)];
        var below = PixelsOfDates + Legends.Pixels(LegendEntries);
        var layout = FigurePart.Layout(
            ("height", Height + PixelsAbove + below),
            ("margin", FigurePart.Of(("l", 8), ("r", 8), ("t", PixelsAbove), ("b", below))),
            ("hovermode", "closest"),
            ("dragmode", false),
            ("xaxis", span.Axis().With(("anchor", Axis(panels.Count - 1)), ("automargin", false))),
            ("legend", Legends.Below((double)PixelsOfDates / Height)),
            ("showlegend", true),
            ("shapes", guide is { } value ? Enumerable.Range(0, panels.Count).Select(i => Level(value, Axis(i))).ToArray() : null),
            ("annotations", panels.SelectMany((panel, i) => Labels(panel, i)).ToArray()));
        for (var i = 0; i < panels.Count; i++)
        {
            var top = 1 - (((i * (PixelsOfPanel + PixelsOfHeading)) + PixelsOfHeading) / (double)Height);
            layout.SetProperty(i == 0 ? "yaxis" : Named("yaxis", i), FigurePart.Of(
                ("domain", new[] { top - (PixelsOfPanel / (double)Height), top }), ("range", new[] { low, high }), ("fixedrange", true), ("zeroline", false),
                ("tickvals", shown), ("ticktext", shown.Select(tick => ChartText.Literal(label(tick, ticks.Decimals))).ToArray()),
                ("title", i == panels.Count / 2 ? FigurePart.Of(("text", ChartText.Literal(title))) : null)));
        }

        return layout;
    }

    private static string Axis(int panel) => panel == 0 ? "y" : Named("y", panel);

    private static string Named(string axis, int panel) => string.Create(CultureInfo.InvariantCulture, $"{axis}{panel + 1}");

    private DateOnly[] Middles(IReadOnlyList<QuarterMark> marks) => [.. marks.Select(mark => span.Middles[mark.Quarter])];

    private Trace Dots(IReadOnlyList<QuarterMark> marks, string called, string symbol, string axis, bool isInLegend) => FigurePart.Trace(
        "scatter", ("mode", "markers"), ("name", called), ("legendrank", 1001), ("showlegend", isInLegend), ("yaxis", axis),
        ("x", Middles(marks)), ("y", marks.Select(mark => mark.Estimate).ToArray()),
        ("marker", FigurePart.Of(("symbol", symbol), ("size", 9), ("color", Palette.Main), ("line", FigurePart.Of(("width", symbol == "circle" ? 0 : 2))))),
        ("cliponaxis", false), ("hovertext", marks.Select(mark => mark.Hover).ToArray()), ("hoverinfo", "text"));

    private static DynamicObj.DynamicObj Level(double value, string axis) => FigurePart.Of(
        ("type", "line"), ("layer", "below"), ("xref", "paper"), ("x0", 0), ("x1", 1), ("yref", axis), ("y0", value), ("y1", value),
        ("line", FigurePart.Of(("color", Palette.Second), ("width", 1.5), ("dash", "dash"))));

    private static IEnumerable<DynamicObj.DynamicObj> Labels(QuarterPanel panel, int index)
    {
        yield return Above(ChartText.Bold(ShortText.Cut(panel.Heading, HeadingWidth)), index, 0, "left");
        if (panel.Aside.Length > 0)
            yield return Above(ChartText.Literal(panel.Aside), index, 1, "right").With(("opacity", 0.8));
    }

    private static DynamicObj.DynamicObj Above(string text, int index, double x, string anchor) => FigurePart.Of(
        ("text", text), ("showarrow", false), ("xref", "paper"), ("x", x), ("xanchor", anchor), ("yref", $"{Axis(index)} domain"), ("y", 1), ("yanchor", "bottom"), ("yshift", 1));
}
