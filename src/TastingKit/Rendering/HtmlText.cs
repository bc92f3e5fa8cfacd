using System.Text;

namespace TastingKit;

/// <summary>Text made safe for HTML, in elements and in quoted attributes.</summary>
public static class HtmlText
{
    /// <summary>
    /// The text shown as it stands: as <see cref="SeenText"/> has it, and with its markup escaped.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string Escape(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        return WithoutMarkup(SeenText.Of(text));
    }

    /// <summary>
    /// A sentence of the kit's own for the inside of an element, escaped. A name that is written from right to left leaves the rest of
    /// the sentence in its order, one of any length leaves room for it, and a line never ends between a number and its per cent sign.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string Sentence(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        var escaped = WithoutMarkup(SeenText.SetApart(LongText.Cut(text, LongText.Sentence)))
            .Replace($"{SeenText.Isolate}", "<bdi>", StringComparison.Ordinal).Replace($"{SeenText.EndOfIsolate}", "</bdi>", StringComparison.Ordinal);
        var sentence = new StringBuilder(escaped);
        for (var at = escaped.IndexOf(" %", StringComparison.Ordinal); at >= 0; at = escaped.IndexOf(" %", at + 1, StringComparison.Ordinal))
        {
            if (at > 0 && char.IsAsciiDigit(escaped[at - 1]))
                sentence[at] = '\u00A0';
        }

        return sentence.ToString();
    }

    private static string WithoutMarkup(string text)
    {
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
                _ => escaped.Append(character),
            };
        }

        return escaped.ToString();
    }
}
