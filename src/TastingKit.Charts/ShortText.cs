using System.Globalization;

namespace TastingKit.Charts;

/// <summary>
/// Text from a log cut to the room it has. A name in a log may be of any length and hold marks that turn the reading
/// direction of all that follows; a label must neither push a chart apart nor rearrange its neighbours.
/// </summary>
internal static class ShortText
{
    private const string Ellipsis = "\u2026";
    private const int MostMarksOnALetter = 16;

    /// <summary>The text on one line, its end cut with an ellipsis where it is wider than allowed.</summary>
    /// <param name="text">Any text.</param>
    /// <param name="width">The room, in widths of an ordinary lower-case letter.</param>
    public static string Cut(string text, int width)
    {
        // No letter is narrower than one: a longer text need not be read to its end.
        var letters = Letters(text).Take(width + 1).ToArray();
        return Width(letters) <= width ? string.Concat(letters) : Start(letters, width - 1).TrimEnd() + Ellipsis;
    }

    /// <summary>The text on one line, cut in the middle where it is wider than allowed: for names that may differ only at their ends.</summary>
    /// <param name="text">Any text.</param>
    /// <param name="width">The room, in widths of an ordinary lower-case letter.</param>
    public static string CutMiddle(string text, int width)
    {
        var letters = Letters(text).ToArray();
        if (Width(letters) <= width)
            return string.Concat(letters);
        var end = new List<string>();
        for (var i = letters.Length - 1; i >= 0 && Width(end) + WidthOf(letters[i]) <= width / 3; i--)
            end.Insert(0, letters[i]);
        return Start(letters, width - 1 - Width(end)).TrimEnd() + Ellipsis + string.Concat(end).TrimStart();
    }

    /// <summary>The text in lines no wider than allowed, broken at spaces where there are any.</summary>
    public static IReadOnlyList<string> Wrap(string text, int width)
    {
        var lines = new List<string>();
        var line = "";
        foreach (var word in string.Concat(Letters(text)).Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            if (line.Length > 0 && Width(Letters(line)) + 1 + Width(Letters(word)) > width)
            {
                lines.Add(line);
                line = "";
            }

            line = line.Length == 0 ? word : $"{line} {word}";
            // A word wider than a line is broken where the line ends.
            for (var letters = Letters(line).ToArray(); Width(letters) > width && letters.Length > 1; letters = Letters(line).ToArray())
            {
                var start = Start(letters, width);
                lines.Add(start);
                line = line[start.Length..];
            }
        }

        if (line.Length > 0)
            lines.Add(line);
        return lines;
    }

    /// <summary>A sentence in which names are cut to the room they may take, and the whole to what a reader will read.</summary>
    /// <param name="sentence">The sentence.</param>
    /// <param name="names">Names from the log that stand in it.</param>
    public static string Sentence(string sentence, params IEnumerable<string> names)
    {
        foreach (var name in names)
        {
            var shorter = Cut(name, 80);
            if (name.Length > 0 && shorter != name)
                sentence = sentence.Replace(name, shorter, StringComparison.Ordinal);
        }

        return Cut(sentence, 600);
    }

    /// <summary>
    /// What is shown of a text, a grapheme a piece so that none is torn apart: white space and control characters as single
    /// spaces, none at the ends, and no marks that turn the direction.
    /// </summary>
    private static IEnumerable<string> Letters(string text)
    {
        var (hasBegun, isSpaceDue) = (false, false);
        for (var at = 0; at < text.Length;)
        {
            var length = StringInfo.GetNextTextElementLength(text, at);
            var first = text[at];
            if (char.IsWhiteSpace(first) || char.IsControl(first))
            {
                isSpaceDue = hasBegun;
            }
            else if (!TurnsDirection(first))
            {
                if (isSpaceDue)
                    yield return " ";
                (hasBegun, isSpaceDue) = (true, false);
                // Marks may be piled on one letter without end; a pair of surrogates stays whole.
                var kept = Math.Min(length, MostMarksOnALetter);
                yield return text.Substring(at, kept < length && char.IsHighSurrogate(text[at + kept - 1]) ? kept - 1 : kept);
            }

            at += length;
        }
    }

    private static string Start(IEnumerable<string> letters, double width)
    {
        var used = 0.0;
        return string.Concat(letters.TakeWhile(letter => (used += WidthOf(letter)) <= width));
    }

    private static double Width(IEnumerable<string> letters) => letters.Sum(letter => WidthOf(letter));

    /// <summary>Widths as common sans-serif faces have them, on the wide side.</summary>
    private static double WidthOf(string letter) => letter[0] switch
    {
        'W' or 'M' or '@' or '%' => 2,
        'm' or 'w' => 1.6,
        >= '\u1100' => IsPunctuation(letter[0]) ? 1 : 2,
        _ when char.IsUpper(letter[0]) => 1.3,
        _ => 1,
    };

    private static bool IsPunctuation(char character) => character is >= '\u2000' and <= '\u206f' or '\u2212';

    private static bool TurnsDirection(char character) =>
        character is '\u200e' or '\u200f' or '\u061c' or (>= '\u202a' and <= '\u202e') or (>= '\u2066' and <= '\u2069');
}
