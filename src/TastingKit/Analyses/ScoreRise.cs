namespace TastingKit;

/// <summary>
/// How the raw scores of one stretch of days came to differ from those of another: another mix of coffees, another mix of brews, changes of equipment,
/// better coffees of like kinds, a drift of the scale. The parts sum to the change; what can't be separated stays together and is named.
/// </summary>
public sealed class ScoreRise : TastingResult
{
    internal ScoreRise(
        TastingAttribute attribute, Scale scale, RisePeriod? earlier, RisePeriod? later, RisePart? change, IReadOnlyList<RisePart> parts, RisePart? purchasing, RisePart? brewing,
        RisePart? beyondMix, RiseDrift drift, bool coffeesRepeat, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        (Attribute, Scale, Earlier, Later, Change, Parts) = (attribute, scale, earlier, later, change, parts);
        (Purchasing, Brewing, BeyondMix, Drift, CoffeesRepeat) = (purchasing, brewing, beyondMix, drift, coffeesRepeat);
    }

    /// <summary>What was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>The earlier stretch of days; <see langword="null"/> where the log does not support an answer, as are all below.</summary>
    public RisePeriod? Earlier { get; }

    /// <summary>The later one.</summary>
    public RisePeriod? Later { get; }

    /// <summary>The raw change: the mean of the later cups less that of the earlier ones, each cup counted once; its interval has cups clustered in bags.</summary>
    public RisePart? Change { get; }

    /// <summary>The parts of the change, each once; their points sum to it.</summary>
    public IReadOnlyList<RisePart> Parts { get; }

    /// <summary>The parts of purchasing together; <see langword="null"/> where coffees of one kind alone were bought.</summary>
    public RisePart? Purchasing { get; }

    /// <summary>The parts of brewing together; <see langword="null"/> where all was brewed alike.</summary>
    public RisePart? Brewing { get; }

    /// <summary>
    /// What coffees within like kinds and drift changed together, as it would be with other coffees of these kinds: a steady change by the date of
    /// roasting, of which the chance of which coffees were bought is allowed for. <see langword="null"/> where the log does not tell it.
    /// </summary>
    public RisePart? BeyondMix { get; }

    /// <summary>Whether the drift stands alone, and what it then rests on.</summary>
    public RiseDrift Drift { get; }

    /// <summary>Whether cups repeat within coffees; else a coffee's own part can't be told from the chance of its cup, and stands with it.</summary>
    public bool CoffeesRepeat { get; }

    /// <inheritdoc/>
    public override string Question => $"What did the change in {MethodWords.Named(Attribute)} come of?";

    internal RisePart? PartOf(RiseSource source) => Parts.FirstOrDefault(part => part.Source == source);

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => RiseWords.Of(this);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Where the change in {MethodWords.Named(Attribute)} came from",
        [
            new TableColumn("what", "Part", ColumnKind.Text),
            new TableColumn("of", "Of", ColumnKind.Text),
            new TableColumn("estimate", "Points of the change", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
        ],
        Change is not { } change ? [] :
        [
            .. Parts.Select(part => Row(RiseWords.Name(part), RiseWords.Of(part.Source), part)),
            .. Purchasing is { } bought ? new[] { Row("all of purchasing together", "sum of its parts", bought) } : [],
            .. Brewing is { } brewed ? new[] { Row("all of brewing together", "sum of its parts", brewed) } : [],
            Row("raw change", "sum of all parts", change),
        ]);

    private static IReadOnlyList<TableCell> Row(string what, string of, RisePart part) =>
        [new TableCell.Text(what), new TableCell.Text(of), new TableCell.Number(part.Points), new TableCell.Interval(part.Low, part.High)];
}
