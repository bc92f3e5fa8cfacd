using System.Globalization;

namespace TastingKit.Reading;

/// <summary>In which order a column writes day and month before the year, as far as its own dates tell.</summary>
internal enum DayMonthOrder
{
    /// <summary>No date has a number over 12 in either place: both orders fit all of them.</summary>
    Undecided,

    /// <summary>Day before month.</summary>
    DayFirst,

    /// <summary>Month before day.</summary>
    MonthFirst,

    /// <summary>Some dates are possible only with the day first, others only with the month first.</summary>
    Mixed,
}

/// <summary>What the dates of a whole column tell of the order of day and month.</summary>
/// <param name="Order">The order.</param>
/// <param name="Evidence">The first date that shows it, as written; empty where none does.</param>
/// <param name="Line">Its line.</param>
internal sealed record ColumnDates(DayMonthOrder Order, string Evidence, int Line)
{
    /// <summary>Passes over a column.</summary>
    public static ColumnDates Of(HeldColumn column)
    {
        (string Text, int Line)? dayFirst = null, monthFirst = null;
        column.Visit((text, line) =>
        {
            if (OtherDates.Split(text) is not { } date || date.First is < 1 or > 31 || date.Second is < 1 or > 31)
                return;
            if (date is { First: > 12, Second: <= 12 })
                dayFirst ??= (System.Text.Encoding.UTF8.GetString(text), line);
            else if (date is { First: <= 12, Second: > 12 })
                monthFirst ??= (System.Text.Encoding.UTF8.GetString(text), line);
        });
        return (dayFirst, monthFirst) switch
        {
            ({ } day, null) => new ColumnDates(DayMonthOrder.DayFirst, day.Text, day.Line),
            (null, { } month) => new ColumnDates(DayMonthOrder.MonthFirst, month.Text, month.Line),
            ({ } day, { } month) => new ColumnDates(DayMonthOrder.Mixed,
                string.Create(CultureInfo.InvariantCulture, $"{day.Text} on line {day.Line} and {month.Text}"), month.Line),
            _ => new ColumnDates(DayMonthOrder.Undecided, "", 0),
        };
    }
}
