using System.Globalization;

namespace TastingKit;

/// <summary>
/// What seeing the label does to a score: coded cups against cups whose label was seen, of one bag, brewed alike, tasted at one sitting in an
/// order drawn by lot. Cups outside such pairs do not enter: which of them were tasted blind was chosen.
/// </summary>
public sealed class LabelEffect : TastingResult
{
    internal LabelEffect(
        TastingAttribute attribute, Scale scale, IReadOnlyList<LabelPair> pairs, PartAnswer average, PartAnswer order, IReadOnlyList<LabelPremium> premiums,
        PartAnswer outsidePairs, IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Attribute = attribute;
        Scale = scale;
        Pairs = pairs;
        Average = average;
        Order = order;
        Premiums = premiums;
        OutsidePairs = outsidePairs;
    }

    /// <summary>What was asked about: the score or an attribute.</summary>
    public TastingAttribute Attribute { get; }

    /// <summary>Its scale.</summary>
    public Scale Scale { get; }

    /// <summary>The pairs, in the order of their days.</summary>
    public IReadOnlyList<LabelPair> Pairs { get; }

    /// <summary>Points that seeing the label adds, on average over the pairs and at equal places in the sitting.</summary>
    public PartAnswer Average { get; }

    /// <summary>Points that each place later in the sitting adds, between the cups of a pair.</summary>
    public PartAnswer Order { get; }

    /// <summary>What the effect goes with, one after the other: the roaster's reputation, the price, how the bag was obtained, the country, the time of year.</summary>
    public IReadOnlyList<LabelPremium> Premiums { get; }

    /// <summary>
    /// The weaker comparison: points by which cups outside pairs whose label was seen were scored higher than coded ones, at equal brews. It is no
    /// label effect by itself.
    /// </summary>
    public PartAnswer OutsidePairs { get; }

    /// <inheritdoc/>
    public override string Question => $"What does seeing the label do to {MethodWords.Named(Attribute)}?";

    /// <summary>The pairs as a table, in the order of their days.</summary>
    public ResultTable PairsTable() => new(
        "Coded cups against cups whose label was seen",
        [
            new TableColumn("what", "Coffee", ColumnKind.Text),
            new TableColumn("tasted_on", "Day", ColumnKind.Text),
            new TableColumn("difference", "Seen less coded", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("places_later", "Seen came later by", ColumnKind.Number, "places", 1),
            new TableColumn("reputation", "Roaster's other coffees", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("cups", "Cups", ColumnKind.Count),
        ],
        [.. Pairs.Select(pair => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(pair.Bag.Coffee.Label),
                new TableCell.Text(pair.TastedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)),
                new TableCell.Number(pair.Difference),
                pair.PlacesLater is { } places ? new TableCell.Number(places) : new TableCell.Missing("not logged"),
                pair.Reputation is { } reputation ? new TableCell.Number(reputation) : new TableCell.Missing("under 2 other coffees"),
                new TableCell.Count(pair.Cups),
            ])]);

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences() => LabelWords.Of(this);

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        $"What seeing the label does to {MethodWords.Named(Attribute)}",
        [
            new TableColumn("what", "What", ColumnKind.Text),
            new TableColumn("estimate", "Estimate", ColumnKind.Number, ScaleText.Unit(Scale)),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, ScaleText.Unit(Scale)),
            new TableColumn("per", "Per", ColumnKind.Text),
            new TableColumn("cups", "Cups", ColumnKind.Count),
            new TableColumn("from", "From", ColumnKind.Text),
        ],
        !Support.IsSupported
            ? []
            :
            [
                PartAnswerRow.Of("seeing the label", "pair", Average),
                PartAnswerRow.Of("coming later", "place in the sitting", Order),
                .. Premiums.Select(premium => PartAnswerRow.Of(premium.What, premium.Per, premium.Answer)),
                PartAnswerRow.Of("seen against coded outside pairs (weaker)", "cup", OutsidePairs),
            ]);
}

/// <summary>How the effect of seeing the label goes with something that the label tells.</summary>
/// <param name="What">With what, for example <c>the roaster's reputation</c>.</param>
/// <param name="Per">For which difference the estimate stands, for example <c>point that its other coffees score</c>.</param>
/// <param name="Answer">Points by which the effect is larger for it, with a 95 % interval by itself.</param>
/// <param name="P">P-value of no difference, by itself; 1 where it is not answered.</param>
/// <param name="AdjustedP">The same held over all that were answered (Holm 1979).</param>
public sealed record LabelPremium(string What, string Per, PartAnswer Answer, double P, double AdjustedP)
{
    /// <summary>How the name of a premium by country ends.</summary>
    internal const string OfACountry = " against other countries";

    /// <summary>Whether a premium is told, at 5 % over all that were asked.</summary>
    public bool IsTold => AdjustedP < 0.05;
}
