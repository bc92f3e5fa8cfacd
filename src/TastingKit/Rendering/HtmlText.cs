using System.Text;

namespace TastingKit;

/// <summary>Text made safe for HTML, in elements and in quoted attributes.</summary>
public static class HtmlText
{
    /// <summary>
    /// The text shown as it stands: markup is escaped; control characters and marks that turn the direction of what follows
    /// (which would let a name rewrite the sentence around it) become the replacement character.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string Escape(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var escaped = new StringBuilder(text.Length);
        foreach (var character in text)
        {
            _ = character switch
            {
                '&' => escaped.Append("&amp;"),
                '<' => escaped.Append("&lt;"),
                '>' => escaped.Append("&gt;"),
                '"' => escaped.Append("&quot;"),
                '\'' => escaped.Append("&#39;"),
                '\t' or '\n' => escaped.Append(character),
                _ when char.IsControl(character) || TurnsDirection(character) => escaped.Append('\uFFFD'),
                _ => escaped.Append(character),
            };
        }

        return escaped.ToString();
    }

    /// <summary>A sentence of the kit's own, escaped; a line never ends between a number and its per cent sign.</summary>
    /// <param name="text">Any text.</param>
    public static string Sentence(string text)
    {
        var escaped = Escape(text);
        var sentence = new StringBuilder(escaped);
        for (var at = escaped.IndexOf(" %", StringComparison.Ordinal); at >= 0; at = escaped.IndexOf(" %", at + 1, StringComparison.Ordinal))
        {
            if (at > 0 && char.IsAsciiDigit(escaped[at - 1]))
                sentence[at] = '\u00A0';
        }

        return sentence.ToString();
    }

    private static bool TurnsDirection(char character) => character is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069');
}
