using System.Collections;
using System.Globalization;
using TastingKit.Charts;

namespace TastingKit.Pages;

/// <summary>A value as the representations that a page chooses from, without a kernel to ask.</summary>
internal static class ShownData
{
    /// <summary>Values of a sequence that are shown, as many as a kernel shows.</summary>
    private const int MostItems = 20;

    internal static IReadOnlyDictionary<string, string> Of(object? value)
    {
        var data = new Dictionary<string, string>(StringComparer.Ordinal) { ["text/plain"] = Text(value) };
        if (value is ScriptMarkup markup)
            data["text/html"] = markup.Html;
        else if (value is not null && ValueDisplay.For(value) is { HasHtml: true } display)
            data["text/html"] = display.ToHtml(value);
        return data;
    }

    private static string Text(object? value) => value switch
    {
        null => "<null>",
        ScriptMarkup markup => markup.Html,
        _ when ValueDisplay.For(value) is { } display => display.ToText(value),
        IEnumerable items => Items(items),
        _ => Convert.ToString(value, CultureInfo.InvariantCulture) ?? "",
    };

    private static string Items(IEnumerable items)
    {
        var texts = items.Cast<object?>().Take(MostItems + 1).Select(Text).ToArray();
        return $"[ {string.Join(", ", texts.Take(MostItems))}{(texts.Length > MostItems ? ", …" : "")} ]";
    }
}
