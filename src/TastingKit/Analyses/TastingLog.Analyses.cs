namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>What was logged: cups, bags, coffees by month, and the notes that kept coming back.</summary>
    public LoggedYear Logged() => LoggedAnalysis.Of(this);

    /// <summary>The raw course of the score over the calendar. It is not by itself an answer about inflation.</summary>
    public CalendarCourse CalendarCourse() => CalendarAnalysis.Of(this);
}
