namespace TastingKit;

/// <summary>What one part of the method (the brewer, the recipe) does to the score, within coffees.</summary>
public sealed class MethodEffects : TastingResult
{
    internal MethodEffects(
        Factor factor, IReadOnlyList<MethodContrast> contrasts, double margin, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Factor = factor;
        Contrasts = contrasts;
        Margin = margin;
        Scale = scale;
    }

    /// <summary>The part of the method.</summary>
    public Factor Factor { get; }

    /// <summary>Every pair of levels that at least one coffee was brewed with, first minus second, the largest difference first.</summary>
    public IReadOnlyList<MethodContrast> Contrasts { get; }

    /// <summary>The difference, in points of the scale, from which one matters; fixed before looking.</summary>
    public double Margin { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"What does the {Factor.Name} do to the score?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var sentences = new List<string>();
        var decided = Contrasts.Where(c => c.Direction != Direction.Undecided).ToArray();
        sentences.Add(decided.Length == 0
            ? $"No {Factor.Name} can be told from another by the score: {NumberText.Count(Contrasts.Count, "pair")} compared within coffees, {Computation.CupsUsed} cups."
            : $"{SentenceCase(Say(decided[0]))}{(decided.Length > 1 ? $"; {decided.Length} of {Contrasts.Count} pairs differ" : "")} ({Computation.CupsUsed} cups).");
        sentences.AddRange(decided.Skip(1).Select(c => $"{SentenceCase(Say(c))}."));
        var small = Contrasts.Count(c => c.Size == Size.TooSmallToMatter);
        var matter = Contrasts.Count(c => c.Size == Size.Matters);
        sentences.Add($"Against a margin of {NumberText.Fixed(Margin)} points, fixed before looking: of {NumberText.Count(Contrasts.Count, "pair")}, {matter} enough to matter, {small} too small to matter, {Contrasts.Count - matter - small} undecided.");
        return sentences.ToArray();
    }

    private static string Say(MethodContrast c) =>
        $"{c.First} scores {NumberText.Fixed(Math.Abs(c.Estimate))} points {(c.Estimate > 0 ? "higher" : "lower")} than {c.Second} (95 % interval {NumberText.DifferenceInterval(c.Low, c.High)})";

    private static string SentenceCase(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Differences by {Factor.Name}, within coffees",
        [
            new TableColumn("what", "Difference", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval, simultaneous", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("direction", "Direction", ColumnKind.Text),
            new TableColumn("size", "Size", ColumnKind.Text),
            new TableColumn("first_cups", "Cups, first", ColumnKind.Count),
            new TableColumn("second_cups", "Cups, second", ColumnKind.Count),
            new TableColumn("coffees", "Coffees with both", ColumnKind.Count),
        ],
        [.. Contrasts.Select(c => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text($"{c.First} \u2212 {c.Second}"),
                new TableCell.Number(c.Estimate),
                new TableCell.Interval(c.Low, c.High),
                new TableCell.Text(Word(c.Direction)),
                new TableCell.Text(Word(c.Size)),
                new TableCell.Count(c.FirstCups),
                new TableCell.Count(c.SecondCups),
                new TableCell.Count(c.SharedCoffees),
            ])]);

    private static string Word(Direction direction) => direction switch
    {
        Direction.Higher => "higher",
        Direction.Lower => "lower",
        _ => "undecided",
    };

    private static string Word(Size size) => size switch
    {
        Size.Matters => "matters",
        Size.TooSmallToMatter => "too small to matter",
        _ => "undecided",
    };
}
