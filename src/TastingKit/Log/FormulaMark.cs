using System.Buffers;

namespace TastingKit;

/// <summary>
/// The apostrophe in front of a text that a spreadsheet would run as a formula: put on where the kit writes CSV, and taken off where it reads it.
/// </summary>
/// <remarks>
/// A text gets one where, after any apostrophes of its own, it begins with <c>= + - @</c>, a tab, a carriage return, or the full-width form of
/// one of the signs; plain numbers such as <c>-2.5</c> get none. Reading takes one apostrophe off such a text. So what is written is read back
/// letter for letter, a text that had an apostrophe of its own too.
/// </remarks>
internal static class FormulaMark
{
    private static readonly SearchValues<char> OfNumbers = SearchValues.Create("0123456789.");

    private const string Signs = "=+-@\t\r\uFF1D\uFF0B\uFF0D\uFF20";

    /// <summary>The text as it is written to a file.</summary>
    public static string? On(string? text) =>
        text is { Length: > 0 } && text.TrimStart('\'') is { Length: > 0 } rest && Signs.Contains(rest[0], StringComparison.Ordinal)
        && !(rest.Length == text.Length && IsPlainNumber(text))
            ? "'" + text
            : text;

    /// <summary>What of a cell is its text: all but the mark.</summary>
    public static ReadOnlySpan<byte> Off(ReadOnlySpan<byte> utf8) => IsOn(utf8) ? utf8[1..] : utf8;

    private static bool IsOn(ReadOnlySpan<byte> utf8)
    {
        if (utf8.IsEmpty || utf8[0] != '\'')
            return false;
        var rest = utf8.TrimStart((byte)'\'');
        return !rest.IsEmpty && (rest[0] is (byte)'=' or (byte)'+' or (byte)'-' or (byte)'@' or (byte)'\t' or (byte)'\r'
            || rest.StartsWith("\uFF1D"u8) || rest.StartsWith("\uFF0B"u8) || rest.StartsWith("\uFF0D"u8) || rest.StartsWith("\uFF20"u8));
    }

    private static bool IsPlainNumber(string text) =>
        text.Length > 1 && text[0] is '-' or '+' && !text.AsSpan(1).ContainsAnyExcept(OfNumbers) && text.AsSpan(1).Count('.') <= 1 && char.IsAsciiDigit(text[^1]);
}
