namespace TastingKit;

/// <summary>Which way a difference goes, by its simultaneous 95 % interval.</summary>
public enum Direction
{
    /// <summary>The interval holds nought: the log does not say which way.</summary>
    Undecided,

    /// <summary>The first scores higher.</summary>
    Higher,

    /// <summary>The first scores lower.</summary>
    Lower,
}

/// <summary>Whether a difference is large enough to matter, against a margin fixed before looking.</summary>
public enum Size
{
    /// <summary>The log does not say.</summary>
    Undecided,

    /// <summary>The simultaneous 95 % interval lies wholly outside the margin.</summary>
    Matters,

    /// <summary>The 90 % interval lies wholly inside the margin.</summary>
    TooSmallToMatter,
}

/// <summary>The difference that one level of a method makes against another, within coffees.</summary>
/// <param name="Factor">The factor's name, for example <c>brewer</c>.</param>
/// <param name="First">The level that the difference speaks of.</param>
/// <param name="Second">The level it is held against.</param>
/// <param name="Estimate">First minus second, in points of the log's scale.</param>
/// <param name="Low">Lower bound of the 95 % interval, simultaneous over the factor's contrasts.</param>
/// <param name="High">Upper bound of the 95 % interval, simultaneous over the factor's contrasts.</param>
/// <param name="Direction">Which way it goes.</param>
/// <param name="Size">Whether it is large enough to matter.</param>
/// <param name="FirstCups">Cups with the first level.</param>
/// <param name="SecondCups">Cups with the second level.</param>
/// <param name="SharedCoffees">Coffees brewed with both.</param>
public sealed record MethodContrast(
    string Factor, string First, string Second, double Estimate, double Low, double High,
    Direction Direction, Size Size, int FirstCups, int SecondCups, int SharedCoffees);
