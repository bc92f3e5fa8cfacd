namespace TastingKit;

/// <summary>One cup's score brought to the scale of one day.</summary>
/// <param name="Cup">The cup.</param>
/// <param name="AsWritten">Its score as written.</param>
/// <param name="Adjusted">Its score on the scale of the day that the result names; it may lie off the steps and beyond the ends.</param>
/// <param name="Low">Lower end of the 95 % interval of the adjusted score, from the drift's uncertainty alone: the cup's own chance is not in it.</param>
/// <param name="High">Upper end of it.</param>
/// <param name="Years">How long after that day it was tasted, in years of 365.25 days; negative before.</param>
public sealed record AdjustedScore(Tasting Cup, double AsWritten, double Adjusted, double Low, double High, double Years);

/// <summary>
/// Each cup on a common scale: its score less the drift from a stated day to its own. All cups share one drift and so its error:
/// scores of one day keep their differences exactly, and the further apart two cups lie, the less sure their difference.
/// </summary>
public sealed class AdjustedScores : TastingResult
{
    private readonly Lazy<AdjustedFavourites> _favourites;

    internal AdjustedScores(
        TastingAttribute attribute, Scale scale, AnchoredDrift? drift, DateOnly day, IReadOnlyList<AdjustedScore> cups,
        IReadOnlyList<Caution> cautions, Computation computation, Support support, Func<AdjustedScores, AdjustedFavourites> favourites)
        : base(cautions, computation, support)
    {
        (Attribute, Scale, Drift, OnScaleOf, Cups) = (attribute, scale, drift, day, cups);
        _favourites = new Lazy<AdjustedFavourites>(() => favourites(this));
    }

    /// <summary>What was adjusted.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>The drift taken out, with the assumption it rests on; <see langword="null"/> where the log identifies none, and nothing is adjusted.</summary>
    public AnchoredDrift? Drift { get; }

    /// <summary>The day whose scale all scores are brought to.</summary>
    public DateOnly OnScaleOf { get; }

    /// <summary>The cups in the order of the log; empty where no drift is identified.</summary>
    public IReadOnlyList<AdjustedScore> Cups { get; }

    /// <inheritdoc/>
    public override string Question => $"What would {MethodWords.Named(Attribute)} of each cup be on one scale?";

    /// <summary>Covariance of two adjusted scores by the drift that they share, in squared points; the cups' own chance is not in it.</summary>
    /// <param name="first">One of <see cref="Cups"/>.</param>
    /// <param name="second">The other, or the same for its variance.</param>
    public double Covariance(AdjustedScore first, AdjustedScore second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        var error = Drift?.AYear.StandardError ?? 0;
        return first.Years * second.Years * error * error;
    }

    /// <summary>The favourites by the scores as written and by the adjusted ones, side by side.</summary>
    /// <exception cref="InvalidOperationException">Something else than the score was adjusted: favourites are by the score.</exception>
    public AdjustedFavourites Favourites() => Attribute.Equals(TastingAttribute.Score)
        ? _favourites.Value
        : throw new InvalidOperationException($"Favourites are by the score; these are adjusted values of {Attribute}.");

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var (drift, most) = (Drift!, Cups.MaxBy(cup => Math.Abs(cup.Years))!);
        return
        [
            $"{drift.Anchor.Assumption}, each cup is brought to the scale of {NumberText.Day(OnScaleOf)} by taking out {NumberText.Difference(drift.AYear.Estimate)} points a year (95 % interval {NumberText.DifferenceInterval(drift.AYear.Low, drift.AYear.High)}; {drift.Anchor.RestsOn}; {NumberText.Count(Cups.Count, "cup")}).",
            $"The cup furthest from that day ({NumberText.Day(most.Cup.TastedOn)}) moves from {NumberText.Fixed(most.AsWritten, 1)} to {NumberText.Fixed(most.Adjusted)} ({NumberText.Interval(most.Low, most.High)} by the drift\u2019s uncertainty).",
            "All cups share that uncertainty: cups of one day keep their differences, and cups months apart are compared less surely than they look.",
        ];
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"{MethodWords.SentenceCase(MethodWords.Named(Attribute))} on the scale of {NumberText.Day(OnScaleOf)}",
        [
            new TableColumn("what", "Cup", ColumnKind.Text),
            new TableColumn("coffee", "Coffee", ColumnKind.Text),
            new TableColumn("day", "Tasted on", ColumnKind.Text),
            new TableColumn("as_written", "As written", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("estimate", "Adjusted", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval, drift alone", ColumnKind.Interval, ScaleText.Unit(Scale)),
        ],
        [.. Cups.Select(cup => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(cup.Cup.Id),
                new TableCell.Text(cup.Cup.Bag.Coffee.Label),
                new TableCell.Text(NumberText.Day(cup.Cup.TastedOn)),
                new TableCell.Number(cup.AsWritten),
                new TableCell.Number(cup.Adjusted),
                new TableCell.Interval(cup.Low, cup.High),
            ])]);
}
