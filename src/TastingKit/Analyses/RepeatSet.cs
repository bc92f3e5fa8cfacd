namespace TastingKit;

/// <summary>Cups of one bag, brewed alike and tasted on one day in one sitting by one taster: what differs between them is the taster and the hand.</summary>
/// <param name="Bag">The bag.</param>
/// <param name="TastedOn">The day.</param>
/// <param name="IsBlind">Whether the taster did not know which coffee each was.</param>
/// <param name="Scores">The scores in the order tasted; two or more.</param>
public sealed record RepeatSet(Bag Bag, DateOnly TastedOn, bool IsBlind, IReadOnlyList<double> Scores);
