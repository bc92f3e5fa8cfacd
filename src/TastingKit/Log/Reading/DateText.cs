using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace TastingKit.Reading;

/// <summary>A moment as a log writes it.</summary>
/// <param name="WallClock">Day and time where the taster was; midnight where only the day is written.</param>
/// <param name="HasTimeOfDay">Whether a time is written.</param>
/// <param name="InUtc">Whether the time is said to be of UTC, and so may not be the taster's.</param>
internal readonly record struct Moment(DateTime WallClock, bool HasTimeOfDay, bool InUtc);

/// <summary>Reads ISO dates and times, and names the form of any other. Day and month are never guessed.</summary>
internal static partial class DateText
{
    private const string ExpectedDay = "an ISO date such as 2025-03-14";
    private const string ExpectedMoment = "an ISO date such as 2025-03-14, or with its time 2025-03-14T08:30";
    private const int FirstYear = 1900;
    private const int LastYear = 2199;

    /// <summary>Reads a day. A time after it, as a spreadsheet may add (<c>2025-03-14 00:00:00</c>), is let be.</summary>
    public static Judged<DateOnly> JudgeDay(Cell cell)
    {
        var judged = Judge(cell, ExpectedDay);
        if (judged.Fault is { } fault)
            return fault;
        var day = DateOnly.FromDateTime(judged.Value.WallClock);
        return judged.Note is { } note ? Judged<DateOnly>.Noted(day, note) : day;
    }

    /// <summary>Reads a day with or without a time, with or without a zone.</summary>
    public static Judged<Moment> JudgeMoment(Cell cell) => Judge(cell, ExpectedMoment);

    /// <summary>Whether there is such a day in the years that a log can be of.</summary>
    public static bool IsDay(int year, int month, int day) =>
        year is >= FirstYear and <= LastYear && month is >= 1 and <= 12 && day >= 1 && day <= DateTime.DaysInMonth(year, month);

    /// <summary>The fault of a day that no calendar has.</summary>
    public static CellFault NoSuchDay(string expected) => new(Rule.DateImpossible, "There is no such day, or not in the years 1900 to 2199.", expected);

    private static Judged<Moment> Judge(Cell cell, string expected)
    {
        var text = cell.Utf8;
        if (text.Length < 10 || text[4] != '-' || text[7] != '-'
            || !TryDigits(text[..4], out var year) || !TryDigits(text[5..7], out var month) || !TryDigits(text[8..10], out var day))
            return OtherDates.Judge(cell, expected) ?? NotIso(text, expected);
        if (!IsDay(year, month, day))
            return NoSuchDay(expected);
        var date = new DateTime(year, month, day);
        if (text.Length == 10)
            return new Moment(date, false, false);

        var time = text[11..];
        if (text[10] is not ((byte)'T' or (byte)'t' or (byte)' ') || !TryZone(ref time, out var inUtc) || !TryTime(time, out var timeOfDay))
            return new CellFault(Rule.DateNotIso, "The day can be read, what follows it is no time of day.", expected);
        var moment = new Moment(date + timeOfDay, true, inUtc);
        return inUtc ? Judged<Moment>.Noted(moment, TimeInUtc(expected)) : moment;
    }

    private static CellFault TimeInUtc(string expected) =>
        new(Rule.TimeInUtc, "The time is of UTC; its day and hour were taken for the taster's, here and wherever the column has such a time.", expected + ", the clock where the taster was, without Z");

    private static bool TryDigits(ReadOnlySpan<byte> text, out int value) =>
        int.TryParse(text, NumberStyles.None, CultureInfo.InvariantCulture, out value);

    /// <summary>Takes a zone off the end. The clock shown is kept: what counts is the day and hour where the taster was.</summary>
    private static bool TryZone(ref ReadOnlySpan<byte> time, out bool inUtc)
    {
        inUtc = !time.IsEmpty && time[^1] is (byte)'Z' or (byte)'z';
        if (inUtc)
        {
            time = time[..^1];
            return true;
        }

        var sign = time.LastIndexOfAny((byte)'+', (byte)'-');
        if (sign < 0)
            return true;
        var zone = time[(sign + 1)..];
        time = time[..sign].TrimEnd((byte)' ');
        return zone.Length switch
        {
            2 => TryDigits(zone, out var hours) && hours <= 14,
            4 => TryDigits(zone, out _),
            5 => zone[2] == ':' && TryDigits(zone[..2], out var hours) && hours <= 14 && TryDigits(zone[3..], out var minutes) && minutes < 60,
            _ => false,
        };
    }

