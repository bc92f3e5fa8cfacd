namespace TastingKit;

/// <summary>The raw course of the score over the calendar: what was written down, not yet an answer about inflation.</summary>
public sealed class CalendarCourse : TastingResult
{
    internal CalendarCourse(
        string periodName, IReadOnlyList<CalendarPeriod> periods, CalendarTrend? trend, IReadOnlyList<EquipmentChange> changes, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        PeriodName = periodName;
        Periods = periods;
        Trend = trend;
        EquipmentChanges = changes;
        Scale = scale;
    }

    /// <summary>What the calendar is cut into: month, quarter or year, by the length of the log.</summary>
    public string PeriodName { get; }

    /// <summary>The periods that have scored cups, in order.</summary>
    public IReadOnlyList<CalendarPeriod> Periods { get; }

    /// <summary>The straight line through the raw scores; <see langword="null"/> with fewer than six bags or ninety days.</summary>
    public CalendarTrend? Trend { get; }

    /// <summary>Changes of water or equipment within the log's days, since a step across all bags looks like inflation.</summary>
    public IReadOnlyList<EquipmentChange> EquipmentChanges { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "How did the scores run over the calendar?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var cups = NumberText.Count(Computation.CupsUsed, "cup");
        var course = Trend is not { } trend
            ? $"Raw scores by {PeriodName}: too few bags, or too short a time, to draw a line through them ({cups})."
            : trend.Low > 0
                ? $"Raw scores rose by {NumberText.Fixed(trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups})."
                : trend.High < 0
                    ? $"Raw scores fell by {NumberText.Fixed(-trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups})."
                    : $"Raw scores show no steady rise or fall: {NumberText.Difference(trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups}).";
        var bend = Trend?.Bend switch
        {
            Bend.Hollow => "The course is bent: it stands lower in the middle than at its ends, so one line does not describe it.",
            Bend.Arched => "The course is bent: it stands higher in the middle than at its ends, so one line does not describe it.",
            _ => null,
        };
        return new[]
        {
            course,
            bend,
            "This is not by itself inflation: other coffees, other brews and other days of rest move a raw course as well as a softer scale does.",
        }.OfType<string>().ToArray();
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Raw mean score by {PeriodName}",
        [
            new TableColumn("what", PeriodName, ColumnKind.Text),
            new TableColumn("estimate", "Mean score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("bags", "Bags", ColumnKind.Count),
        ],
        [.. Periods.Select(p => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(p.Label),
                new TableCell.Number(p.Mean),
                p.Interval is { } interval ? new TableCell.Interval(interval.Low, interval.High) : new TableCell.Missing("under 3 bags"),
                new TableCell.Count(p.Cups),
                new TableCell.Count(p.Bags),
            ])]);
}

/// <summary>The straight line through the raw scores over the calendar.</summary>
/// <param name="PointsAYear">Its slope, in points of the log's scale a year of 365.25 days.</param>
/// <param name="Low">Lower bound of its 95 % interval, cups clustered in bags.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
/// <param name="Bend">Whether a parabola tells the course from a line.</param>
public sealed record CalendarTrend(double PointsAYear, double Low, double High, Bend Bend);

/// <summary>How a course departs from a straight line, by the 95 % interval of a parabola's curvature.</summary>
public enum Bend
{
    /// <summary>The log does not tell it from a line.</summary>
    None,

    /// <summary>Lower in the middle than at its ends.</summary>
    Hollow,

    /// <summary>Higher in the middle than at its ends.</summary>
    Arched,
}
