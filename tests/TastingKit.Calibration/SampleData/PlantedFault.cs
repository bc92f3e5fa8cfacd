namespace TastingKit.Calibration.SampleData;

/// <summary>A row of the sample log that is wrong on purpose, and that a check must report.</summary>
/// <param name="File">The file.</param>
/// <param name="Line">The line.</param>
/// <param name="Column">The column at fault; empty for the row as a whole.</param>
/// <param name="Rule">The rule that must speak.</param>
/// <param name="Severity">What must become of the row.</param>
/// <param name="Trait">What is wrong, in words.</param>
internal sealed record PlantedFault(string File, int Line, string Column, string Rule, Severity Severity, string Trait);
