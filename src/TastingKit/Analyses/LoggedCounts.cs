namespace TastingKit;

/// <summary>What was logged in one month.</summary>
/// <param name="Month">Its first day.</param>
/// <param name="Verdict">Scored cups for a verdict or cupping.</param>
/// <param name="Other">All other cups: dial-in, control, failed or without a score.</param>
/// <param name="NewBags">Bags tasted for the first time in it.</param>
public sealed record MonthCounts(DateOnly Month, int Verdict, int Other, int NewBags);

/// <summary>How constant one note is: where it was found in a coffee at all, in what share of that coffee's other cups it was found again.</summary>
/// <param name="Note">The note, lower case.</param>
/// <param name="Constancy">
/// The share, from 0 to 1, averaged over the cups that have the note; the cup that names it is left out of its own share,
/// so that a note met once counts as never found again.
/// </param>
/// <param name="Low">Lower bound of its 95 % interval, coffees as the unit.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
/// <param name="Cups">Cups with the note.</param>
/// <param name="Coffees">Coffees with the note and at least two cups with notes.</param>
public sealed record NoteConstancy(string Note, double Constancy, double Low, double High, int Cups, int Coffees);
