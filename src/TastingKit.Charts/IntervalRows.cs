using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>How the estimates of one kind are drawn: always by shape as well as by colour.</summary>
/// <param name="Name">What it means, for the legend.</param>
/// <param name="Symbol">A symbol of plotly.js.</param>
/// <param name="Colour">A colour of the palette.</param>
internal sealed record RowMark(string Name, string Symbol, string Colour)
{
    /// <summary>The mark of rows that have no estimate.</summary>
    public static RowMark None { get; } = new("", "", "");

    public static RowMark Estimate(string name) => new(name, "circle", Palette.Main);
}

/// <summary>One row: a label above a line, the estimate on it.</summary>
/// <param name="Label">What the row is: text from a log, of any length.</param>
/// <param name="Aside">A few words at the right edge, such as the number of cups.</param>
/// <param name="Estimate">Where the mark stands.</param>
/// <param name="Low">Where the line begins.</param>
/// <param name="High">Where it ends.</param>
/// <param name="Mark">How the estimate is drawn.</param>
/// <param name="Hover">What the mark says when pointed at, from <see cref="HoverText"/>.</param>
/// <param name="PlainMean">The plain mean beside the estimate, if there is one.</param>
/// <param name="Below">A few words below the line at the left.</param>
/// <param name="BelowAside">A few words below the line at the right edge.</param>
internal sealed record IntervalRow(
    string Label, string Aside, double Estimate, double Low, double High, RowMark Mark, string Hover,
    double? PlainMean = null, string Below = "", string BelowAside = "")
{
    /// <summary>Whether the row has no estimate and names the panel of rows below it.</summary>
    public bool IsHeading => Mark == RowMark.None;

    /// <summary>A row without an estimate, above a panel of rows.</summary>
    /// <param name="label">What the rows of the panel share.</param>
    public static IntervalRow Heading(string label) => new(label, "", 0, 0, 0, RowMark.None, "");
}

/// <summary>The common scale of rows.</summary>
/// <param name="Title">What is measured, with its unit.</param>
/// <param name="Low">Its left end.</param>
/// <param name="High">Its right end.</param>
/// <param name="Ticks">Where it is marked.</param>
/// <param name="TickLabels">What stands at each tick.</param>
/// <param name="Guides">Values that the marks are held against; marked stronger on every row.</param>
internal sealed record RowScale(string Title, double Low, double High, Ticks Ticks, IReadOnlyList<string> TickLabels, IReadOnlyList<double> Guides)
{
    /// <summary>The scale of shares and probabilities, from 0 to 1.</summary>
    /// <param name="title">What is measured.</param>
    /// <param name="marked">The shares that are marked.</param>
    public static RowScale Shares(string title, params double[] marked) =>
        new(title, -0.06, 1.06, Ticks.At(marked), [.. marked.Select(NumberText.Percent)], []);
}

/// <summary>
/// Rows of estimates on a common scale, the first on top. Labels stand above their line and not beside it, so that a long
/// name takes no room from the scale and the rows read alike on a phone and on a desk.
/// </summary>
internal sealed class IntervalRows
{
    private const int LineWidth = 52;
    private const double PixelsOfTick = 4;
    private const double PixelsOfGuide = 7;
    private const int PixelsAbove = 62;
    private const int PixelsToText = 16;
    private const double RoomAboveFirst = 0.8;
    private const double RoomBelowLast = 0.55;

    private readonly IReadOnlyList<IntervalRow> _rows;
    private readonly string _lineName;
    private readonly string _hollowName;

    /// <param name="rows">At least one row.</param>
    /// <param name="lineName">What the lines are, for the legend; empty to leave it out.</param>
    /// <param name="hollowName">What the hollow marks beside the estimates are.</param>
    public IntervalRows(IReadOnlyList<IntervalRow> rows, string lineName, string hollowName = "plain mean of the cups")
    {
        _hollowName = hollowName;
        _rows = rows;
        _lineName = lineName;
    }

    private bool HasTextBelow => _rows.Any(row => row.Below.Length > 0 || row.BelowAside.Length > 0);

    private RowMark[] Marks => [.. _rows.Where(row => !row.IsHeading).Select(row => row.Mark).Distinct()];

    private int[] RowsWithEstimate => [.. Enumerable.Range(0, _rows.Count).Where(i => !_rows[i].IsHeading)];

    private int LegendEntries =>
        Marks.Length + (_lineName.Length > 0 ? 1 : 0) + (_rows.Any(row => row.PlainMean is not null) ? 1 : 0);

    private int Pitch => HasTextBelow ? 58 : 42;

