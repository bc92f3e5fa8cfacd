using System.Globalization;

namespace TastingKit;

/// <summary>The script that shows long tables in pages of rows: once on a page, before or after its tables.</summary>
public static class TableScript
{
    /// <summary>
    /// The script as one script element. It makes no request, and works under the content security policy <c>script-src 'unsafe-inline'</c>.
    /// Running it again is harmless.
    /// </summary>
    public static string Html { get; } =
        $"<script>\n{RenderingAsset.Read("tables.js").Replace("@rows@", HtmlRenderer.RowsSeen.ToString(CultureInfo.InvariantCulture), StringComparison.Ordinal)}</script>\n";
}
