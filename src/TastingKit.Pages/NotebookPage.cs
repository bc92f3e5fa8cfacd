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
    private const string Policy =
        "default-src 'none'; script-src 'unsafe-inline'; style-src 'unsafe-inline'; img-src data:; base-uri 'none'; form-action 'none'";

    private const int DeepestListed = 3;

    /// <summary>Writes the page.</summary>
    /// <param name="notebook">The notebook.</param>
    /// <param name="outputs">Outputs by <see cref="NotebookCell.Code.Number"/>.</param>
    /// <param name="log">The name of the log that it was run on; <see langword="null"/> for a notebook of no log.</param>
    public static string Write(NotebookDocument notebook, IReadOnlyDictionary<int, IReadOnlyList<CellOutput>> outputs, string? log = null)
    {
        ArgumentNullException.ThrowIfNull(notebook);
        ArgumentNullException.ThrowIfNull(outputs);
        var prose = new ProseHtml();
        var cells = notebook.Cells.Select(cell => Cell(cell, prose, outputs)).ToList();
        // The list of contents stands below the opening prose, which holds the title.
        var opening = notebook.Cells is [NotebookCell.Prose, ..] ? 1 : 0;
        cells.Insert(opening, Contents(prose.Headings));

        var html = new StringBuilder();
        AppendHead(html, notebook.Title);
        html.Append("<main id=\"content\">\n").AppendJoin("", cells).Append("</main>\n");
        AppendFooter(html, notebook.Name, log);
        if (cells.Exists(cell => cell.Contains("class=\"tk-chart-plot\"", StringComparison.Ordinal)))
            html.Append(PlotlyLoader.Html);
        return html.Append("</body>\n</html>\n").ToString();
    }

    private static void AppendHead(StringBuilder html, string title)
    {
        html.Append("<!DOCTYPE html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<meta http-equiv=\"Content-Security-Policy\" content=\"{Policy}\">\n");
        html.Append("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
        html.Append("<meta name=\"color-scheme\" content=\"light dark\">\n<meta name=\"referrer\" content=\"no-referrer\">\n");
        // Browsers ask for an icon by themselves unless the page names one.
        html.Append("<link rel=\"icon\" href=\"data:,\">\n");
        html.Append(CultureInfo.InvariantCulture, $"<title>{HtmlText.Escape(title)}</title>\n");
        html.Append(CultureInfo.InvariantCulture, $"<style>\n{Stylesheet.Css}{PageStylesheet.Css}</style>\n</head>\n");
        html.Append("<body class=\"tk tk-page\">\n<a class=\"tk-skip\" href=\"#content\">Skip to the contents</a>\n");
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

    private static string Code(NotebookCell.Code code) => string.Create(
        CultureInfo.InvariantCulture,
        $"<details class=\"tk-code\">\n<summary>Code {code.Number}</summary>\n<pre tabindex=\"0\"><code>{HtmlText.Escape(code.Source)}</code></pre>\n</details>\n");

    private static void AppendFooter(StringBuilder html, string notebook, string? log)
    {
        var source = log is null ? "" : $" from the log {HtmlText.Escape(log)}";
        html.Append("<footer>\n");
        html.Append("<p>Many cups in one day are much caffeine: halve doses, share or spit, and ask a doctor what is right for you.</p>\n");
        html.Append("<p>Boiling water scalds, and a coffee with something added may hold an allergen: follow the label and local advice.</p>\n");
        html.Append(CultureInfo.InvariantCulture, $"<p>Made by TastingKit{source} with the notebook {HtmlText.Escape(notebook)}. This page works without a network.</p>\n");
        html.Append("</footer>\n");
    }
}
