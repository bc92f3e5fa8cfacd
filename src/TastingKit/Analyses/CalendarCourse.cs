namespace TastingKit;

/// <summary>The raw course of the score over the calendar: what was written down, not yet an answer about inflation.</summary>
public sealed class CalendarCourse : TastingResult
{
    internal CalendarCourse(
        string periodName, IReadOnlyList<CalendarPeriod> periods, CalendarChange? change, IReadOnlyList<EquipmentChange> changes, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
    {
        PeriodName = periodName;
        Periods = periods;
        Change = change;
        EquipmentChanges = changes;
        Scale = scale;
        Cautions = cautions;
        Computation = computation;
        Support = support;
        Summary = Sentences();
        Table = Tabulate();
    }

    /// <summary>What the calendar is cut into: month, quarter or year, by the length of the log.</summary>
    public string PeriodName { get; }

    /// <summary>The periods that have scored cups, in order.</summary>
    public IReadOnlyList<CalendarPeriod> Periods { get; }

    /// <summary>The last third of the log's days against the first; <see langword="null"/> where either has cups of fewer than two bags.</summary>
    public CalendarChange? Change { get; }

    /// <summary>Changes of water or equipment within the log's days, since a step across all bags looks like inflation.</summary>
    public IReadOnlyList<EquipmentChange> EquipmentChanges { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "How did the scores run over the calendar?";

    /// <inheritdoc/>
    public override string Finding => Summary[0];

    /// <inheritdoc/>
    public override IReadOnlyList<string> Summary { get; }

    /// <inheritdoc/>
    public override IReadOnlyList<Caution> Cautions { get; }

    /// <inheritdoc/>
    public override Computation Computation { get; }

    /// <inheritdoc/>
    public override Support Support { get; }

    /// <inheritdoc/>
    public override ResultTable Table { get; }

    private string[] Sentences() => Support.Match(
        _ =>
        {
            var cups = NumberText.Count(Computation.CupsUsed, "cup");
            var course = Change is not { } change
                ? $"Raw scores by {PeriodName}: too few bags at either end of the log to hold its end against its start ({cups})."
                : change.Low > 0
                    ? $"Raw scores rose: the last third of the log stands {NumberText.Fixed(change.Estimate)} points above the first (95 % interval {NumberText.DifferenceInterval(change.Low, change.High)}; {cups})."
                    : change.High < 0
                        ? $"Raw scores fell: the last third of the log stands {NumberText.Fixed(-change.Estimate)} points below the first (95 % interval {NumberText.DifferenceInterval(change.Low, change.High)}; {cups})."
                        : $"Raw scores show no clear rise or fall: last third of the log against the first {NumberText.Difference(change.Estimate)} points (95 % interval {NumberText.DifferenceInterval(change.Low, change.High)}; {cups}).";
            return new[]
            {
                course,
                "This is not by itself inflation: other coffees, other brews and other days of rest move a raw course as well as a softer scale does.",
            };
        },
        no => [no.Reason, no.WhatToLog]);

    private ResultTable Tabulate() => new(
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
                p.Interval is { } interval ? new TableCell.Interval(interval.Low, interval.High) : new TableCell.Missing("one bag"),
                new TableCell.Count(p.Cups),
                new TableCell.Count(p.Bags),
            ])]);
}

/// <summary>The mean of the last third of a log's days less that of the first.</summary>
/// <param name="Estimate">The difference in points of the log's scale.</param>
/// <param name="Low">Lower bound of its 95 % interval, cups clustered in bags.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
public sealed record CalendarChange(double Estimate, double Low, double High);
