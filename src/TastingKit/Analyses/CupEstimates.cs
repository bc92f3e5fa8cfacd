namespace TastingKit;

/// <summary>One estimated difference of a model that a user put together.</summary>
/// <param name="What">A step of a covariate, its bend, or one level of a factor less another.</param>
/// <param name="Estimate">In points of the scale.</param>
/// <param name="StandardError">Its standard error.</param>
/// <param name="Low">Lower bound of the 95 % interval, by Satterthwaite's degrees of freedom, this difference by itself.</param>
/// <param name="High">Upper bound of that interval.</param>
/// <param name="P">Two-sided p-value against nought.</param>
public sealed record CupEffect(string What, double Estimate, double StandardError, double Low, double High, double P);

/// <summary>How much something that varies at random does so.</summary>
/// <param name="What">The groups, or <c>cup</c> for what is left.</param>
/// <param name="StandardDeviation">In points of the scale.</param>
public sealed record CupSpread(string What, double StandardDeviation);

/// <summary>The expected value at one level of a factor, other factors averaged with equal weights, covariates at their mean.</summary>
/// <param name="Level">The level.</param>
/// <param name="Estimate">In points of the scale.</param>
/// <param name="StandardError">Its standard error.</param>
public sealed record LevelMean(string Level, double Estimate, double StandardError);

/// <summary>What a model that a user put together estimates.</summary>
public sealed class CupEstimates : TastingResult
{
    private readonly Func<Factor, IReadOnlyList<LevelMean>> _means;

    internal CupEstimates(
        TastingAttribute attribute, IReadOnlyList<CupEffect> effects, IReadOnlyList<CupSpread> spreads, Scale scale, IReadOnlyList<Caution> cautions,
        Computation computation, Support support, Func<Factor, IReadOnlyList<LevelMean>> means)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        Effects = effects;
        Spreads = spreads;
        Scale = scale;
        _means = means;
    }

    /// <summary>What was modelled.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>The differences, in the order of the terms.</summary>
    public IReadOnlyList<CupEffect> Effects { get; }

    /// <summary>What varies at random, the cup last.</summary>
    public IReadOnlyList<CupSpread> Spreads { get; }

    /// <summary>The scale of what was modelled.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => $"What goes with {MethodWords.Named(Attribute)}?";

    /// <summary>The expected value at each level of a factor of the model.</summary>
    /// <param name="factor">A factor of the model.</param>
    /// <exception cref="ArgumentException">The model does not have the factor.</exception>
    /// <exception cref="Statistics.ModelException">The factor's levels can't be told from another term of the model.</exception>
    public IReadOnlyList<LevelMean> MeansOf(Factor factor)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return _means(factor);
    }

    /// <summary>The difference of a name.</summary>
    /// <param name="what">As in <see cref="CupEffect.What"/>.</param>
    /// <exception cref="ArgumentException">There is none; the message lists those there are.</exception>
    public CupEffect EffectOf(string what) =>
        Effects.FirstOrDefault(effect => effect.What == what)
        ?? throw new ArgumentException($"The model has no estimate '{what}'; it has {string.Join(", ", Effects.Select(effect => $"'{effect.What}'"))}.", nameof(what));

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var apart = Effects.Where(effect => effect.Low > 0 || effect.High < 0).ToArray();
        return
        [
            apart.Length == 0
                ? $"Of {NumberText.Count(Effects.Count, "estimate")} none is told from nought ({Computation.CupsUsed} cups)."
                : $"Of {NumberText.Count(Effects.Count, "estimate")} {apart.Length} {(apart.Length == 1 ? "is" : "are")} told from nought, each by itself ({Computation.CupsUsed} cups).",
            .. apart.Select(effect => $"{MethodWords.SentenceCase(effect.What)}: {NumberText.Difference(effect.Estimate)} points of {MethodWords.Named(Attribute)} ({MethodWords.Interval(effect.Low, effect.High, 0.95)})."),
            $"Standard deviations: {string.Join(", ", Spreads.Select(spread => $"{spread.What} {NumberText.Fixed(spread.StandardDeviation)}"))} points.",
        ];
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"Estimates of {MethodWords.Named(Attribute)}",
        [
            new TableColumn("what", "Difference", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale), 4),
            new TableColumn("standard_error", "Standard error", ColumnKind.Number, ScaleText.Unit(Scale), 4),
            new TableColumn("interval", "95 % interval, each by itself", ColumnKind.Interval, ScaleText.Unit(Scale), 4),
            new TableColumn("p", "p", ColumnKind.Number, "", 4),
        ],
        [.. Effects.Select(e => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(e.What),
                new TableCell.Number(e.Estimate),
                new TableCell.Number(e.StandardError),
                new TableCell.Interval(e.Low, e.High),
                new TableCell.Number(e.P),
            ])]);
}
