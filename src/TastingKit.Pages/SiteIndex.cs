using System.Globalization;
using System.Text;

namespace TastingKit.Pages;

/// <summary>The first page of a site: its pages with a sentence each. Needs nothing but itself, as they do.</summary>
public static class SiteIndex
{
    /// <summary>The file that holds the index, in the site's folder.</summary>
    public const string FileName = "index.html";

    /// <summary>Writes the index.</summary>
    /// <param name="entries">The notebooks in reading order.</param>
    /// <param name="log">The name of the log that they were run on; <see langword="null"/> for none.</param>
    public static string Write(IReadOnlyList<SiteEntry> entries, string? log = null)
    {
        ArgumentNullException.ThrowIfNull(entries);
        var title = log is null ? "Notebooks" : $"Notebooks on the log {log}";
        var html = new StringBuilder();
        PageFrame.AppendHead(html, title);
        html.Append(CultureInfo.InvariantCulture, $"<main id=\"content\">\n<h1>{HtmlText.Escape(title)}</h1>\n<ul class=\"tk-index\">\n");
        foreach (var entry in entries)
            html.Append(entry.Match(Page, Failed));
        html.Append("</ul>\n</main>\n");
        PageFrame.AppendFooter(html, log is null ? "" : $" from the log {log}");
        return html.Append("</body>\n</html>\n").ToString();
    }

    private static string Page(SiteEntry.Page page)
    {
        var description = page.Description.Length == 0 ? "" : $"<p>{HtmlText.Escape(page.Description)}</p>\n";
        return $"<li>\n<h2><a href=\"{page.Address}\">{HtmlText.Escape(page.Title)}</a></h2>\n{description}</li>\n";
    }

    private static string Failed(SiteEntry.Failed failed) =>
        $"<li>\n<h2>{HtmlText.Escape(failed.Notebook)}</h2>\n<p class=\"tk-index-failed\"><strong>No page:</strong> {HtmlText.Escape(failed.Reason)}</p>\n</li>\n";
}
