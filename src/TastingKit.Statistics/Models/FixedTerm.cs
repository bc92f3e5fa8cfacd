namespace TastingKit.Statistics;

/// <summary>One fixed term of a model: a main effect, a square, or an interaction of several columns.</summary>
public sealed class FixedTerm
{
    internal FixedTerm(IReadOnlyList<Column> columns, bool isSquare)
    {
        Columns = columns;
        IsSquare = isSquare;
        Name = isSquare ? columns[0].Name + "^2" : string.Join(':', columns.Select(column => column.Name));
    }

    /// <summary>The columns' names joined by ':', or the covariate's name followed by "^2".</summary>
    public string Name { get; }

    /// <summary>The columns, one for a main effect.</summary>
    public IReadOnlyList<Column> Columns { get; }

    /// <summary>Whether the term is the square of its single covariate.</summary>
    public bool IsSquare { get; }

    internal bool HasSameVariables(IEnumerable<Column> columns)
        => !IsSquare && Columns.Select(column => column.Name).ToHashSet(StringComparer.Ordinal).SetEquals(columns.Select(column => column.Name));
}
