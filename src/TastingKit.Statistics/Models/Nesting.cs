namespace TastingKit.Statistics;

/// <summary>Where each level of a factor stands within the level of another factor that holds it: bags of a coffee, numbered within the coffee.</summary>
internal sealed class Nesting
{
    private Nesting(int[] outerLevels, int[] places, int width)
    {
        OuterLevels = outerLevels;
        Places = places;
        Width = width;
    }

    /// <summary>For each inner level the outer one that holds it.</summary>
    public int[] OuterLevels { get; }

    /// <summary>For each inner level its number within the outer one, from 0.</summary>
    public int[] Places { get; }

    /// <summary>The most inner levels that an outer one holds.</summary>
    public int Width { get; }

    /// <summary>The nesting; null where some inner level has rows of two outer ones.</summary>
    public static Nesting? Of(CategoricalColumn inner, CategoricalColumn outer)
    {
        int[] outerLevels = new int[inner.Levels.Count], places = new int[inner.Levels.Count], held = new int[outer.Levels.Count];
        Array.Fill(outerLevels, -1);
        for (int row = 0; row < inner.CodeArray.Length; row++)
        {
            int level = inner.CodeArray[row], own = outer.CodeArray[row];
            if (outerLevels[level] == own) continue;
            if (outerLevels[level] >= 0) return null;
            outerLevels[level] = own;
            places[level] = held[own]++;
        }

        // A level without a row is held by nothing.
        return Array.IndexOf(outerLevels, -1) >= 0 ? null : new Nesting(outerLevels, places, held.Max());
    }
}
