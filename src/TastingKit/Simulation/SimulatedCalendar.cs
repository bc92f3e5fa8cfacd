using TastingKit.Statistics;

namespace TastingKit;

/// <summary>The days of a year on which anything is tasted: gaps where the taster is away, clumps at weekends.</summary>
internal sealed class SimulatedCalendar
{
    private readonly int[] _tastingDays;
    private readonly int[] _firstFrom;

    public SimulatedCalendar(SimulationSettings settings, RandomStream random)
    {
        FirstDay = new DateOnly(settings.Year, 1, 1);
        DayCount = DateTime.IsLeapYear(settings.Year) ? 366 : 365;
        MidYear = new DateOnly(settings.Year, 7, 2).DayNumber - FirstDay.DayNumber;

        Span<bool> away = stackalloc bool[DayCount];
        for (var i = 0; i < settings.Schedule.Absences; i++)
        {
            var length = Chance.Between(5, 16, random);
            var from = random.NextInt32(DayCount - length);
            away.Slice(from, length).Fill(true);
        }

        var weekend = Math.Min(0.95, 2 * settings.Schedule.WeekdayShare);
        var days = new List<int>(DayCount);
        for (var day = 0; day < DayCount; day++)
        {
            var share = FirstDay.AddDays(day).DayOfWeek is DayOfWeek.Saturday or DayOfWeek.Sunday ? weekend : settings.Schedule.WeekdayShare;
            if (random.NextDouble() < share && !away[day])
                days.Add(day);
        }

        // A year on which nothing at all would be tasted still has its middle.
        if (days.Count == 0)
            days.Add(MidYear);

        _tastingDays = [.. days];
        _firstFrom = new int[DayCount + 1];
        for (int day = 0, next = 0; day <= DayCount; day++)
        {
            while (next < _tastingDays.Length && _tastingDays[next] < day)
                next++;
            _firstFrom[day] = next;
        }
    }

    /// <summary>1 January; days are counted from it, from 0.</summary>
    public DateOnly FirstDay { get; }

    public int DayCount { get; }

    /// <summary>The day from which drift and trends are counted.</summary>
    public int MidYear { get; }

    /// <summary>A tasting day drawn evenly from those between two days, both included; the nearest later one, or else the last, where there is none.</summary>
    public int Draw(int from, int to, RandomStream random)
    {
        var share = random.NextDouble();
        var first = _firstFrom[Math.Clamp(from, 0, DayCount)];
        var end = _firstFrom[Math.Clamp(to + 1, 0, DayCount)];
        var index = end > first ? first + (int)(share * (end - first)) : first;
        return _tastingDays[Math.Min(index, _tastingDays.Length - 1)];
    }
}