    /// <summary>The rulers, then lines, plain means, and estimates on top, a trace for each kind of mark.</summary>
    public IReadOnlyList<Trace> Traces(RowScale scale)
    {
        var traces = new List<Trace> { Strokes("ruler", scale.Ticks.Values, PixelsOfTick, 1) };
        if (scale.Guides.Count > 0)
            traces.Add(Strokes("guide", scale.Guides, PixelsOfGuide, 3));
        var marks = Marks;
        foreach (var mark in marks)
            traces.Add(Lines(mark, isInLegend: _lineName.Length > 0 && mark == marks[0]));
        if (_rows.Any(row => row.PlainMean is not null))
            traces.Add(PlainMeans());
        foreach (var mark in marks)
            traces.Add(Estimates(mark, saysWhatItIs: marks.Length == 1));
        // Where several traces could answer, plotly.js sets the answer aslant: one that is not seen answers for all.
        if (marks.Length > 1)
            traces.Add(Unseen());
        return traces;
    }

    /// <summary>The layout of the rows.</summary>
    /// <param name="scale">The common scale.</param>
    /// <param name="shapes">Bands, below the marks.</param>
    public Layout Layout(RowScale scale, params IReadOnlyList<DynamicObj.DynamicObj> shapes)
    {
        var plot = (int)Math.Round(Pitch * (RoomAboveFirst + _rows.Count - 1 + RoomBelowLast));
        var below = Math.Max(Legends.Pixels(LegendEntries), _rows.Max(row => HoverText.Pixels(row.Hover)) - PixelsAbove - plot);
        return FigurePart.Layout(
            ("height", PixelsAbove + plot + below),
            ("margin", FigurePart.Of(("l", 4), ("r", 4), ("t", PixelsAbove), ("b", below))),
            ("hovermode", "y"),
            ("dragmode", false),
            ("xaxis", FigurePart.Of(
                ("title", FigurePart.Of(("text", ChartText.Literal(scale.Title)), ("standoff", 6))),
                ("side", "top"), ("range", new[] { scale.Low, scale.High }), ("fixedrange", true), ("automargin", false),
                ("tickvals", scale.Ticks.Values), ("ticktext", scale.TickLabels.Select(ChartText.Literal).ToArray()), ("tickangle", 0),
                ("showgrid", false), ("zeroline", false))),
            ("yaxis", FigurePart.Of(
                ("range", new[] { _rows.Count - 1 + RoomBelowLast, -RoomAboveFirst }), ("fixedrange", true), ("automargin", false),
                ("tickvals", RowsWithEstimate), ("showticklabels", false), ("zeroline", false))),
            ("legend", Legends.Below()),
            ("showlegend", true),
            ("shapes", shapes.Count == 0 ? null : shapes),
            ("annotations", _rows.SelectMany(Labels).ToArray()));
    }

    /// <summary>A scale that holds every drawn value and the guides, with room for the marks at both ends.</summary>
    /// <param name="title">What is measured, with its unit.</param>
    /// <param name="label">The text of a tick from its value and the decimals that tell the ticks apart.</param>
    /// <param name="guides">Values that the marks are held against.</param>
    /// <param name="also">Further values to hold.</param>
    public RowScale Scale(string title, Func<double, int, string> label, IReadOnlyList<double> guides, params IReadOnlyList<double> also)
    {
        var drawn = _rows.Where(row => !row.IsHeading).SelectMany(row => new[] { row.Low, row.High, row.Estimate, row.PlainMean ?? row.Estimate }).Concat(guides).Concat(also).ToArray();
        var (low, high) = (drawn.Min(), drawn.Max());
        var room = high > low ? 0.04 * (high - low) : 0.5;
        // A tick in the room at either end would have its label over the chart's edge.
        var ticks = high > low ? Ticks.Within(low, high) : Ticks.Within(low - room, high + room);
        return new RowScale(title, low - room, high + room, ticks, [.. ticks.Values.Select(value => label(value, ticks.Decimals))], guides);
    }

    /// <summary>Every row has its own strokes rather than one line through all, which would run through the labels.</summary>
    private Trace Strokes(string name, IReadOnlyList<double> at, double pixels, double width)
    {
        var x = new List<double?>();
        var y = new List<double?>();
        var reach = pixels / Pitch;
        foreach (var i in RowsWithEstimate)
        {
            foreach (var value in at)
            {
                x.AddRange(value, value, null);
                y.AddRange(i - reach, i + reach, null);
            }
        }

        return FigurePart.Trace(
            "scatter",
            ("mode", "lines"), ("name", name), ("showlegend", false), ("x", x), ("y", y),
            ("line", FigurePart.Of(("color", Palette.Quiet), ("width", width))), ("opacity", 0.7), ("hoverinfo", "skip"));
    }

