using System.Buffers;
using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace TastingKit.Reading;

/// <summary>Reads brew times: <c>3:15</c>, <c>3m15s</c>, <c>195</c>.</summary>
internal static partial class DurationText
{
    private const string Expected = "a brew time such as 3:15, 3m15s or 195 (seconds)";

    private static readonly SearchValues<byte> NumberBytes = SearchValues.Create("0123456789.,+-"u8);

    private static readonly CellFault Spreadsheet = new(Rule.SpreadsheetTime,
        "A spreadsheet made hours and minutes of it; it was read as minutes and seconds, here and wherever the column has such a time.", "minutes and seconds such as 3:15");

    /// <summary>Reads a brew time above nothing and not over two days.</summary>
    public static Judged<TimeSpan> Judge(Cell cell)
    {
        var text = cell.Utf8;
        if (!text.ContainsAnyExcept(NumberBytes))
        {
            var seconds = NumberText.Judge(text, cell.DecimalComma, Expected);
            if (seconds.Fault is { } fault)
                return fault;
            return InRange(cell.Unit == "min" ? seconds.Value * 60 : seconds.Value);
        }

        if (IsMinutesAndSeconds(text))
            return InRange((text[0] - '0') * 60 + (text[2] - '0') * 10 + (text[3] - '0'));

        var written = text.Length <= 40 ? Encoding.UTF8.GetString(text) : "";
        if (Colons().Match(written) is { Success: true } clock)
        {
            var (first, second) = (Part(clock, "a"), Part(clock, "b"));
            if (!clock.Groups["c"].Success)
                return second < 60 ? InRange(first * 60 + second) : NotRead(written);
            var third = Part(clock, "c");
            if (second >= 60 || third >= 60)
                return NotRead(written);
            if (first == 0 || third > 0)
                return InRange(first * 3600 + second * 60 + third);
            var turned = InRange(first * 60 + second);
            return turned.Fault is null ? Judged<TimeSpan>.Noted(turned.Value, Spreadsheet) : turned;
        }

        if (Units().Match(written) is { Success: true, Length: > 0 } units)
            return InRange(Part(units, "h") * 3600 + Part(units, "m") * 60 + Part(units, "s"));
        return NotRead(written);
    }

    /// <summary>Whether it is written as nearly all brew times are, such as <c>3:15</c>.</summary>
    private static bool IsMinutesAndSeconds(ReadOnlySpan<byte> text) =>
        text.Length == 4 && text[1] == ':' && text[0] is >= (byte)'0' and <= (byte)'9' && text[2] is >= (byte)'0' and <= (byte)'5' && text[3] is >= (byte)'0' and <= (byte)'9';

    private static double Part(Match match, string group) =>
        match.Groups[group] is { Success: true } part ? double.Parse(part.ValueSpan, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture) : 0;

    private static Judged<TimeSpan> InRange(double seconds) => seconds is > 0 and <= 48 * 3600
        ? TimeSpan.FromTicks((long)Math.Round(seconds * TimeSpan.TicksPerSecond))
        : new CellFault(Rule.NumberOutOfRange, "A brew takes more than no time and less than two days.", Expected);

    private static CellFault NotRead(string written) => Words.IsMissing(written)
        ? new CellFault(Rule.DurationNotRead, "A word for a missing value stands where a brew time belongs.", Expected + ", or an empty cell")
        : new CellFault(Rule.DurationNotRead, "It is no brew time.", Expected);

    [GeneratedRegex(@"^(?<a>[0-9]{1,4}):(?<b>[0-9]{2})(:(?<c>[0-9]{2}))?$|^(?<a>[0-9]{1,4}):(?<b>[0-9]{2}\.[0-9]{1,7})$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Colons();

    [GeneratedRegex(
        @"^((?<h>[0-9]{1,2}(\.[0-9]+)?)\s*(h|hr|hrs|hours?))?\s*((?<m>[0-9]{1,4}(\.[0-9]+)?)\s*(m|min|mins|minutes?|'))?\s*((?<s>[0-9]{1,6}(\.[0-9]+)?)\s*(s|sec|secs|seconds?|"")?)?$",
        RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant | RegexOptions.IgnoreCase)]
    private static partial Regex Units();
}
