using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace TastingKit.Reading;

/// <summary>A date with two numbers before its year.</summary>
/// <param name="First">The first number.</param>
/// <param name="Second">The second.</param>
/// <param name="Year">The year.</param>
/// <param name="Time">What follows.</param>
internal readonly record struct SplitDate(int First, int Second, int Year, string Time);

/// <summary>
/// Reads dates that are not written as ISO has it and still leave no doubt: the year first, the month as an English word, or day and month
/// before the year where the whole column shows which is which. A year is four digits: two may be a day.
/// </summary>
internal static partial class OtherDates
{
    private const int Longest = 64;
    private const RegexOptions Options = RegexOptions.IgnoreCase | RegexOptions.CultureInvariant | RegexOptions.ExplicitCapture;

    private static readonly string[] Months =
        ["january", "february", "march", "april", "may", "june", "july", "august", "september", "october", "november", "december"];

    /// <summary>Reads a date that is not ISO; <see langword="null"/> where it is in none of the forms.</summary>
    /// <param name="cell">The cell.</param>
    /// <param name="expected">What would be right.</param>
    public static Judged<Moment>? Judge(Cell cell, string expected)
    {
        if (cell.Utf8.Length > Longest)
            return null;
        var text = Encoding.UTF8.GetString(cell.Utf8);
        // A look at a few letters spares a column of dates two expressions a cell: the year first needs four digits, a month's name a letter.
        if (text.Length > 3 && char.IsAsciiDigit(text[2]) && char.IsAsciiDigit(text[3]) && YearFirst().Match(text) is { Success: true } yearFirst)
            return Made(Number(yearFirst, "y"), Number(yearFirst, "m"), Number(yearFirst, "d"), yearFirst.Groups["t"].Value, "year, month, day", expected);
        if (text.AsSpan().ContainsAnyInRange('A', char.MaxValue) && NamedMonth().Match(text) is { Success: true } named && MonthOf(named.Groups["m"].Value) is { } month)
            return Made(Number(named, "y"), month, Number(named, "d"), named.Groups["t"].Value, "day, month and year, the month being a word", expected);
        if (Split(cell.Utf8) is not { } date)
            return null;
        var column = cell.Column.Dates;
        if (date.First == date.Second)
            return Made(date.Year, date.First, date.Second, date.Time, "day and month, which are the same number,", expected);
        return column.Order switch
        {
            DayMonthOrder.DayFirst => Made(date.Year, date.Second, date.First, date.Time, Shown("day, month, year", column), expected),
            DayMonthOrder.MonthFirst => Made(date.Year, date.First, date.Second, date.Time, Shown("month, day, year", column), expected),
            DayMonthOrder.Mixed => new CellFault(Rule.DateNotIso,
                FormattableString.Invariant($"Day and month stand before the year, and the column has them in both orders: {column.Evidence} on line {column.Line}."), expected),
            _ => new CellFault(Rule.DateNotIso,
                "Day and month stand before the year, and no date of the column shows which is which.", expected),
        };
    }

    /// <summary>Takes a date apart that has two numbers before its year.</summary>
    public static SplitDate? Split(ReadOnlySpan<byte> utf8)
    {
        // Nearly all cells of a column are ISO, and this is asked of every one of them.
        if (utf8.Length is < 8 or > Longest || utf8[0] is < (byte)'0' or > (byte)'9' || utf8[1..3].IndexOfAny("-/."u8) < 0)
            return null;
        var match = YearLast().Match(Encoding.UTF8.GetString(utf8));
        return match.Success
            ? new SplitDate(Number(match, "a"), Number(match, "b"), Number(match, "y"), match.Groups["t"].Value)
            : null;
    }

    private static string Shown(string form, ColumnDates column) =>
        FormattableString.Invariant($"{form}, as {column.Evidence} on line {column.Line} can only be,");

    private static Judged<Moment> Made(int year, int month, int day, string time, string form, string expected)
    {
        if (!DateText.IsDay(year, month, day))
            return DateText.NoSuchDay(expected);
        var date = new DateTime(year, month, day);
        var moment = new Moment(date, false, false);
        if (time.Length > 0)
        {
            if (Clock().Match(time) is not { Success: true } clock || TimeOf(clock) is not { } timeOfDay)
                return new CellFault(Rule.DateNotIso, "The day can be read, what follows it is no time of day.", expected);
            moment = new Moment(date + timeOfDay, true, clock.Groups["z"].Value is "Z" or "z");
        }

        return Judged<Moment>.Noted(moment, new CellFault(Rule.DateReadAs,
            $"The date is not written as ISO has it; {form} was read, here and wherever the column has that form.", expected));
    }

    private static TimeSpan? TimeOf(Match clock)
    {
        var (hours, minutes, seconds) = (Number(clock, "h"), Number(clock, "m"), clock.Groups["s"].Success ? Number(clock, "s") : 0);
        var half = clock.Groups["half"].Value;
        if (half.Length > 0)
        {
            // 14:45 PM says two things at once.
            if (hours is < 1 or > 12)
                return null;
            hours = hours % 12 + (half[0] is 'p' or 'P' ? 12 : 0);
        }

        return hours <= 23 && minutes <= 59 && seconds <= 59 ? new TimeSpan(hours, minutes, seconds) : null;
    }

    private static int? MonthOf(string word)
    {
        if (word.Length < 3)
            return null;
        for (var i = 0; i < Months.Length; i++)
        {
            // An abbreviation has three letters; sept is met too.
            if (Months[i].Equals(word, StringComparison.OrdinalIgnoreCase)
                || ((word.Length == 3 || (i == 8 && word.Length == 4)) && Months[i].StartsWith(word, StringComparison.OrdinalIgnoreCase)))
                return i + 1;
        }

        return null;
    }

    private static int Number(Match match, string group) => int.Parse(match.Groups[group].ValueSpan, NumberStyles.None, CultureInfo.InvariantCulture);

    [GeneratedRegex(@"^(?<y>[0-9]{4})(?<p>[-/.])(?<m>[0-9]{1,2})\k<p>(?<d>[0-9]{1,2})(?<t>[T ].*)?$|^(?<y>(19|20)[0-9]{2})(?<m>[0-9]{2})(?<d>[0-9]{2})$", Options)]
    private static partial Regex YearFirst();

    [GeneratedRegex(@"^(?<m>[a-z]{3,9})\.?\s*(?<d>[0-9]{1,2})(st|nd|rd|th)?\s*,?\s*(?<y>[0-9]{4})(?<t>[T ,].*)?$|^(?<d>[0-9]{1,2})(st|nd|rd|th|\.)?[\s-]*(?<m>[a-z]{3,9})\.?[\s,-]*(?<y>[0-9]{4})(?<t>[T ,].*)?$", Options)]
    private static partial Regex NamedMonth();

    [GeneratedRegex(@"^(?<a>[0-9]{1,2})(?<p>[-/.])\s?(?<b>[0-9]{1,2})\k<p>\s?(?<y>[0-9]{4})(?<t>[T ,].*)?$", Options)]
    private static partial Regex YearLast();

    [GeneratedRegex(@"^[T ,]\s*(?<h>[0-9]{1,2}):(?<m>[0-9]{2})(:(?<s>[0-9]{2})(\.[0-9]{1,7})?)?\s*(?<half>[ap]\.?m\.?)?\s*(?<z>Z|[+-][0-9]{2}:?[0-9]{2})?$", Options)]
    private static partial Regex Clock();
}
