namespace TastingKit;

/// <summary>What a step more of each covariate of the brew (ratio, temperature, grind) does, within coffees.</summary>
public sealed class MethodSlopes : TastingResult
{
    internal MethodSlopes(
        TastingAttribute attribute, IReadOnlyList<MethodSlope> slopes, IReadOnlyList<UnansweredCovariate> unanswered, double margin, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        Slopes = slopes;
        Unanswered = unanswered;
        Margin = margin;
        Scale = scale;
    }

    /// <summary>What was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>The covariates that the log can tell something of, in the order asked.</summary>
    public IReadOnlyList<MethodSlope> Slopes { get; }

    /// <summary>The covariates that it can't, and why.</summary>
    public IReadOnlyList<UnansweredCovariate> Unanswered { get; }

    /// <summary>The difference of one step, in points of the scale, from which one matters; fixed before looking.</summary>
    public double Margin { get; }

    /// <summary>The scale of what was asked about.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"What do ratio, temperature and grind do to {MethodWords.Named(Attribute)}?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() =>
    [
        .. Slopes.OrderBy(s => s.Answer.Direction == Direction.Undecided).Select(Say),
        $"Against a margin of {NumberText.Fixed(Margin)} points a step, fixed before looking.",
        .. Unanswered.Select(u => u.Reason),
    ];

    private string Say(MethodSlope slope)
    {
        var change = $"{MethodWords.SentenceCase(MethodWords.Named(Attribute))} by {NumberText.Difference(slope.Answer.Estimate)} points for each {slope.Covariate.StepInWords} more {slope.Covariate.Name}";
        var bend = slope.Shape.Match(
            _ => "",
            curved => $" It is not the same everywhere: {NumberText.Difference(curved.AtLowest)} at the lower end and {NumberText.Difference(curved.AtHighest)} at the upper.",
            _ => "");
        var further = slope.Further is FurtherCups.NotNeeded
            ? ""
            : $" To tell: {MethodWords.Say(slope.Further, Margin, $"half at {Value(slope.Lowest)} and half at {Value(slope.Highest)}")}";
        return $"{change} ({MethodWords.Interval(slope.Answer.Low, slope.Answer.High, 0.95)}): {MethodWords.Verdict(slope.Answer, Margin)}; from {Value(slope.Lowest)} to {Value(slope.Highest)}, {NumberText.Count(slope.Cups, "cup")}, {NumberText.Count(slope.Coffees, "coffee")}.{bend}{further}";
    }

    private static string Value(double value) => NumberText.Fixed(value, value == Math.Round(value) ? 0 : 1);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Difference of {MethodWords.Named(Attribute)} by a step more, within coffees",
        [
            new TableColumn("what", "A step more", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("direction", "Direction", ColumnKind.Text),
            new TableColumn("size_interval", "90 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("size", "Size", ColumnKind.Text),
            new TableColumn("bend", "Bend", ColumnKind.Text),
            new TableColumn("range", "Values brewed, middle 90 %", ColumnKind.Interval),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("coffees", "Coffees with two values", ColumnKind.Count),
        ],
        [.. Slopes.Select(s => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text($"{s.Covariate.Name}, {s.Covariate.StepInWords}"),
                new TableCell.Number(s.Answer.Estimate),
                new TableCell.Interval(s.Answer.Low, s.Answer.High),
                new TableCell.Text(MethodWords.Word(s.Answer.Direction)),
                new TableCell.Interval(s.Answer.SizeLow, s.Answer.SizeHigh),
                new TableCell.Text(MethodWords.Word(s.Answer.Size)),
                new TableCell.Text(s.Shape.Match(_ => "none seen", _ => "bent", _ => "too few values")),
                new TableCell.Interval(s.Lowest, s.Highest),
                new TableCell.Count(s.Cups),
                new TableCell.Count(s.Coffees),
            ])]);
}
