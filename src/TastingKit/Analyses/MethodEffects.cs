namespace TastingKit;

/// <summary>What one part of the method (the brewer, the recipe) does to the score or an attribute, within coffees.</summary>
public sealed class MethodEffects : TastingResult
{
    private const int PairsSaid = 12;

    private readonly Func<Factor, IReadOnlyList<(string First, string Second)>, MethodDeviations>? _deviations;

    internal MethodEffects(
        Factor factor, TastingAttribute attribute, IReadOnlyList<MethodContrast> contrasts, double level, double margin, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support,
        Func<Factor, IReadOnlyList<(string First, string Second)>, MethodDeviations>? deviations = null)
        : base(cautions, computation, support)
    {
        _deviations = deviations;
        Factor = factor;
        Attribute = attribute;
        Contrasts = contrasts;
        Level = level;
        Margin = margin;
        Scale = scale;
    }

    /// <summary>The part of the method.</summary>
    public Factor Factor { get; }

    /// <summary>What it was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Every pair of levels that at least one coffee was brewed with, first minus second, the largest difference first.</summary>
    public IReadOnlyList<MethodContrast> Contrasts { get; }

    /// <summary>Level at which the intervals hold for all pairs at once, for example 0.95.</summary>
    public double Level { get; }

    /// <summary>The difference, in points of the scale, from which one matters; fixed before looking.</summary>
    public double Margin { get; }

    /// <summary>
    /// The repeatability limit of the score, in points: what two single blind cups of one brew differ by anyway in 95 cases of 100. It tells what
    /// is noticeable between two cups and is not the margin. Refused for an attribute, for several tasters, and with few blind repeats.
    /// </summary>
    public PartAnswer BetweenTwoCups { get; init; } = new PartAnswer.Refused("Nothing was compared.", "See why nothing was.");

    /// <summary>The scale of what was asked about.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"What does the {Factor.Name} do to {MethodWords.Named(Attribute)}?";

    /// <summary>The same differences of each process, partially pooled: whether the method matters for some kinds more than for others.</summary>
    public MethodDeviations ByProcess() => Of(Factor.Process, [.. Contrasts.Select(c => (c.First, c.Second))]);

    /// <summary>The largest contrast with each coffee that was brewed with both of its levels, partially pooled: for which coffees it matters.</summary>
    public MethodDeviations ByCoffee() => Of(Factor.Coffee, [.. Contrasts.Take(1).Select(c => (c.First, c.Second))]);

    /// <summary>The difference of two levels with each coffee that was brewed with both, partially pooled: for which coffees it matters.</summary>
    /// <param name="first">The level that the differences speak of.</param>
    /// <param name="second">The level they are held against.</param>
    /// <exception cref="ArgumentException">The two were not compared.</exception>
    public MethodDeviations ByCoffee(string first, string second) =>
        Contrasts.Any(c => (c.First, c.Second) == (first, second) || (c.Second, c.First) == (first, second))
            ? Of(Factor.Coffee, [(first, second)])
            : throw new ArgumentException($"{first} and {second} were not compared; compared were {string.Join(", ", Contrasts.Select(c => $"{c.First} and {c.Second}"))}.", nameof(first));

