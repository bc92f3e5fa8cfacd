namespace TastingKit;

/// <summary>What may lie behind one cup's distance from what all others say: by variance, since one cup can't tell.</summary>
/// <param name="What">The source: the brewer with this coffee, the sitting, or chance.</param>
/// <param name="StandardDeviation">Its standard deviation over the log, in points.</param>
/// <param name="Share">Its share of their variance, from 0 to 1: the share of the distance it is expected to have.</param>
public sealed record OneOffSource(string What, double StandardDeviation, double Share);

/// <summary>One suspicious cup: how far off it is, how its distance splits between brewer and chance, and what one more cup would settle.</summary>
public sealed class OneOff : TastingResult
{
    internal OneOff(
        OneOffCup? cup, IReadOnlyList<OneOffSource> sources, double brewerNow, double brewerAfterOneMore, double falseDiscoveryRate, Scale scale,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Cup = cup;
        Sources = sources;
        BrewerNow = brewerNow;
        BrewerAfterOneMore = brewerAfterOneMore;
        FalseDiscoveryRate = falseDiscoveryRate;
        Scale = scale;
    }

    /// <summary>The cup against what all others say; <see langword="null"/> where the log supports no answer.</summary>
    public OneOffCup? Cup { get; }

    /// <summary>What its distance is expected to be made of; shares of variance, not findings on this cup.</summary>
    public IReadOnlyList<OneOffSource> Sources { get; }

    /// <summary>Standard deviation, in points, of what is not known of the brewer's own deviation with this coffee, this cup known.</summary>
    public double BrewerNow { get; }

    /// <summary>The same after one more cup on that brewer in another sitting.</summary>
    public double BrewerAfterOneMore { get; }

    /// <summary>The rate at which cups are flagged, as in <see cref="OneOffs"/>.</summary>
    public double FalseDiscoveryRate { get; }

    /// <summary>The scale of the scores.</summary>
    public Scale Scale { get; }

    /// <inheritdoc/>
    public override string Question => "Was that cup a fluke or the brewer?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var sentences = new List<string>
        {
            $"{OneOffs.Say(Cup!)} (middle 95 % of the prediction {NumberText.Interval(Cup!.Low, Cup.High)}): {(Cup.IsFlagged ? "a one-off, further off than chance makes the furthest of so many cups" : "not further off than chance makes some cup of so many")}.",
            $"One cup can't tell the brewer from chance. By variance alone, its distance is expected to be {string.Join(", ", Sources.Select(source => $"{NumberText.Percent(source.Share)} {source.What}"))}.",
        };
        sentences.Add(Sources[0].Share > 0
            ? $"One more cup on that brewer in another sitting would bring what is not known of the brewer with this coffee from a standard deviation of {NumberText.Fixed(BrewerNow)} to {NumberText.Fixed(BrewerAfterOneMore)} points."
            : "Nothing in the log shows brewers to do to one coffee what they don't do to others, so one more cup would tell of the coffee, not of the brewer.");
        return sentences;
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "What the distance of one cup is expected to be made of",
        [
            new TableColumn("what", "Source", ColumnKind.Text),
            new TableColumn("estimate", "Standard deviation over the log", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("share", "Share of variance", ColumnKind.Share),
        ],
        [.. Sources.Select(source => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(source.What), new TableCell.Number(source.StandardDeviation), new TableCell.Share(source.Share),
            ])]);
}
