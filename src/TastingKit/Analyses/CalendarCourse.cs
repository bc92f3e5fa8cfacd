namespace TastingKit;

/// <summary>The raw course of the score or an attribute over the calendar: what was written down, not yet an answer about inflation.</summary>
public sealed class CalendarCourse : TastingResult
{
    internal CalendarCourse(
        TastingAttribute attribute, string periodName, IReadOnlyList<CalendarPeriod> periods, CalendarTrend? trend, BagOrder? order, IReadOnlyList<EquipmentChange> changes, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        PeriodName = periodName;
        Periods = periods;
        Trend = trend;
        Order = order;
        EquipmentChanges = changes;
        Scale = scale;
    }

    /// <summary>What was followed: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>What the calendar is cut into: month, quarter or year, by the length of the log.</summary>
    public string PeriodName { get; }

    /// <summary>The periods that have scored cups, in order.</summary>
    public IReadOnlyList<CalendarPeriod> Periods { get; }

    /// <summary>The straight line through the raw values; <see langword="null"/> with fewer than six bags or ninety days.</summary>
    public CalendarTrend? Trend { get; }

    /// <summary>Tests by the order of the bags alone, of a rise or fall and of one step; <see langword="null"/> with fewer than six bags, or all of one day.</summary>
    public BagOrder? Order { get; }

    /// <summary>Changes of water or equipment within the log's days, since a step across all bags looks like inflation.</summary>
    public IReadOnlyList<EquipmentChange> EquipmentChanges { get; }

    /// <summary>The scale of what was followed.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"How did {(IsScore ? "the scores" : MethodWords.Named(Attribute))} run over the calendar?";

    internal bool IsScore => Attribute.Equals(TastingAttribute.Score);

    private string Raw => IsScore ? "Raw scores" : $"Raw {MethodWords.Named(Attribute)}";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var cups = NumberText.Count(Computation.CupsUsed, "cup");
        var course = Trend is not { } trend
            ? $"{Raw} by {PeriodName}: too few bags, or too short a time, to draw a line through them ({cups})."
            : trend.Low > 0
                ? $"{Raw} rose by {NumberText.Fixed(trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups})."
                : trend.High < 0
                    ? $"{Raw} fell by {NumberText.Fixed(-trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups})."
                    : $"{Raw} {(IsScore ? "show" : "shows")} no steady rise or fall: {NumberText.Difference(trend.PointsAYear)} points a year (95 % interval {NumberText.DifferenceInterval(trend.Low, trend.High)}; {cups}).";
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
            Order is { } order ? InOrder(order) : null,
            Order is { } tested ? OfStep(tested) : null,
            "This is not by itself inflation: other coffees, other brews and other days of rest move a raw course as well as a softer scale does.",
        }.OfType<string>().ToArray();
    }

    private static string InOrder(BagOrder order)
    {
        var told = order.P > BagOrder.Level ? "neither rise nor fall with the days for certain" : order.Tau > 0 ? "rise with the days" : "fall with the days";
        return $"By their order alone, bag means {told} (Kendall\u2019s tau {NumberText.Difference(order.Tau)}, p {NumberText.P(order.P)}, {order.PermutationsInWords}).";
    }

    private static string OfStep(BagOrder order)
    {
        var step = order.Step;
        if (!step.IsTold)
            return $"No single step in the bag means is told from chance (p {NumberText.P(step.P)}, the same permutations).";
        var near = step.Near.Count == 0
            ? "No listed change of water or equipment lies near it."
            : $"Near it lies a change of {ScoreCautions.Said(step.Near)}: a step across all bags mimics inflation.";
        return $"If it was one step, it came between {NumberText.Day(step.After)} and {NumberText.Day(step.By)}: bag means of {NumberText.Fixed(step.MeanBefore)} before and {NumberText.Fixed(step.MeanAfter)} after (p {NumberText.P(step.P)}, the same permutations). {near}";
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Raw mean {(IsScore ? "score" : MethodWords.Named(Attribute))} by {PeriodName}",
        [
            new TableColumn("what", PeriodName, ColumnKind.Text),
            new TableColumn("estimate", IsScore ? "Mean score" : "Mean", ColumnKind.Number, ScaleText.Unit(Scale)),
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

/// <summary>The straight line through the raw values over the calendar.</summary>
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
