namespace TastingKit;

/// <summary>
/// How the steps of a scale were used over the year. Only a movement of steps against one another can be told; one that all steps share can't be
/// told from other coffee.
/// </summary>
public sealed class ScaleUse : TastingResult
{
    internal ScaleUse(
        TastingAttribute attribute, Scale scale, string periodName, IReadOnlyList<ScaleQuarter> quarters, IReadOnlyList<StepGroup> groups, IReadOnlyList<double> neverUsed,
        StepMovement movement, TopOfScale? top, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        Scale = scale;
        PeriodName = periodName;
        Quarters = quarters;
        Groups = groups;
        NeverUsed = neverUsed;
        Movement = movement;
        Top = top;
    }

    /// <summary>What was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>What the log is cut into: <c>quarter</c>, or <c>year</c> in a log of more than twelve quarters.</summary>
    public string PeriodName { get; }

    /// <summary>The quarters that have scored cups, in order; years in a log of more than twelve quarters.</summary>
    public IReadOnlyList<ScaleQuarter> Quarters { get; }

    /// <summary>The steps as the thresholds have them, those hardly used taken together, the lowest first.</summary>
    public IReadOnlyList<StepGroup> Groups { get; }

    /// <summary>Steps of the scale that no cup was given, in order.</summary>
    public IReadOnlyList<double> NeverUsed { get; }

    /// <summary>Whether steps moved against one another.</summary>
    public StepMovement Movement { get; }

    /// <summary>What the end of the scale costs at the top; <see langword="null"/> on a just-right scale, or where the log has no model of it.</summary>
    public TopOfScale? Top { get; }

    /// <inheritdoc/>
    public override string Question => $"How was the scale of {MethodWords.Named(Attribute)} used?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => ScaleUseWords.Of(this);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Steps of {MethodWords.Named(Attribute)} by {PeriodName}",
        [
            new TableColumn("what", "Step", ColumnKind.Text),
            PeriodColumn,
            new TableColumn("estimate", "Part of its cups", ColumnKind.Share),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, "share"),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("of_cups", "Of cups", ColumnKind.Count),
            new TableColumn("bags", "Bags", ColumnKind.Count),
        ],
        [.. Quarters.SelectMany(quarter => quarter.Shares.Select(share => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(share.Steps.Label),
                new TableCell.Text(quarter.Label),
                new TableCell.Share(share.Share),
                share.Interval is { } interval ? new TableCell.Interval(interval.Low, interval.High) : new TableCell.Missing("under 3 bags"),
                new TableCell.Count(share.Cups),
                new TableCell.Count(quarter.Cups),
                new TableCell.Count(quarter.Bags),
            ]))]);

    /// <summary>The movement of the steps against one another as a table: no rows where the log does not tell it.</summary>
    public ResultTable MovementTable() => new(
        $"Where steps began, against the other steps and over all {PeriodName}s",
        [
            new TableColumn("what", "Step", ColumnKind.Text),
            PeriodColumn,
            new TableColumn("estimate", "Began higher by", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
        ],
        Movement.Match<IReadOnlyList<IReadOnlyList<TableCell>>>(
            told =>
            [
                .. told.Thresholds.Select(move => Row($"{ScaleText.Step(move.Step)} and above", move.Quarter, move.Estimate, move.Low, move.High)),
                .. told.Widths.Select(move => Row("width from lowest to highest", move.Quarter, move.Estimate, move.Low, move.High)),
            ],
            _ => []));

    private TableColumn PeriodColumn => new("quarter", PeriodName == "quarter" ? "Quarter" : "Year", ColumnKind.Text);

    private static IReadOnlyList<TableCell> Row(string what, string quarter, double estimate, double low, double high) =>
        [new TableCell.Text(what), new TableCell.Text(quarter), new TableCell.Number(estimate), new TableCell.Interval(low, high)];
}
