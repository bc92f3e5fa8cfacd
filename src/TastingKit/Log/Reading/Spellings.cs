namespace TastingKit.Reading;

/// <summary>
/// Finds names that differ in case, accents, spaces or marks alone. They are kept as written and never merged; each is another level to every
/// analysis, which its writer will seldom have meant.
/// </summary>
internal sealed class Spellings
{
    private readonly Dictionary<string, OfColumn> _columns = new(StringComparer.Ordinal);

    /// <summary>How many names were met, each once a column.</summary>
    public int Count { get; private set; }

    /// <summary>Takes a name; gives the report on it if it is a new spelling of an earlier one.</summary>
    public CellFault? Note(string column, string name, int line)
    {
        if (!_columns.TryGetValue(column, out var seen))
            _columns.Add(column, seen = new OfColumn());
        if (!seen.Written.Add(name))
            return null;
        Count++;
        var folded = Words.Folded(name);
        // A name of signs alone folds to nothing, and is like no other.
        if (folded.Length == 0 || seen.First.TryAdd(folded, (name, line)))
            return null;
        var (first, firstLine) = seen.First[folded];
        return new CellFault(Rule.SpellingVaries,
            FormattableString.Invariant($"Line {firstLine} writes it '{first}'; as written the two are two names to every analysis."), $"one spelling of it, such as '{first}'");
    }

    private sealed class OfColumn
    {
        public HashSet<string> Written { get; } = new(StringComparer.Ordinal);

        public Dictionary<string, (string Name, int Line)> First { get; } = new(StringComparer.Ordinal);
    }
}
