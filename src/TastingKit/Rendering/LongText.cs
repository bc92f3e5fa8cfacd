using System.Globalization;

namespace TastingKit;

/// <summary>How much of a text is shown at once: a log may hold words of any length, and none may bury what stands around it.</summary>
internal static class LongText
{
    /// <summary>The longest sentence; those of the kit's own are far shorter, unless a name in them is not.</summary>
    public const int Sentence = 600;

    /// <summary>The longest text of a cell of a table.</summary>
    public const int Cell = 240;

    /// <summary>The longest heading or title.</summary>
    public const int Title = 160;

    /// <summary>The text as <see cref="SeenText"/> has it, or its beginning with an ellipsis where that is longer; no letter is torn apart.</summary>
    /// <param name="written">Any text.</param>
    /// <param name="most">The most UTF-16 units kept.</param>
    public static string Cut(string written, int most)
    {
        var text = SeenText.Of(written);
        if (text.Length <= most)
            return text;
        var end = 0;
        for (var next = 0; next <= most; next += StringInfo.GetNextTextElementLength(text, next))
            end = next;
        return text[..(end > 0 ? end : most)].TrimEnd() + "\u2026";
    }
}