    private static bool TryTime(ReadOnlySpan<byte> text, out TimeSpan time)
    {
        time = default;
        if (text.Length is not (5 or >= 8) || text[2] != ':' || !TryDigits(text[..2], out var hours) || !TryDigits(text[3..5], out var minutes)
            || hours > 23 || minutes > 59)
            return false;
        time = new TimeSpan(hours, minutes, 0);
        if (text.Length == 5)
            return true;
        if (text[5] != ':' || !TryDigits(text[6..8], out var seconds) || seconds > 59)
            return false;
        time += TimeSpan.FromSeconds(seconds);
        if (text.Length == 8)
            return true;
        var fraction = text[9..];
        if (text[8] is not ((byte)'.' or (byte)',') || fraction.Length is < 1 or > 7 || !TryDigits(fraction, out var digits))
            return false;
        for (var i = fraction.Length; i < 7; i++)
            digits *= 10;
        time += TimeSpan.FromTicks(digits);
        return true;
    }

    private static CellFault NotIso(ReadOnlySpan<byte> text, string expected)
    {
        var written = Encoding.UTF8.GetString(text);
        if (Words.IsMissing(written))
            return new CellFault(Rule.DateNotIso, "A word for a missing value stands where a date belongs.", expected + ", or an empty cell");
        var form = written.Length > 64 ? "no date" : FormOf(written);
        return new CellFault(Rule.DateNotIso, $"The date is not written as ISO has it: {form}.", expected);
    }

    private static string FormOf(string text) =>
        Form.NamedMonth().IsMatch(text) ? "it has the month as a word"
        : Form.NamedMonthAndYear().IsMatch(text) ? "it has a month and a year, and no day"
        : Form.YearFirst().IsMatch(text) ? "it has the year first, but not as four, two and two digits between hyphens"
        : Form.YearLast().IsMatch(text) ? "day and month stand before the year, and which is which can't be told from one date"
        : Form.MonthAndYear().IsMatch(text) ? "it has a month and a year, and no day"
        : Form.Year().IsMatch(text) ? "it has a year alone"
        : Form.Serial().IsMatch(text) ? "it is a number, perhaps a spreadsheet's count of days"
        : Form.Clock().IsMatch(text) ? "it has a time and no day"
        : "no date";

    private static partial class Form
    {
        private const string Months = "(jan|feb|mar|apr|may|jun|jul|aug|sep|oct|nov|dec)[a-z]*\\.?";
        private const RegexOptions Options = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

        [GeneratedRegex("^" + Months + @"\s*[0-9]{1,2}(st|nd|rd|th)?\s*,?\s*[0-9]{4}\b|^[0-9]{1,2}(st|nd|rd|th)?[\s-]*" + Months + @"[\s,-]*([0-9]{2}|[0-9]{4})\b", Options)]
        public static partial Regex NamedMonth();

        [GeneratedRegex("^" + Months + @"[\s,-]*([0-9]{2}|[0-9]{4})$", Options)]
        public static partial Regex NamedMonthAndYear();

        [GeneratedRegex(@"^[0-9]{4}[-/.\s][0-9]{1,2}[-/.\s][0-9]{1,2}|^(19|20)[0-9]{6}$", Options)]
        public static partial Regex YearFirst();

        [GeneratedRegex(@"^[0-9]{1,2}[-/.\s]+[0-9]{1,2}[-/.\s]+([0-9]{2}|[0-9]{4})\b", Options)]
        public static partial Regex YearLast();

        [GeneratedRegex(@"^[0-9]{4}[-/.][0-9]{1,2}$|^[0-9]{1,2}[-/.][0-9]{4}$", Options)]
        public static partial Regex MonthAndYear();

        [GeneratedRegex(@"^(19|20)[0-9]{2}$", Options)]
        public static partial Regex Year();

        [GeneratedRegex(@"^[0-9]{5}([.,][0-9]+)?$", Options)]
        public static partial Regex Serial();

        [GeneratedRegex(@"^[0-9]{1,2}:[0-9]{2}", Options)]
        public static partial Regex Clock();
    }
}
