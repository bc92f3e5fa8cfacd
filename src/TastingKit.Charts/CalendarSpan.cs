using System.Globalization;

namespace TastingKit.Charts;

/// <summary>
/// The months, quarters or years of a course. What is counted or averaged over one belongs to all of its days, so it is drawn
/// at their middle, and labelled there.
/// </summary>
internal sealed class CalendarSpan
{
    private const int MostLabels = 6;

    private readonly IReadOnlyList<DateOnly> _firstDays;
    private readonly int _months;

    /// <param name="firstDays">The first day of each period, in order; at least one.</param>
    /// <param name="periodName">month, quarter or year.</param>
    public CalendarSpan(IReadOnlyList<DateOnly> firstDays, string periodName)
    {
        _firstDays = firstDays;
        _months = periodName switch
        {
            "month" => 1,
            "quarter" => 3,
            "year" => 12,
            _ => throw new ArgumentException($"A course is cut into months, quarters or years; found '{periodName}'.", nameof(periodName)),
        };
        Middles = [.. firstDays.Select(day => day.AddDays(Days(day) / 2))];
        Milliseconds = [.. firstDays.Select(day => 86_400_000.0 * Days(day))];
    }

    /// <summary>The middle day of each period.</summary>
    public IReadOnlyList<DateOnly> Middles { get; }

    /// <summary>The length of each period as plotly.js counts it on an axis of dates.</summary>
    public IReadOnlyList<double> Milliseconds { get; }

    /// <summary>The middle of the whole.</summary>
    public DateOnly Centre => _firstDays[0].AddDays((After.DayNumber - _firstDays[0].DayNumber) / 2);

    /// <summary>The day after the last.</summary>
    private DateOnly After => _firstDays[^1].AddMonths(_months);

    /// <summary>How far two days lie apart, as a share of the whole.</summary>
    public double ShareBetween(DateOnly earlier, DateOnly later) =>
        (later.DayNumber - earlier.DayNumber) / (double)(After.DayNumber - _firstDays[0].DayNumber);

    /// <summary>The periods as an axis: labelled at the middles, as many as a phone has room for, the year said once.</summary>
    public DynamicObj.DynamicObj Axis()
    {
        // A lone period would otherwise fill the whole width.
        var room = _firstDays.Count < 3 ? _months : 0;
        var labelled = Labelled();
        var texts = new List<string>();
        foreach (var day in labelled)
        {
            var isNewYear = texts.Count == 0 || day.Year != labelled[texts.Count - 1].Year;
            texts.Add(_months switch
            {
                1 => $"{day.ToString("MMM", CultureInfo.InvariantCulture)}{Year(day, isNewYear)}",
                3 => $"Q{((day.Month - 1) / 3) + 1}{Year(day, isNewYear)}",
                _ => day.ToString("yyyy", CultureInfo.InvariantCulture),
            });
        }

        return FigurePart.Of(
            ("type", "date"), ("range", new[] { _firstDays[0].AddMonths(-room).AddDays(-1), After.AddMonths(room).AddDays(1) }), ("fixedrange", true), ("showgrid", false),
            ("tickvals", labelled.Select(day => day.AddDays(Days(day) / 2)).ToArray()), ("ticktext", texts), ("tickangle", 0));
    }

    private DateOnly[] Labelled()
    {
        var from = _firstDays[0];
        var periods = ((_firstDays[^1].Year - from.Year) * 12 + _firstDays[^1].Month - from.Month) / _months + 1;
        int[] steps = _months switch
        {
            1 => [1, 2, 3, 6, 12, 24, 60, 120],
            3 => [1, 2, 4, 8, 20, 40],
            _ => [1, 2, 5, 10, 20, 50],
        };
        var step = steps.Where(each => (periods + each - 1) / each <= MostLabels).DefaultIfEmpty((periods + MostLabels - 1) / MostLabels).First();
        return [.. Enumerable.Range(0, (periods + step - 1) / step).Select(i => from.AddMonths(i * step * _months))];
    }

    private static string Year(DateOnly day, bool isNew) => isNew ? $"{ChartText.LineBreak}{day.ToString("yyyy", CultureInfo.InvariantCulture)}" : "";

    private int Days(DateOnly from) => from.AddMonths(_months).DayNumber - from.DayNumber;
}
