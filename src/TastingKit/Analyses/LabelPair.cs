namespace TastingKit;

/// <summary>
/// Cups of one bag, brewed alike and tasted on one day at one sitting, of which some were coded and the label of the others was seen: all else that was
/// chosen beforehand is the same, as among repeats.
/// </summary>
/// <param name="Bag">The bag.</param>
/// <param name="TastedOn">The day.</param>
/// <param name="Difference">Points by which the cups whose label was seen were scored higher than the coded ones, on average.</param>
/// <param name="PlacesLater">Places by which they came later in the sitting, on average; negative for earlier, <see langword="null"/> where the log does not say.</param>
/// <param name="Cups">Cups of the pair, two or more.</param>
/// <param name="IsAlone">Whether the sitting had cups of no other bag, so that the code hid little.</param>
/// <param name="Reputation">
/// The roaster's reputation with this taster: the mean of its other coffees' mean scores, from sighted cups outside pairs alone;
/// <see langword="null"/> with fewer than two such coffees.
/// </param>
public sealed record LabelPair(Bag Bag, DateOnly TastedOn, double Difference, double? PlacesLater, int Cups, bool IsAlone, double? Reputation)
{
    /// <summary>Price of 100 g in the bag's currency; <see langword="null"/> where price or weight is not logged.</summary>
    public double? PriceOfHundredGrams => Bag is { Price: { } price, NetWeightGrams: { } grams } ? 100 * (double)price / grams : null;

    /// <summary>Whether the bag was paid for; <see langword="null"/> where the log does not say.</summary>
    public bool? IsBought => Bag.Obtained is { } obtained ? string.Equals(obtained, "bought", StringComparison.OrdinalIgnoreCase) : null;

    internal static bool IsHidden(Tasting cup) => (cup.BlindTo & (BlindTo.Label | BlindTo.Coffee)) != 0;
}
