namespace TastingKit;

/// <summary>The difference that a method makes for one coffee or one process, drawn towards the average as far as its cups leave it open.</summary>
/// <param name="Level">The process, or the coffee as a reader knows it.</param>
/// <param name="First">The level of the method that the difference speaks of.</param>
/// <param name="Second">The level it is held against.</param>
/// <param name="Answer">First minus second, with both answers; its intervals are each by itself.</param>
/// <param name="FirstCups">Cups with the first level.</param>
/// <param name="SecondCups">Cups with the second level.</param>
/// <param name="Coffees">Coffees brewed with both.</param>
public sealed record MethodDeviation(string Level, string First, string Second, MethodAnswer Answer, int FirstCups, int SecondCups, int Coffees);

/// <summary>How far the differences of coffees or processes lie from their average: a standard deviation.</summary>
/// <param name="Estimate">Median of its draws, in points.</param>
/// <param name="Low">Lower bound of its 95 % interval.</param>
/// <param name="High">Upper bound of its 95 % interval.</param>
public sealed record DeviationSpread(double Estimate, double Low, double High);
