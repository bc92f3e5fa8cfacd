using System.Collections.Frozen;
using System.Globalization;
using System.Text;

namespace TastingKit.Reading;

/// <summary>Words that stand where a value should: for a missing one, for filler, for a try-out of the form.</summary>
internal static class Words
{
    private static readonly FrozenSet<string> ForMissing = Set(
        "na", "n/a", "n.a.", "n.a", "n\\a", "none", "null", "nil", "nan", "?", "??", "???", "-", "--", "---", "–", "—", "unknown", "unkown", "unknwon",
        "not known", "not noted", "not stated", "not available", "not applicable", "not recorded", "missing", "tbd", "tba");

    private static readonly FrozenSet<string> Filler = Set(
        "asdf", "asdfasdf", "qwerty", "blah", "blah blah", "lorem ipsum", ".", "..", "...", "x", "foo");

    private static readonly FrozenSet<string> ForTest = Set(
        "test", "tests", "testing", "test test", "test test test", "test entry", "test row", "test coffee", "test cup", "this is a test", "dummy", "dummy entry", "dummy row");

    private static readonly FrozenSet<string>.AlternateLookup<ReadOnlySpan<char>> ForTestSpans = ForTest.GetAlternateLookup<ReadOnlySpan<char>>();

    private static readonly FrozenSet<string> SpreadsheetErrors = Set(
        "#N/A", "#NV", "#REF!", "#DIV/0!", "#VALUE!", "#NAME?", "#NUM!", "#NULL!", "#SPILL!", "#CALC!", "#FIELD!", "#GETTING_DATA");

    private static readonly FrozenSet<string> Months = Set("jan", "feb", "mar", "apr", "may", "jun", "jul", "aug", "sep", "oct", "nov", "dec");

    // Unicode normalisation is left to the host's culture data, or done not at all where that is switched off; a table is the same everywhere.
    private const string Accented = "àáâãäåāăąçćčďèéêëēėęěìíîïīįłñńňòóôõöøōőŕřśšșťțùúûüūůűųýÿźžż";
    private const string Plain = "aaaaaaaaacccdeeeeeeeeiiiiiilnnnoooooooorrsssttuuuuuuuuyyzzz";

    private const int LongestWord = 32;

    /// <summary>The words taken for a missing value, for a message.</summary>
    public static string MissingList => "na, n/a, none, null, nil, nan, ?, -, unknown, not noted, not known, not stated, missing, tbd";

    /// <summary>Whether the text is a word for a missing value.</summary>
    public static bool IsMissing(string text) => text.Length <= LongestWord && ForMissing.Contains(text);

    /// <summary>Whether the text fills a cell without saying anything, such as one letter three times.</summary>
    public static bool IsFiller(string text) =>
        text.Length <= LongestWord
        && (Filler.Contains(text) || (text.Length >= 3 && char.IsLower(text[0]) && text.AsSpan().TrimStart(text[0]).IsEmpty));

    /// <summary>Whether the text names a try-out and no coffee, such as <c>TEST</c> or <c>test 2</c>.</summary>
    public static bool IsTest(string text) =>
        // An identifier such as T120 is none of the words, and there is one a row.
        text.Length is > 1 and <= LongestWord && text[0] is 't' or 'T' or 'd' or 'D' && !char.IsAsciiDigit(text[1]) && text.AsSpan().TrimEnd(TrailingNumber) is { Length: > 1 } word && ForTestSpans.Contains(word);

    /// <summary>Whether the text is what a spreadsheet shows of a formula that failed, such as <c>#N/A</c>.</summary>
    public static bool IsSpreadsheetError(ReadOnlySpan<byte> text)
    {
        if (text.Length is < 3 or > LongestWord || text[0] != '#')
            return false;
        return SpreadsheetErrors.Contains(Encoding.UTF8.GetString(text));
    }

    /// <summary>Whether the text is a day and a month as a spreadsheet makes them of what looks like a fraction or a range, such as <c>26-Jan</c>.</summary>
    public static bool IsSpreadsheetDate(string text)
    {
        if (text.Length is not (5 or 6))
            return false;
        var hyphen = text.IndexOf('-', StringComparison.Ordinal);
        var (left, right) = hyphen > 0 ? (text[..hyphen], text[(hyphen + 1)..]) : ("", "");
        return (Months.Contains(right) && left.All(char.IsAsciiDigit)) || (Months.Contains(left) && right.All(char.IsAsciiDigit));
    }

    /// <summary>A text with case, accents, and everything but letters and digits taken off, to find what differs in spelling alone.</summary>
    public static string Folded(string text)
    {
        var folded = new StringBuilder(text.Length);
        foreach (var rune in text.EnumerateRunes())
        {
            if (!Rune.IsLetterOrDigit(rune))
                continue;
            var lower = Rune.ToLowerInvariant(rune);
            var accented = lower.IsAscii || !lower.IsBmp ? -1 : Accented.IndexOf((char)lower.Value, StringComparison.Ordinal);
            if (accented >= 0)
                folded.Append(Plain[accented]);
            else if (lower.IsBmp)
                folded.Append((char)lower.Value);
            else
                folded.Append(lower.ToString());
        }

        return folded.ToString();
    }

    /// <summary>Whether a question mark or a replacement character stands inside a word, where a letter was before.</summary>
    public static bool HasLostLetter(string text)
    {
        for (var i = text.AsSpan().IndexOfAny('?', '\uFFFD'); i >= 0 && i < text.Length; i++)
        {
            if (text[i] == '\uFFFD')
                return true;
            if (text[i] == '?' && i > 0 && i + 1 < text.Length && IsLetter(text[i - 1]) && IsLetter(text[i + 1]))
                return true;
        }

        return false;
    }

    private const string TrailingNumber = "0123456789 -_#.";

    private static bool IsLetter(char c) => char.GetUnicodeCategory(c)
        is UnicodeCategory.LowercaseLetter or UnicodeCategory.UppercaseLetter or UnicodeCategory.OtherLetter;

    private static FrozenSet<string> Set(params string[] words) => words.ToFrozenSet(StringComparer.OrdinalIgnoreCase);
}