    private MethodDeviations Of(Factor by, IReadOnlyList<(string First, string Second)> pairs) =>
        _deviations is not null && Support.IsSupported
            ? _deviations(by, pairs)
            : new MethodDeviations(Factor, Attribute, by, [], null, Margin, Scale, [], Computation, Support);

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var decided = Contrasts.Where(c => c.Answer.Direction != Direction.Undecided).ToArray();
        var pairs = NumberText.Count(Contrasts.Count, "pair");
        var sentences = new List<string>
        {
            decided.Length == 0
                ? Contrasts.All(c => c.Answer.Size == Size.TooSmallToMatter)
                    ? $"The {Factor.Name} makes no difference that matters to {MethodWords.Named(Attribute)}: less than {NumberText.Fixed(Margin)} points in each of {pairs} compared within coffees ({Computation.CupsUsed} cups)."
                    : $"No {Factor.Name} can be told from another by {MethodWords.Named(Attribute)}, which is not the same as no difference: {pairs} compared within coffees, {Computation.CupsUsed} cups."
                : $"{MethodWords.SentenceCase(Say(decided[0]))}{(decided.Length > 1 ? $"; {decided.Length} of {pairs} differ" : "")} ({Computation.CupsUsed} cups).",
        };
        sentences.AddRange(decided.Skip(1).Take(PairsSaid).Select(c => $"{MethodWords.SentenceCase(Say(c))}."));
        if (decided.Length - 1 > PairsSaid)
            sentences.Add($"The other {decided.Length - 1 - PairsSaid} pairs that differ stand in the table.");
        var small = Contrasts.Count(c => c.Answer.Size == Size.TooSmallToMatter);
        var matter = Contrasts.Count(c => c.Answer.Size == Size.Matters);
        sentences.Add($"Against a margin of {NumberText.Fixed(Margin)} points, fixed before looking: of {pairs}, {matter} enough to matter, {small} too small to matter, {Contrasts.Count - matter - small} undecided.");
        if (BetweenTwoCups is PartAnswer.Estimated limit)
            sentences.Add($"Noticeable between two single cups is what exceeds {NumberText.Fixed(limit.Estimate)} points (repeatability limit, 95 % interval {NumberText.Interval(limit.Low, limit.High)}; {limit.From}): a smaller difference shows only over several cups.");
        sentences.AddRange(Contrasts.Where(c => c.Further is not FurtherCups.NotNeeded).Take(PairsSaid).Select(SayFurther));
        return sentences;
    }

    private string SayFurther(MethodContrast c) => $"{MethodWords.SentenceCase(Called(c.First))} and {Called(c.Second)} are undecided, which is not the same as no difference ({MethodWords.Interval(c.Answer.Low, c.Answer.High, Level)}): "
        + MethodWords.Say(c.Further, Margin, "half with each");

    internal string Say(MethodContrast c) =>
        $"{Called(c.First)} {Than(c)} than {Called(c.Second)} ({MethodWords.Interval(c.Answer.Low, c.Answer.High, Level)}): {MethodWords.Verdict(c.Answer, Margin)}";

    /// <summary>A bare "roaster" would be read as the people and not as their recipe.</summary>
    private string Called(string level) => Factor == Factor.RecipeFrom ? $"{level} recipe" : level;

    private string Than(MethodContrast c)
    {
        var points = $"{NumberText.Fixed(Math.Abs(c.Answer.Estimate))} points {(c.Answer.Estimate > 0 ? "higher" : "lower")}";
        return Attribute.Equals(TastingAttribute.Score) ? $"scores {points}" : $"has {points} {Attribute}";
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Differences of {MethodWords.Named(Attribute)} by {Factor.Name}, within coffees",
        [
            new TableColumn("what", "Difference", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", $"{MethodWords.Level(Level)} interval, simultaneous", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("direction", "Direction", ColumnKind.Text),
            new TableColumn("size_interval", "90 % interval, each by itself", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("size", "Size", ColumnKind.Text),
            new TableColumn("first_cups", "Cups, first", ColumnKind.Count),
            new TableColumn("second_cups", "Cups, second", ColumnKind.Count),
            new TableColumn("coffees", "Coffees with both", ColumnKind.Count),
            new TableColumn("further_cups", "Further cups of these coffees", ColumnKind.Count),
            new TableColumn("further_coffees", "Or further coffees", ColumnKind.Count),
        ],
        [.. Contrasts.Select(c => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text($"{c.First} \u2212 {c.Second}"),
                new TableCell.Number(c.Answer.Estimate),
                new TableCell.Interval(c.Answer.Low, c.Answer.High),
                new TableCell.Text(MethodWords.Word(c.Answer.Direction)),
                new TableCell.Interval(c.Answer.SizeLow, c.Answer.SizeHigh),
                new TableCell.Text(MethodWords.Word(c.Answer.Size)),
                new TableCell.Count(c.FirstCups),
                new TableCell.Count(c.SecondCups),
                new TableCell.Count(c.SharedCoffees),
                c.Further.Match<TableCell>(_ => new TableCell.Missing("decided"), needed => needed.SameCoffees is { } cups ? new TableCell.Count(cups) : new TableCell.Missing("would not do"), _ => new TableCell.Missing("over 1000")),
                c.Further.Match<TableCell>(_ => new TableCell.Missing("decided"), needed => new TableCell.Count(needed.Coffees), _ => new TableCell.Missing("over 1000")),
            ])]);
}
