namespace TastingKit.Statistics;

/// <summary>A factor: each row has one of a set of levels. Coded by treatment contrasts as a fixed effect, the first level being the reference.</summary>
public sealed class CategoricalColumn : Column
{
    private readonly string[] _levels;
    private readonly int[] _codes;
    private readonly Lazy<Dictionary<string, int>> _places;

    private CategoricalColumn(string name, string[] levels, int[] codes) : base(name, codes.Length)
    {
        _levels = levels;
        _codes = codes;
        _places = new(() =>
        {
            // Crossed factors can have two levels of one name; the first is found.
            var places = new Dictionary<string, int>(levels.Length, StringComparer.Ordinal);
            for (int level = 0; level < levels.Length; level++) places.TryAdd(levels[level], level);
            return places;
        });
    }

    /// <summary>The levels that occur, in order; the first is the reference of treatment contrasts.</summary>
    public IReadOnlyList<string> Levels => _levels;

    /// <summary>For each row the index of its level in <see cref="Levels"/>.</summary>
    public ReadOnlySpan<int> Codes => _codes;

    internal int[] CodeArray => _codes;

    /// <summary>Builds a factor from the level of each row.</summary>
    /// <param name="name">The factor's name.</param>
    /// <param name="values">The level of each row.</param>
    /// <param name="levels">All levels in order, or null for ordinal (byte) order. Levels that no row has are left out: a model can say nothing of them.</param>
    /// <exception cref="ArgumentException">A value is null, is not among the stated levels, or a level is stated twice.</exception>
    public static CategoricalColumn From(string name, IReadOnlyList<string> values, IReadOnlyList<string>? levels = null)
    {
        ArgumentNullException.ThrowIfNull(values);
        var order = levels is null ? OrdinalOrder(name, values) : Stated(name, levels);
        var codes = new int[values.Count];
        var seen = new bool[order.Count];
        for (int row = 0; row < codes.Length; row++)
        {
            string? value = values[row];
            if (value is null || !order.TryGetValue(value, out int code))
                throw new ArgumentException($"Factor '{name}' holds {(value is null ? "nothing" : $"'{value}'")} in row {row} (counted from 0), which is not one of its levels: {string.Join(", ", order.Keys)}.", nameof(values));
            codes[row] = code;
            seen[code] = true;
        }

        return Compact(name, order.OrderBy(pair => pair.Value).Select(pair => pair.Key).ToArray(), seen, codes);
    }

    /// <summary>The factor of all combinations of two factors that occur, named "a:b" with levels "x:y", in the order of this factor's levels and then the other's.</summary>
    /// <param name="other">A factor of as many rows.</param>
    /// <exception cref="ArgumentException">The factors differ in their number of rows.</exception>
    public CategoricalColumn Cross(CategoricalColumn other)
    {
        ArgumentNullException.ThrowIfNull(other);
        if (other.Count != Count)
            throw new ArgumentException($"Factor '{Name}' has {Count} rows and '{other.Name}' has {other.Count}; only factors of equal length can be crossed.", nameof(other));
        int width = other._levels.Length;
        var occurring = new SortedSet<long>();
        for (int row = 0; row < Count; row++) occurring.Add((long)_codes[row] * width + other._codes[row]);
        var index = new Dictionary<long, int>(occurring.Count);
        var levels = new string[occurring.Count];
        foreach (long cell in occurring)
        {
            levels[index.Count] = $"{_levels[cell / width]}:{other._levels[cell % width]}";
            index.Add(cell, index.Count);
        }

        var codes = new int[Count];
        for (int row = 0; row < Count; row++) codes[row] = index[(long)_codes[row] * width + other._codes[row]];
        return new CategoricalColumn($"{Name}:{other.Name}", levels, codes);
    }

    /// <summary>Whether some row has a level.</summary>
    /// <param name="level">A level's name.</param>
    public bool Has(string level) => _places.Value.ContainsKey(level);

    /// <summary>The index of a level.</summary>
    /// <param name="level">A level's name.</param>
    /// <exception cref="ArgumentException">The factor has no such level; the message lists the levels there are.</exception>
    public int IndexOf(string level)
    {
        ArgumentNullException.ThrowIfNull(level);
        if (!_places.Value.TryGetValue(level, out int index))
            throw new ArgumentException($"Factor '{Name}' has no level '{level}'; it has {string.Join(", ", _levels.Take(20))}{(_levels.Length > 20 ? ", …" : "")}.", nameof(level));
        return index;
    }

    private static Dictionary<string, int> OrdinalOrder(string name, IReadOnlyList<string> values)
    {
        var distinct = new HashSet<string>(StringComparer.Ordinal);
        for (int row = 0; row < values.Count; row++)
        {
            if (values[row] is null)
                throw new ArgumentException($"Factor '{name}' holds nothing in row {row} (counted from 0). Leave rows with a missing value out before building the factor.", nameof(values));
            distinct.Add(values[row]);
        }

        string[] sorted = [.. distinct];
        Array.Sort(sorted, StringComparer.Ordinal);
        return Stated(name, sorted);
    }

    private static Dictionary<string, int> Stated(string name, IReadOnlyList<string> levels)
    {
        var order = new Dictionary<string, int>(levels.Count, StringComparer.Ordinal);
        foreach (string level in levels)
        {
            if (level is null || !order.TryAdd(level, order.Count))
                throw new ArgumentException($"The levels of factor '{name}' must be distinct and not null; '{level}' stands there twice or is null.", nameof(levels));
        }

        return order;
    }

    private static CategoricalColumn Compact(string name, string[] levels, bool[] seen, int[] codes)
    {
        if (Array.TrueForAll(seen, occurs => occurs)) return new CategoricalColumn(name, levels, codes);
        var renumbered = new int[levels.Length];
        var kept = new List<string>(levels.Length);
        for (int level = 0; level < levels.Length; level++)
        {
            if (!seen[level]) continue;
            renumbered[level] = kept.Count;
            kept.Add(levels[level]);
        }

        for (int row = 0; row < codes.Length; row++) codes[row] = renumbered[codes[row]];
        return new CategoricalColumn(name, [.. kept], codes);
    }
}
