namespace TastingKit;

/// <summary>A stretch of the calendar, both days included.</summary>
public sealed record DaySpan
{
    /// <summary>Makes a stretch.</summary>
    /// <param name="from">Its first day.</param>
    /// <param name="to">Its last day, not before the first.</param>
    /// <exception cref="ArgumentException">The last day lies before the first.</exception>
    public DaySpan(DateOnly from, DateOnly to)
    {
        if (to < from)
            throw new ArgumentException($"A stretch of days ends on or after the day it begins; found {NumberText.Day(from)} to {NumberText.Day(to)}.", nameof(to));
        (From, To) = (from, to);
    }

    /// <summary>Its first day.</summary>
    public DateOnly From { get; }

    /// <summary>Its last day.</summary>
    public DateOnly To { get; }

    /// <summary>Whether a day lies in it.</summary>
    /// <param name="day">The day.</param>
    public bool Holds(DateOnly day) => day >= From && day <= To;

    /// <summary>Both days.</summary>
    public override string ToString() => $"{NumberText.Day(From)} to {NumberText.Day(To)}";
}
