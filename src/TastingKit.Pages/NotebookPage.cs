using System.Globalization;
using System.Text;
using TastingKit.Charts;

namespace TastingKit.Pages;

/// <summary>
/// An executed notebook as one HTML page that needs nothing but itself: prose, results and charts, the code folded away but
/// there, plotly.js once. The page makes no request, its security policy allows none, and the same notebook and outputs give
/// the same bytes.
/// </summary>
public static class NotebookPage
{
    private const int DeepestListed = 3;

    /// <summary>Writes the page.</summary>
    /// <param name="notebook">The notebook.</param>
    /// <param name="outputs">Outputs by <see cref="NotebookCell.Code.Number"/>.</param>
    /// <param name="log">The name of the log that it was run on; <see langword="null"/> for a notebook of no log.</param>
    /// <param name="site">The page's place in a site; <see langword="null"/> for a page that stands alone.</param>
    public static string Write(NotebookDocument notebook, IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> outputs, string? log = null, SitePlace? site = null)
    {
        ArgumentNullException.ThrowIfNull(notebook);
        ArgumentNullException.ThrowIfNull(outputs);
        return Write(notebook.Name, notebook.Cells, outputs, log, site);
    }

    internal static string Write(
        string name, IReadOnlyList<NotebookCell> cells, IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> outputs, string? log, SitePlace? site)
    {
        var prose = new ProseHtml();
        var blocks = cells.Select(cell => Cell(cell, prose, outputs)).ToList();
        // The list of contents stands below the opening prose, which holds the title.
        var opening = cells is [NotebookCell.Prose, ..] ? 1 : 0;
        blocks.Insert(opening, Contents(prose.Headings));

        var html = new StringBuilder();
        PageFrame.AppendHead(html, NotebookDocument.TitleOf(name, cells));
        html.Append(site?.Html(isBelow: false)).Append("<main id=\"content\">\n").AppendJoin("", blocks).Append("</main>\n").Append(site?.Html(isBelow: true));
        PageFrame.AppendFooter(html, $"{(log is null ? "" : $" from the log {log}")} with the notebook {name}");
        if (blocks.Exists(block => block.Contains(" tk-long\"", StringComparison.Ordinal)))
            html.Append(TableScript.Html);
        if (blocks.Exists(block => block.Contains("class=\"tk-chart-plot\"", StringComparison.Ordinal)))
            html.Append(PlotlyLoader.Html);
        return html.Append("</body>\n</html>\n").ToString();
    }

    private static string Contents(IReadOnlyList<ProseHtml.Heading> headings)
    {
        var listed = headings.Where(heading => heading.Level is > 1 and <= DeepestListed).ToArray();
        if (listed.Length < 2)
            return "";
        var html = new StringBuilder("<nav class=\"tk-contents\" aria-label=\"Contents\">\n<ul>\n");
        foreach (var heading in listed)
            html.Append(CultureInfo.InvariantCulture, $"<li class=\"tk-level-{heading.Level}\"><a href=\"#{heading.Id}\">{HtmlText.Escape(heading.Text)}</a></li>\n");
        return html.Append("</ul>\n</nav>\n").ToString();
    }

    private static string Cell(NotebookCell cell, ProseHtml prose, IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> outputs) => cell.Match(
        text => $"<div class=\"tk-prose\">\n{prose.Render(text.Source, text.Attachments)}</div>\n",
        code => $"{Code(code)}{string.Concat((outputs.GetValueOrDefault(code.Number) ?? []).Select(output => OutputHtml.Of(output, prose)))}",
        other => other.Source.Length == 0 ? "" : $"<pre class=\"tk-raw\">{HtmlText.Escape(other.Source)}</pre>\n");

    /// <summary>Code is folded away, but not what a run has set: it changes what every figure below it means.</summary>
    private static string Code(NotebookCell.Code code)
    {
        var (state, title) = code.IsValues ? (" open", "Set for this run") : ("", string.Create(CultureInfo.InvariantCulture, $"Code {code.Number}"));
        return $"<details class=\"tk-code\"{state}>\n<summary>{title}</summary>\n<pre tabindex=\"0\"><code>{HtmlText.Escape(code.Source)}</code></pre>\n</details>\n";
    }
}
