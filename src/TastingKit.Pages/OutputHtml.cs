using System.Text;
using TastingKit.Charts;

namespace TastingKit.Pages;

/// <summary>An output of a cell as HTML: its best representation that the page can show by itself.</summary>
internal static class OutputHtml
{
    private static readonly string[] Pictures = ["image/png", "image/jpeg", "image/gif", "image/webp"];

    private static readonly Dictionary<string, string> NoAttachments = [];

    internal static string Of(CellOutput output, ProseHtml prose) => output.Match(
        printed => printed.Text.Length == 0 ? "" : Preformatted(printed.IsError ? "tk-printed tk-error" : "tk-printed", printed.Text),
        shown => Of(shown.Data, prose));

    private static string Of(IReadOnlyDictionary<string, string> data, ProseHtml prose)
    {
        // The page has the stylesheet and plotly.js already, the latter once and last; what the set-up says stands in its foot.
        if (data.TryGetValue("text/html", out var html))
            return html == PlotlyLoader.HtmlWithStylesheet ? "" : $"<div class=\"tk-output\">\n{html.TrimEnd('\n')}\n</div>\n";
        if (data.TryGetValue("image/svg+xml", out var svg))
            return Picture("image/svg+xml", Convert.ToBase64String(Encoding.UTF8.GetBytes(svg)));
        foreach (var type in Pictures)
        {
            if (data.TryGetValue(type, out var base64))
                return Picture(type, base64.ReplaceLineEndings(""));
        }

        if (data.TryGetValue("text/markdown", out var markdown))
            return $"<div class=\"tk-prose\">\n{prose.Render(markdown, NoAttachments)}</div>\n";
        return data.TryGetValue("text/plain", out var text) ? Preformatted("tk-printed", text) : "";
    }

    private static string Picture(string type, string base64) => $"<p><img alt=\"Picture made by the code above\" src=\"data:{type};base64,{base64}\"></p>\n";

    private static string Preformatted(string classes, string text) => $"<pre class=\"{classes}\" tabindex=\"0\">{HtmlText.Escape(text)}</pre>\n";
}
