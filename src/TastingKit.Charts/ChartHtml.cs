using System.Globalization;
using System.Text;

namespace TastingKit.Charts;

/// <summary>
/// A chart's HTML: a figure that holds its title, its description and its data, and no code. The loader finds the figure and
/// draws it, so a chart may come before the loader, twice on a page, or into a page that is already open. Until it is drawn,
/// and wherever scripts don't run, the description is shown.
/// </summary>
internal static class ChartHtml
{
    internal static string Of(Chart chart) => chart.Match(Drawn, NothingToDraw);

    private static string Drawn(Chart.Drawn chart)
    {
        var html = new StringBuilder();
        var description = Escape(chart.AltText);
        html.Append("<figure class=\"tk tk-chart tex2jax_ignore mathjax_ignore\">\n");
        AppendCaption(html, chart.Title, chart.Subtitle);
        html.Append(CultureInfo.InvariantCulture, $"<div class=\"tk-chart-plot\" role=\"img\" aria-label=\"{description}\" style=\"min-height:{chart.Height}px\">");
        html.Append(CultureInfo.InvariantCulture, $"<p class=\"tk-chart-words\">{description}</p></div>\n");
        html.Append(CultureInfo.InvariantCulture, $"<script type=\"application/json\">{chart.Figure}</script>\n");
        if (chart.Data is { Rows.Count: > 0 } data)
            html.Append(HtmlRenderer.Render(new ResultLayout([new LayoutBlock.Folded("The figures of this chart", [new LayoutBlock.Table(data)])])));
        html.Append("</figure>\n");
        return html.ToString();
    }

    private static string NothingToDraw(Chart.NothingToDraw chart)
    {
        var html = new StringBuilder();
        html.Append("<figure class=\"tk tk-chart tk-chart-none tex2jax_ignore mathjax_ignore\" data-state=\"none\">\n");
        AppendCaption(html, chart.Title, "");
        html.Append(CultureInfo.InvariantCulture, $"<p>No chart: {Escape(chart.Reason)}</p>\n</figure>\n");
        return html.ToString();
    }

    private static void AppendCaption(StringBuilder html, string title, string subtitle)
    {
        html.Append(CultureInfo.InvariantCulture, $"<figcaption><span class=\"tk-chart-title\">{HtmlText.Sentence(title)}</span>");
        if (subtitle.Length > 0)
            html.Append(CultureInfo.InvariantCulture, $" <span class=\"tk-chart-subtitle\">{HtmlText.Sentence(subtitle)}</span>");
        html.Append("</figcaption>\n");
    }

    private static string Escape(string text) => HtmlText.Escape(text);
}
