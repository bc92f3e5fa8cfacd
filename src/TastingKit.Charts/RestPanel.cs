using System.Globalization;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>One kind's panel: its course, band and cups, what is shaded and marked, and its heading.</summary>
internal sealed class RestPanel
{
    /// <summary>Entries of the legend, which the first panel brings.</summary>
    public const int LegendEntries = 3;

    private const double LargestDot = 16;

    private readonly RestGroup _group;
    private readonly RestPeaks _peaks;
    private readonly int _index;
    private readonly RestCups[] _cups;

    public RestPanel(RestGroup group, int index, RestPeaks peaks)
    {
        (_group, _index, _peaks) = (group, index, peaks);
        // Lone cups far outside would squeeze the course into a corner: they are counted instead.
        var room = Math.Max(7, (group.Days[^1].RestDays - group.Days[0].RestDays) / 4.0);
        _cups = [.. group.Tasted.Where(day => day.RestDays >= group.Days[0].RestDays - room && day.RestDays <= group.Days[^1].RestDays + room)];
        Beyond = group.Cups - _cups.Sum(day => day.Cups);
    }

    public int Beyond { get; }

    public int From => Math.Min(_group.Days[0].RestDays, _cups[0].RestDays);

    public int To => Math.Max(_group.Days[^1].RestDays, _cups[^1].RestDays);

    public double Lowest => Math.Min(_group.Days.Min(day => day.Low), _cups.Min(day => day.MeanScore));

    public double Highest => Math.Max(_group.Days.Max(day => day.High), _cups.Max(day => day.MeanScore));

    /// <summary>The panel's axis as traces name it.</summary>
    public string Axis => _index == 0 ? "y" : string.Create(CultureInfo.InvariantCulture, $"y{_index + 1}");

    /// <summary>The panel's axis as the layout names it.</summary>
    public string LayoutAxis => _index == 0 ? "yaxis" : string.Create(CultureInfo.InvariantCulture, $"yaxis{_index + 1}");

    /// <summary>What is said of a kind, in a few words.</summary>
    public static string Outcome(RestGroup group) => group.Outcome.Match(
        peak => $"peak: day {peak.Day} ({peak.Low} to {peak.High})", _ => "still rising", _ => "falling from the start",
        flat => $"flat within {NumberText.Fixed(flat.Margin)}", _ => "peak and best days not told");

    public IEnumerable<Trace> Traces()
    {
        var days = _group.Days.Select(day => day.RestDays).ToArray();
        var edge = FigurePart.Of(("width", 0), ("color", Palette.Main));
        var isFirst = _index == 0;
        yield return FigurePart.Trace(
            "scatter", ("mode", "lines"), ("name", "lower bound"), ("showlegend", false), ("yaxis", Axis), ("x", days),
            ("y", _group.Days.Select(day => day.Low).ToArray()), ("line", edge), ("hoverinfo", "skip"));
        yield return FigurePart.Trace(
            "scatter", ("mode", "lines"), ("name", "95 % band"), ("legendrank", 1002), ("showlegend", isFirst), ("yaxis", Axis), ("x", days),
            ("y", _group.Days.Select(day => day.High).ToArray()), ("fill", "tonexty"), ("fillcolor", Palette.Veil(Palette.Main, 0x40)), ("line", edge), ("hoverinfo", "skip"));
        yield return FigurePart.Trace(
            "scatter", ("mode", "markers"), ("name", "mean of the day\u2019s cups"), ("legendrank", 1003), ("showlegend", isFirst), ("yaxis", Axis),
            ("x", _cups.Select(day => day.RestDays).ToArray()), ("y", _cups.Select(day => day.MeanScore).ToArray()),
            ("marker", FigurePart.Of(
                ("color", Palette.Quiet), ("opacity", 0.75), ("size", _cups.Select(day => day.Cups).ToArray()),
                ("sizemode", "area"), ("sizeref", 2.0 * _peaks.Groups.Max(group => group.Tasted.Max(day => day.Cups)) / (LargestDot * LargestDot)), ("sizemin", 2.5))),
            ("hovertext", _cups.Select(day => HoverText.Of(
                $"Day {day.RestDays} of rest", $"mean {NumberText.Fixed(day.MeanScore)} of {NumberText.Count(day.Cups, "cup")}, as they are")).ToArray()),
            ("hoverinfo", "text"));
        yield return FigurePart.Trace(
            "scatter", ("mode", "lines"), ("name", $"expected {ShortText.Cut(_peaks.Attribute.Name, 20)}"), ("legendrank", 1001), ("showlegend", isFirst), ("yaxis", Axis),
            ("x", days), ("y", _group.Days.Select(day => day.Estimate).ToArray()), ("line", FigurePart.Of(("color", Palette.Main), ("width", 3))),
            ("hovertext", _group.Days.Select(day => HoverText.Of(
                $"Day {day.RestDays} of rest", $"expected {NumberText.Fixed(day.Estimate)} (95 %: {NumberText.Interval(day.Low, day.High)})",
                $"among the best days: {NumberText.Probability(day.NearBest)}")).ToArray()),
            ("hoverinfo", "text"));
    }

    /// <summary>The best days shaded where they are named, the ends of the days tasted dotted, and a named peak dashed.</summary>
    public IEnumerable<DynamicObj.DynamicObj> Shapes()
    {
        if (_group.NamesBestDays)
            yield return InPanel(Guides.UprightBand(_group.BestFrom, _group.BestTo, Palette.Second));
        foreach (var end in new[] { _group.Days[0], _group.Days[^1] })
            yield return InPanel(Guides.Upright(end.RestDays, Palette.Quiet)).With(("line", FigurePart.Of(("color", Palette.Quiet), ("width", 1), ("dash", "dot"))));
        if (_group.Outcome is RestOutcome.Peak peak)
            yield return InPanel(Guides.Upright(peak.Day, Palette.Second));
    }

    /// <summary>The kind and its counts above the panel, and what is said of it within.</summary>
    /// <param name="middle">The middle of the axis of days.</param>
    public IEnumerable<DynamicObj.DynamicObj> Labels(double middle)
    {
        if (_peaks.By is not null)
        {
            yield return Above(ChartText.Bold(ShortText.Cut(_group.Level, 34)), 17);
            yield return Above(ChartText.Literal($"{Outcome(_group)}; {NumberText.Count(_group.Cups, "cup")} of {NumberText.Count(_group.Bags, "bag")}"), 1);
            yield break;
        }

        var at = (_group.Outcome as RestOutcome.Peak)?.Day ?? _group.Best.RestDays;
        var left = at > middle;
        yield return FigurePart.Of(
            ("text", ChartText.Literal(Outcome(_group))), ("showarrow", false), ("xref", "x"), ("x", at), ("xanchor", left ? "right" : "left"), ("xshift", left ? -4 : 4),
            ("yref", $"{Axis} domain"), ("y", 0), ("yanchor", "bottom"));
    }

    private DynamicObj.DynamicObj Above(string text, int shift) => FigurePart.Of(
        ("text", text), ("showarrow", false), ("xref", "paper"), ("x", 0), ("xanchor", "left"), ("yref", $"{Axis} domain"), ("y", 1), ("yanchor", "bottom"), ("yshift", shift));

    private DynamicObj.DynamicObj InPanel(DynamicObj.DynamicObj shape) => shape.With(("yref", $"{Axis} domain"));
}
