using System.Text;
using System.Text.Json;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>
/// A chart, or the plain statement that there is nothing to draw: an empty chart is never shown. Immutable; draws itself as
/// HTML that needs no network, once a page carries <see cref="PlotlyLoader"/>.
/// </summary>
public abstract record Chart
{
    private Chart(string title) => Title = title;

    /// <summary>The finding that the chart shows, as a sentence.</summary>
    public string Title { get; }

    /// <summary>A chart of the traces given.</summary>
    /// <param name="title">The finding, as a sentence. Plain text, shown above the chart and wrapped on narrow screens.</param>
    /// <param name="subtitle">Counts, units and the kind of interval. Plain text; may be empty.</param>
    /// <param name="altText">What a reader who can't see the chart should know: its form, its range, its finding. Plain text.</param>
    /// <param name="traces">
    /// The traces. Their strings are markup to Plotly: text that comes from a log goes through <see cref="ChartText.Literal"/>.
    /// </param>
    /// <param name="layout">
    /// Axes, shapes, annotations, and the height in pixels (420 if it has none). It needs no title, font, template or
    /// background: these come from the page, light or dark.
    /// </param>
    /// <param name="data">The figures drawn, offered below the chart as a table; <see langword="null"/> if the chart's result already shows them.</param>
    /// <exception cref="ArgumentException">There is no trace, or the title or the alternative text is empty.</exception>
    public static Chart Draw(
        string title, string subtitle, string altText, IReadOnlyList<Trace> traces, Layout layout, ResultTable? data = null)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(title);
        ArgumentException.ThrowIfNullOrWhiteSpace(altText);
        ArgumentNullException.ThrowIfNull(subtitle);
        ArgumentNullException.ThrowIfNull(traces);
        ArgumentNullException.ThrowIfNull(layout);
        if (traces.Count == 0)
            throw new ArgumentException($"The chart '{title}' has no trace: say {nameof(Nothing)} with the reason instead.", nameof(traces));
        return new Drawn(title, subtitle, altText, FigureJson.Write(traces, layout), FigureJson.Height(layout), data);
    }

    /// <summary>No chart, and why.</summary>
    /// <param name="title">The question that the chart would have answered.</param>
    /// <param name="reason">Why there is nothing to draw, as a sentence.</param>
    public static Chart Nothing(string title, string reason)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(title);
        ArgumentException.ThrowIfNullOrWhiteSpace(reason);
        return new NothingToDraw(title, reason);
    }

    /// <summary>Handles both cases.</summary>
    public T Match<T>(Func<Drawn, T> drawn, Func<NothingToDraw, T> nothingToDraw)
    {
        ArgumentNullException.ThrowIfNull(drawn);
        ArgumentNullException.ThrowIfNull(nothingToDraw);
        return this switch
        {
            Drawn chart => drawn(chart),
            NothingToDraw nothing => nothingToDraw(nothing),
            _ => throw new InvalidOperationException("The cases of Chart are closed."),
        };
    }

    /// <summary>The chart as an HTML figure: title, alternative text and figure, all text escaped.</summary>
    public string ToHtml() => ChartHtml.Of(this);

    /// <summary>
    /// The chart as JSON: <c>title</c>, <c>subtitle</c>, <c>altText</c> and the Plotly <c>figure</c> with <c>data</c> and
    /// <c>layout</c>; or <c>title</c> and <c>nothingToDraw</c>.
    /// </summary>
    public string ToJson()
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, FigureJson.WriterOptions))
        {
            json.WriteStartObject();
            json.WriteString("title", Title);
            switch (this)
            {
                case Drawn drawn:
                    json.WriteString("subtitle", drawn.Subtitle);
                    json.WriteString("altText", drawn.AltText);
                    json.WritePropertyName("figure");
                    json.WriteRawValue(drawn.Figure);
                    break;
                case NothingToDraw nothing:
                    json.WriteString("nothingToDraw", nothing.Reason);
                    break;
            }

            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    /// <summary>The chart in words, for terminals and screen readers.</summary>
    public sealed override string ToString() => Match(
        drawn => string.Join('\n', new[] { drawn.Title, drawn.Subtitle, drawn.AltText }.Where(line => line.Length > 0)) + "\n",
        nothing => $"{nothing.Title}\nNo chart: {nothing.Reason}\n");

    /// <summary>A chart with something to see.</summary>
    public sealed record Drawn : Chart
    {
        internal Drawn(string title, string subtitle, string altText, string figure, int height, ResultTable? data)
            : base(title)
        {
            Subtitle = subtitle;
            AltText = altText;
            Figure = figure;
            Height = height;
            Data = data;
        }

        /// <summary>Counts, units and the kind of interval.</summary>
        public string Subtitle { get; }

        /// <summary>The chart in words.</summary>
        public string AltText { get; }

        /// <summary>The Plotly figure as JSON, <c>data</c> and <c>layout</c>, safe inside an HTML script element.</summary>
        public string Figure { get; }

        /// <summary>Height in pixels.</summary>
        public int Height { get; }

        /// <summary>The figures drawn; <see langword="null"/> if the chart's result shows them.</summary>
        public ResultTable? Data { get; }
    }

    /// <summary>No chart, and why.</summary>
    public sealed record NothingToDraw : Chart
    {
        internal NothingToDraw(string title, string reason)
            : base(title) => Reason = reason;

        /// <summary>Why there is nothing to draw, as a sentence.</summary>
        public string Reason { get; }
    }
}
