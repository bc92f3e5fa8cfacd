using System.Globalization;

namespace TastingKit;

/// <summary>One scored cup against what all other cups say of it.</summary>
/// <param name="Cup">The cup.</param>
/// <param name="Expected">The score that all other cups predict, in points.</param>
/// <param name="Low">Lower end of the middle 95 % of its prediction, before rounding to a step.</param>
/// <param name="High">Upper end.</param>
/// <param name="Standardised">How many of the prediction's standard deviations the score lies above it.</param>
/// <param name="Probability">How probable a score at least so far off is if the cup is like all others, steps of the scale allowed for.</param>
/// <param name="Adjusted">The same adjusted for all cups looked at (Benjamini and Hochberg): the cup is flagged where it is at most the false discovery rate.</param>
/// <param name="IsFlagged">Whether the cup is flagged.</param>
public sealed record OneOffCup(Tasting Cup, double Expected, double Low, double High, double Standardised, double Probability, double Adjusted, bool IsFlagged);

/// <summary>Cups whose score fits nothing else in the log: each against the prediction of all others, flagged at a stated false discovery rate.</summary>
public sealed class OneOffs : TastingResult
{
    private const int RowsShown = 10;

    internal OneOffs(IReadOnlyList<OneOffCup> cups, double falseDiscoveryRate, Scale scale, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Cups = cups;
        FalseDiscoveryRate = falseDiscoveryRate;
        Scale = scale;
    }

    /// <summary>Every cup looked at, the least probable first.</summary>
    public IReadOnlyList<OneOffCup> Cups { get; }

    /// <summary>The cups flagged.</summary>
    public IEnumerable<OneOffCup> Flagged => Cups.Where(cup => cup.IsFlagged);

    /// <summary>The share of flags, from 0 to 1, that may be false on average; where no cup is a one-off, any flag at all is no more probable than this.</summary>
    public double FalseDiscoveryRate { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "Which cups are one-offs?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        OneOffCup[] flagged = [.. Flagged];
        var first = Cups[0];
        return
        [
            flagged.Length == 0
                ? $"No cup of {Cups.Count} is further from what all others say than chance makes the furthest of so many."
                : $"{NumberText.Count(flagged.Length, "cup")} of {Cups.Count} {(flagged.Length == 1 ? "does" : "do")} not fit the others: {string.Join("; ", flagged.Take(3).Select(Say))}{(flagged.Length > 3 ? "; and others" : "")}.",
            flagged.Length == 0
                ? $"The furthest: {Say(first)}; of so many cups like all others, one is so far off by chance alone in about {NumberText.Probability(ChanceOfOne(first))} of logs."
                : $"Of such flags at most {NumberText.Percent(FalseDiscoveryRate)} are false on average.",
        ];
    }

    /// <summary>How probable it is that some cup of so many is as improbable as this one, if all are alike; cups are taken as independent (Šidák).</summary>
    private double ChanceOfOne(OneOffCup one) => 1 - Math.Pow(1 - one.Probability, Cups.Count);

    internal static string Say(OneOffCup one) =>
        $"{one.Cup.Bag.Coffee.Label} on {one.Cup.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)} ({one.Cup.Id}), scored {NumberText.Fixed(one.Cup.Score!.Value)} where {NumberText.Fixed(one.Expected)} was to be expected";

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "The cups furthest from what all others say",
        [
            new TableColumn("what", "Cup", ColumnKind.Text),
            new TableColumn("coffee", "Coffee", ColumnKind.Text),
            new TableColumn("tasted_on", "Day", ColumnKind.Text),
            new TableColumn("brewer", "Brewer", ColumnKind.Text),
            new TableColumn("score", "Score", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("estimate", "Expected", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "Middle 95 % of the prediction", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("probability", "Probability", ColumnKind.Number, "from 0 to 1", 4),
            new TableColumn("adjusted", "Adjusted for all cups", ColumnKind.Number, "from 0 to 1", 4),
            new TableColumn("flag", "Flag", ColumnKind.Text),
        ],
        [.. Cups.Where((cup, place) => cup.IsFlagged || place < RowsShown).Select(one => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(one.Cup.Id),
                new TableCell.Text(one.Cup.Bag.Coffee.Label),
                new TableCell.Text(one.Cup.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
                one.Cup.Brewer is { } brewer ? new TableCell.Text(brewer) : new TableCell.Missing("not stated"),
                new TableCell.Number(one.Cup.Score!.Value),
                new TableCell.Number(one.Expected),
                new TableCell.Interval(one.Low, one.High),
                new TableCell.Number(one.Probability),
                new TableCell.Number(one.Adjusted),
                new TableCell.Text(one.IsFlagged ? "one-off" : ""),
            ])]);
}
