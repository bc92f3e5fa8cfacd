namespace TastingKit.Pages;

/// <summary>One notebook of a site.</summary>
public abstract record SiteEntry
{
    private SiteEntry()
    {
    }

    /// <summary>Handles each case.</summary>
    public T Match<T>(Func<Page, T> page, Func<Failed, T> failed)
    {
        ArgumentNullException.ThrowIfNull(page);
        ArgumentNullException.ThrowIfNull(failed);
        return this switch
        {
            Page entry => page(entry),
            Failed entry => failed(entry),
            _ => throw new InvalidOperationException("The cases of SiteEntry are closed."),
        };
    }

    /// <summary>A notebook that ran to its end.</summary>
    /// <param name="FileName">The page's file in the site's folder.</param>
    /// <param name="Title">The notebook's title.</param>
    /// <param name="Description">What it is about, in a sentence; may be empty.</param>
    public sealed record Page(string FileName, string Title, string Description) : SiteEntry
    {
        /// <summary>The file's name as a link holds it; a leading dot-slash keeps a colon in it from being read as a scheme.</summary>
        internal string Address => "./" + HtmlText.Escape(Uri.EscapeDataString(FileName));
    }

    /// <summary>A notebook that did not: it has no page, and the index says why.</summary>
    /// <param name="Notebook">The notebook's file name.</param>
    /// <param name="Reason">Where it failed and why, in a sentence.</param>
    public sealed record Failed(string Notebook, string Reason) : SiteEntry;
}
