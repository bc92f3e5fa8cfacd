namespace TastingKit.Pages;

/// <summary>Where a page stands in a site: what its links lead to.</summary>
/// <param name="Previous">The page before it; <see langword="null"/> for the first.</param>
/// <param name="Next">The page after it; <see langword="null"/> for the last.</param>
public sealed record SitePlace(SiteEntry.Page? Previous, SiteEntry.Page? Next)
{
    /// <summary>The links as HTML, once above and once below the contents; each has a name of its own, by which a screen reader lists them.</summary>
    /// <param name="isBelow">Whether they stand below the contents.</param>
    internal string Html(bool isBelow) =>
        $"<nav class=\"tk-site\" aria-label=\"{(isBelow ? "Pages, again" : "Pages")}\">\n<a href=\"{SiteIndex.FileName}\">All pages</a>\n{Link(Previous, "prev", "Before: ")}{Link(Next, "next", "Next: ")}</nav>\n";

    private static string Link(SiteEntry.Page? page, string relation, string what) =>
        page is null ? "" : $"<a rel=\"{relation}\" href=\"{page.Address}\">{what}{HtmlText.Escape(page.Title)}</a>\n";
}
