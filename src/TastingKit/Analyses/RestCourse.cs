namespace TastingKit;

/// <summary>The course of the score over effective rest, within bags.</summary>
public sealed class RestCourse : TastingResult
{
    internal RestCourse(
        IReadOnlyList<RestPoint> points, IReadOnlyList<RestCups> cups, RestShape shape, StandardBrew standardBrew, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Points = points;
        Cups = cups;
        Shape = shape;
        StandardBrew = standardBrew;
        Scale = scale;
    }

    /// <summary>The course day by day, over the days on which enough cups were tasted.</summary>
    public IReadOnlyList<RestPoint> Points { get; }

    /// <summary>The cups it rests on, by day, as they are.</summary>
    public IReadOnlyList<RestCups> Cups { get; }

    /// <summary>What the log says of its shape.</summary>
    public RestShape Shape { get; }

    /// <summary>The brew under which the course is drawn; its days of rest are those of <see cref="Points"/>.</summary>
    public StandardBrew StandardBrew { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "How does the score run over the days of rest?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => new[]
    {
        Shape.Match(
            peak => $"Scores peak around day {peak.Day} of rest (95 % interval day {peak.Low} to {peak.High}; {Computation.CupsUsed} cups).",
            rising => $"Scores are still rising on the last days tasted, day {Points[^1].RestDays} of rest ({Computation.CupsUsed} cups).",
            falling => $"Scores fall from the first days tasted, day {Points[0].RestDays} of rest ({Computation.CupsUsed} cups).",
            undetermined => $"The log does not show when coffees peak: {undetermined.Reason} ({Computation.CupsUsed} cups)."),
        $"From day {Points[0].RestDays} to day {Points[^1].RestDays} the expected score lies between {NumberText.Fixed(Points.Min(p => p.Estimate))} and {NumberText.Fixed(Points.Max(p => p.Estimate))}.",
    };

    /// <inheritdoc/>
    protected override ResultTable Tabulate()
    {
        var cupsByDay = Cups.ToDictionary(c => c.RestDays, c => c.Cups);
        return new ResultTable(
            "Expected score by day of rest",
            [
                new TableColumn("rest_days", "Rest", ColumnKind.Count, "days"),
                new TableColumn("estimate", "Expected score", ColumnKind.Number, ScaleText.Unit(Scale)),
                new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
                new TableColumn("cups", "Cups that day", ColumnKind.Count),
            ],
            [.. Points.Select(p => (IReadOnlyList<TableCell>)
                [
                    new TableCell.Count(p.RestDays),
                    new TableCell.Number(p.Estimate),
                    new TableCell.Interval(p.Low, p.High),
                    new TableCell.Count(cupsByDay.GetValueOrDefault(p.RestDays)),
                ])]);
    }
}
