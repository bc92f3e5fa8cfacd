namespace TastingKit;

/// <summary>One difference between a log as it is written and its canonical form.</summary>
/// <param name="File">The file's name as written.</param>
/// <param name="Line">The line on which the row begins, from 1; 0 where the change is of the whole file or column.</param>
/// <param name="RowId">The row's identifier; empty where the change is of no row.</param>
/// <param name="Column">The column's header as written; the canonical name of one that was added; empty for a whole row.</param>
/// <param name="From">What is written; empty where something was added.</param>
/// <param name="To">What stands in the canonical form; empty where something was left out.</param>
/// <param name="Rule">The rule by which it was changed; <c>own-form</c> where the value is the same and only its form is the kit's.</param>
/// <param name="Why">Why, as a sentence.</param>
public sealed record CellChange(string File, int Line, string RowId, string Column, string From, string To, string Rule, string Why);
