namespace TastingKit;

/// <summary>For which coffees, or which processes, a part of the method matters: each one's own difference, partially pooled.</summary>
public sealed class MethodDeviations : TastingResult
{
    internal MethodDeviations(
        Factor factor, TastingAttribute attribute, Factor by, IReadOnlyList<MethodDeviation> deviations, DeviationSpread? spread, double margin, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Factor = factor;
        Attribute = attribute;
        By = by;
        Deviations = deviations;
        Spread = spread;
        Margin = margin;
        Scale = scale;
    }

    /// <summary>The part of the method.</summary>
    public Factor Factor { get; }

    /// <summary>What it was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary><see cref="Factor.Process"/> or <see cref="Factor.Coffee"/>.</summary>
    public Factor By { get; }

    /// <summary>By pair, then the largest difference first.</summary>
    public IReadOnlyList<MethodDeviation> Deviations { get; }

    /// <summary>How far the differences lie from their average; nothing where the log does not support an answer.</summary>
    public DeviationSpread? Spread { get; }

    /// <summary>The difference, in points of the scale, from which one matters; fixed before looking.</summary>
    public double Margin { get; }

    /// <summary>The scale of what was asked about.</summary>
    public Scale Scale { get; }

    private string Kinds => By == Factor.Coffee ? "coffees" : "processes";

    /// <inheritdoc/>
    public override string Question => $"For which {Kinds} does the {Factor.Name} matter?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var matter = Deviations.Where(d => d.Answer.Size == Size.Matters).ToArray();
        var decided = Deviations.Count(d => d.Answer.Direction != Direction.Undecided);
        var small = Deviations.Count(d => d.Answer.Size == Size.TooSmallToMatter);
        var all = NumberText.Count(Deviations.Count, "difference");
        var top = Deviations.MaxBy(d => Math.Abs(d.Answer.Estimate))!;
        return
        [
            matter.Length == 0
                ? $"The {Factor.Name} is known to matter for none of the {Kinds}: of {all}, {decided} real, {small} too small to matter, {Deviations.Count - small} of undecided size ({Computation.CupsUsed} cups)."
                : $"The {Factor.Name} is known to matter in {matter.Length} of {all} by {By.Name}, first {Say(matter.MaxBy(d => Math.Abs(d.Answer.Estimate))!)} ({Computation.CupsUsed} cups).",
            $"The largest is {Say(top)}.",
            .. Spread is { } spread
                ? new[] { $"From one to another of the {Kinds} a difference departs from its average by {NumberText.Fixed(spread.Estimate)} points (one standard deviation, 95 % interval {NumberText.Interval(spread.Low, spread.High)})." }
                : [],
        ];
    }

    private static string Say(MethodDeviation d) =>
        $"{d.First} against {d.Second} with {d.Level}, {NumberText.Difference(d.Answer.Estimate)} points ({MethodWords.Interval(d.Answer.Low, d.Answer.High, 0.95)})";

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Differences of {MethodWords.Named(Attribute)} by {Factor.Name}, of each of the {Kinds}",
        [
            new TableColumn("level", MethodWords.SentenceCase(By.Name), ColumnKind.Text),
            new TableColumn("what", "Difference", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval, each by itself", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("direction", "Direction", ColumnKind.Text),
            new TableColumn("size", "Size", ColumnKind.Text),
            new TableColumn("first_cups", "Cups, first", ColumnKind.Count),
            new TableColumn("second_cups", "Cups, second", ColumnKind.Count),
            new TableColumn("coffees", "Coffees with both", ColumnKind.Count),
        ],
        [.. Deviations.Select(d => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(d.Level),
                new TableCell.Text($"{d.First} \u2212 {d.Second}"),
                new TableCell.Number(d.Answer.Estimate),
                new TableCell.Interval(d.Answer.Low, d.Answer.High),
                new TableCell.Text(MethodWords.Word(d.Answer.Direction)),
                new TableCell.Text(MethodWords.Word(d.Answer.Size)),
                new TableCell.Count(d.FirstCups),
                new TableCell.Count(d.SecondCups),
                new TableCell.Count(d.Coffees),
            ])]);
}
