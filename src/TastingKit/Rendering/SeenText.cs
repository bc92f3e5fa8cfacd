using System.Globalization;
using System.Text;

namespace TastingKit;

/// <summary>
/// A text from anywhere as it may be shown anywhere: a reader sees all of it, and nothing that shows it, a browser as little as a
/// terminal, finds anything to obey.
/// </summary>
public static class SeenText
{
    internal const char Isolate = '\u2068';
    internal const char EndOfIsolate = '\u2069';

    private const string Unseen = "\uFFFD";
    private const int MostMarksOnALetter = 8;

    /// <summary>
    /// The text with the replacement character for each control character but the tab and the line feed, each half of a surrogate
    /// pair, each separator of lines or paragraphs, and each mark that turns the direction of what follows (which would let a name
    /// rewrite the sentence around it). Weak marks of direction are left out, and so is what is piled on a letter beyond eight marks.
    /// A text of which nothing can be seen becomes one replacement character, so that a reader sees that there is something.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string Of(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (IsPlain(text))
            return text;
        var seen = new StringBuilder(text.Length);
        var (marks, isBlank, isInked) = (0, true, false);
        for (var at = 0; at < text.Length;)
        {
            var category = Rune.TryGetRuneAt(text, at, out var rune) ? Rune.GetUnicodeCategory(rune) : UnicodeCategory.Surrogate;
            var length = category == UnicodeCategory.Surrogate ? 1 : rune.Utf16SequenceLength;
            var isSpace = category != UnicodeCategory.Surrogate && Rune.IsWhiteSpace(rune);
            marks = category is UnicodeCategory.NonSpacingMark or UnicodeCategory.EnclosingMark ? marks + 1 : 0;
            isBlank &= isSpace;
            if (IsObeyed(text[at], category))
            {
                var isEndOfLine = text[at] == '\r' && at + 1 < text.Length && text[at + 1] == '\n';
                seen.Append(isEndOfLine ? "" : Unseen);
                isInked = true;
            }
            else if (marks <= MostMarksOnALetter && !IsWeakMark(text[at]))
            {
                seen.Append(text, at, length);
                isInked |= !isSpace && category != UnicodeCategory.Format;
            }

            at += length;
        }

        return isInked || isBlank ? seen.ToString() : Unseen;
    }

    /// <summary>
    /// The text with each stretch that is written from right to left between an isolate (U+2068) and its end (U+2069), so that a name
    /// leaves the order of the numbers and words around it alone.
    /// </summary>
    /// <param name="text">Any text.</param>
    public static string SetApart(string text)
    {
        ArgumentNullException.ThrowIfNull(text);
        if (!text.AsSpan().ContainsAnyInRange('\u0590', '\uFEFF'))
            return text;
        var apart = new StringBuilder(text.Length);
        var (done, start, end) = (0, -1, -1);
        for (var at = 0; at < text.Length; at++)
        {
            if (RunsToTheLeft(text[at]))
                (start, end) = (start < 0 ? at : start, at + 1);
            else if (char.IsLetter(text[at]) || text[at] == '\n')
                Close();
        }

        Close();
        return apart.Append(text, done, text.Length - done).ToString();

        void Close()
        {
            if (start < 0)
                return;
            apart.Append(text, done, start - done).Append(Isolate).Append(text, start, end - start).Append(EndOfIsolate);
            (done, start) = (end, -1);
        }
    }

    private static bool RunsToTheLeft(char character) => character is (>= '\u0590' and <= '\u08FF') or (>= '\uFB1D' and <= '\uFDFF') or (>= '\uFE70' and <= '\uFEFC');

    private static bool IsPlain(string text)
    {
        foreach (var character in text)
        {
            if (character is not ((>= ' ' and <= '~') or (>= '\u00A0' and <= '\u02FF' and not '\u00AD') or '\n' or '\t'))
                return false;
        }

        return true;
    }

    private static bool IsObeyed(char character, UnicodeCategory category) => category switch
    {
        UnicodeCategory.Control => character is not ('\t' or '\n'),
        UnicodeCategory.Format => character is (>= '\u202A' and <= '\u202E') or (>= '\u2066' and <= '\u2069'),
        UnicodeCategory.Surrogate or UnicodeCategory.LineSeparator or UnicodeCategory.ParagraphSeparator => true,
        _ => false,
    };

    private static bool IsWeakMark(char character) => character is '\u200E' or '\u200F' or '\u061C';
}
