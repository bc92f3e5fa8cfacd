namespace TastingKit.Pages;

/// <summary>What a page needs beyond <see cref="Stylesheet"/>: its own measure, prose, folded code, contents and footer.</summary>
internal static class PageStylesheet
{
    internal static string Css { get; } = Read();

    private static string Read()
    {
        using var stream = typeof(PageStylesheet).Assembly.GetManifestResourceStream("TastingKit.Pages.Assets.page.css")
            ?? throw new InvalidOperationException("The page's stylesheet is missing from the assembly.");
        using var reader = new StreamReader(stream);
        return reader.ReadToEnd();
    }
}
