namespace TastingKit.Statistics;

/// <summary>A named variable with one value a row: a number, a level of a factor, or a basis of a covariate.</summary>
/// <remarks>Columns are immutable and hold no missing values: which rows to leave out is the caller's decision, made before the column is built.</remarks>
public abstract class Column
{
    private protected Column(string name, int count)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(name);
        Name = name;
        Count = count;
    }

    /// <summary>The name that coefficients, settings and messages use.</summary>
    public string Name { get; }

    /// <summary>Number of rows.</summary>
    public int Count { get; }
}
