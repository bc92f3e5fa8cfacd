namespace TastingKit;

/// <summary>A rule by which a log is judged.</summary>
/// <param name="Name">Its short name, as reports and <c>accepted.csv</c> have it. It does not change between versions.</param>
/// <param name="Severity">What it costs a row. A rule of cells costs the whole row where the cell is one that a row can't do without.</param>
/// <param name="Meaning">What it finds, and what is done with it.</param>
/// <param name="Fix">What to do about it.</param>
/// <param name="CanBeAccepted">
/// Whether a line of <c>accepted.csv</c> can confirm what it finds, so that it is not raised again: so it is for doubts about a value that was
/// kept. What was left missing or rejected is mended in the log itself.
/// </param>
public sealed record LogRule(string Name, Severity Severity, string Meaning, string Fix, bool CanBeAccepted = false)
{
    /// <summary>Every rule, those of files first, then of rows, of cells, of what contradicts, and of words.</summary>
    public static IReadOnlyList<LogRule> All { get; } = LogRules.All;

    /// <summary>The rule of a name; <see langword="null"/> where there is none.</summary>
    public static LogRule? Named(string name)
    {
        ArgumentNullException.ThrowIfNull(name);
        return LogRules.ByName.GetValueOrDefault(name);
    }
}
