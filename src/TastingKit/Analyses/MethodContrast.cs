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

/// <summary>A difference with its two answers: which way, and whether it is large enough to matter.</summary>
/// <param name="Estimate">The difference, in points of the scale.</param>
/// <param name="Low">Lower bound of the 95 % interval, simultaneous over the family.</param>
/// <param name="High">Upper bound of the 95 % interval, simultaneous over the family.</param>
/// <param name="SizeLow">Lower bound of the 90 % interval of this difference alone, which decides whether it is too small to matter.</param>
/// <param name="SizeHigh">Upper bound of that interval.</param>
/// <param name="Direction">Which way it goes.</param>
/// <param name="Size">Whether it is large enough to matter.</param>
public sealed record MethodAnswer(double Estimate, double Low, double High, double SizeLow, double SizeHigh, Direction Direction, Size Size);

/// <summary>The difference that one level of a method makes against another, within coffees.</summary>
/// <param name="Factor">The factor's name, for example <c>brewer</c>.</param>
/// <param name="First">The level that the difference speaks of.</param>
/// <param name="Second">The level it is held against.</param>
/// <param name="Answer">First minus second, with both answers.</param>
/// <param name="FirstCups">Cups with the first level.</param>
/// <param name="SecondCups">Cups with the second level.</param>
/// <param name="SharedCoffees">Coffees brewed with both.</param>
/// <param name="Further">What it would take to tell the direction, where neither answer is decided.</param>
public sealed record MethodContrast(
    string Factor, string First, string Second, MethodAnswer Answer, int FirstCups, int SecondCups, int SharedCoffees, FurtherCups Further);