    private Trace Lines(RowMark mark, bool isInLegend)
    {
        var x = new List<double?>();
        var y = new List<int?>();
        for (var i = 0; i < _rows.Count; i++)
        {
            if (_rows[i].Mark != mark)
                continue;
            x.AddRange(_rows[i].Low, _rows[i].High, null);
            y.AddRange(i, i, null);
        }

        return FigurePart.Trace(
            "scatter",
            ("mode", "lines"), ("name", _lineName.Length > 0 ? _lineName : mark.Name), ("showlegend", isInLegend), ("legendrank", 1002),
            ("x", x), ("y", y), ("line", FigurePart.Of(("color", mark.Colour), ("width", 3))), ("hoverinfo", "skip"));
    }

    private Trace PlainMeans()
    {
        var at = Enumerable.Range(0, _rows.Count).Where(i => _rows[i].PlainMean is not null).ToArray();
        return FigurePart.Trace(
            "scatter",
            ("mode", "markers"), ("name", _hollowName), ("legendrank", 1003),
            ("x", at.Select(i => _rows[i].PlainMean).ToArray()), ("y", at),
            ("marker", FigurePart.Of(("symbol", "circle-open"), ("size", 9), ("color", Palette.Quiet), ("line", FigurePart.Of(("width", 2))))),
            ("cliponaxis", false), ("hoverinfo", "skip"));
    }

    private Trace Estimates(RowMark mark, bool saysWhatItIs)
    {
        var at = Enumerable.Range(0, _rows.Count).Where(i => _rows[i].Mark == mark).ToArray();
        var trace = FigurePart.Trace(
            "scatter",
            ("mode", "markers"), ("name", mark.Name), ("legendrank", 1001),
            ("x", at.Select(i => _rows[i].Estimate).ToArray()), ("y", at),
            ("marker", FigurePart.Of(("symbol", mark.Symbol), ("size", mark.Symbol.StartsWith("triangle", StringComparison.Ordinal) ? 14 : 11), ("color", mark.Colour), ("line", FigurePart.Of(("width", mark.Symbol.EndsWith("-open", StringComparison.Ordinal) ? 2 : 0))))),
            ("cliponaxis", false));
        return saysWhatItIs ? Answering(trace, at) : trace.With(("hoverinfo", "skip"));
    }

    private Trace Unseen()
    {
        var all = RowsWithEstimate;
        return Answering(
            FigurePart.Trace(
                "scatter",
                ("mode", "markers"), ("name", "what each mark is"), ("showlegend", false), ("x", all.Select(i => _rows[i].Estimate).ToArray()), ("y", all),
                ("marker", FigurePart.Of(("size", 11), ("opacity", 0)))),
            all);
    }

    private Trace Answering(Trace trace, IEnumerable<int> rows) =>
        trace.With(("hovertext", rows.Select(i => _rows[i].Hover).ToArray()), ("hoverinfo", "text"));

    private IEnumerable<DynamicObj.DynamicObj> Labels(IntervalRow row, int index)
    {
        if (row.IsHeading)
        {
            // Close above its first row, a size that parts it from the row's own label.
            yield return Text(row.Label, index, -PixelsToText / 2, isAtRight: false, LineWidth).With(("text", ChartText.Bold(ShortText.Cut(row.Label, LineWidth - 6))));
            yield break;
        }

        foreach (var (left, right, up) in new[] { (row.Label, row.Aside, PixelsToText), (row.Below, row.BelowAside, -PixelsToText) })
        {
            if (left.Length > 0)
                yield return Text(left, index, up, isAtRight: false, LineWidth - right.Length - (right.Length > 0 ? 2 : 0)).With(("opacity", up > 0 ? 1 : 0.8));
            if (right.Length > 0)
                yield return Text(right, index, up, isAtRight: true, LineWidth).With(("opacity", 0.8));
        }
    }

    private static DynamicObj.DynamicObj Text(string text, int index, int pixelsUp, bool isAtRight, int width) => FigurePart.Of(
        ("text", ChartText.Literal(ShortText.Cut(text, width))), ("showarrow", false),
        ("xref", "paper"), ("x", isAtRight ? 1 : 0), ("xanchor", isAtRight ? "right" : "left"),
        ("yref", "y"), ("y", index), ("yanchor", "middle"), ("yshift", pixelsUp));
}
