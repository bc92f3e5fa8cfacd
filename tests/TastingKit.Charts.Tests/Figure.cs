using System.Text.Json;

namespace TastingKit.Charts.Tests;

/// <summary>Reads what a chart draws out of its JSON, as plotly.js will see it.</summary>
internal sealed class Figure
{
    private readonly JsonElement _data;

    private Figure(Chart.Drawn chart)
    {
        Chart = chart;
        var root = JsonDocument.Parse(chart.Figure).RootElement;
        _data = root.GetProperty("data");
        Layout = root.GetProperty("layout");
    }

    public Chart.Drawn Chart { get; }

    public JsonElement Layout { get; }

    public IEnumerable<JsonElement> Traces => _data.EnumerateArray();

    public IReadOnlyList<string> Annotations => Layout.TryGetProperty("annotations", out var annotations)
        ? [.. annotations.EnumerateArray().Select(annotation => annotation.GetProperty("text").GetString()!)]
        : [];

    public static Figure Of(Chart chart) => new(Assert.IsType<Chart.Drawn>(chart));

    /// <summary>The traces of that name and mode, in order.</summary>
    public IEnumerable<JsonElement> Named(string name, string? mode = null) => Traces.Where(trace =>
        trace.GetProperty("name").GetString() == name && (mode is null || trace.GetProperty("mode").GetString()!.Contains(mode, StringComparison.Ordinal)));

    /// <summary>Numbers of a trace; a gap is NaN.</summary>
    public static double[] Numbers(JsonElement trace, string axis) =>
        [.. trace.GetProperty(axis).EnumerateArray().Select(value => value.ValueKind == JsonValueKind.Null ? double.NaN : value.GetDouble())];

    /// <summary>Texts and dates of a trace; a gap is empty.</summary>
    public static string[] Texts(JsonElement trace, string property) =>
        [.. trace.GetProperty(property).EnumerateArray().Select(value => value.GetString() ?? "")];

    /// <summary>The lines of rows: from, to and row, over all traces that draw them.</summary>
    public IReadOnlyList<(double From, double To, int Row)> Lines(string name) =>
        [.. Named(name, "lines").SelectMany(trace =>
        {
            var (x, y) = (Numbers(trace, "x"), Numbers(trace, "y"));
            return Enumerable.Range(0, x.Length / 3).Select(i =>
            {
                Assert.Equal(y[3 * i], y[(3 * i) + 1]);
                Assert.True(double.IsNaN(x[(3 * i) + 2]), "A gap must part a row's line from the next.");
                return (x[3 * i], x[(3 * i) + 1], (int)y[3 * i]);
            });
        }).OrderBy(line => line.Item3)];

    /// <summary>The marks of rows, over all traces that draw them: where, on which row, and what each says when pointed at.</summary>
    public IReadOnlyList<(double At, int Row, string? Hover)> Marks(params string[] names) =>
        [.. names.SelectMany(name => Named(name, "markers")).SelectMany(trace =>
        {
            var (x, y) = (Numbers(trace, "x"), Numbers(trace, "y"));
            var hover = trace.TryGetProperty("hovertext", out _) ? Texts(trace, "hovertext") : new string[x.Length];
            return x.Select((at, i) => (at, (int)y[i], hover[i]));
        }).OrderBy(mark => mark.Item2)];
}
