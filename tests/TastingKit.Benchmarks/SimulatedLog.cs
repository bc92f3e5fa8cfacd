using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit.Benchmarks;

/// <summary>A log with three crossed factors and a covariate, simulated from a seed.</summary>
internal static class SimulatedLog
{
    /// <summary>480 cups of a year: 70 coffees, 120 days, 5 brewers.</summary>
    public static ModelDesign Year() => Crossed(480, 70, 120, 5);

    /// <summary>75,000 ratings over 3,000 × 1,100 × 14 levels.</summary>
    public static ModelDesign Large() => Crossed(75_000, 3_000, 1_100, 14);

    /// <summary>Every level of a factor occurs; the rest is drawn at random.</summary>
    public static ModelDesign Crossed(int rows, int coffees, int days, int brewers, ulong seed = 7)
    {
        var random = new RandomStream(seed);
        double[] coffee = Effects(random, coffees, 0.8), day = Effects(random, days, 0.5), brewer = Effects(random, brewers, 0.3);
        string[] coffeeOf = new string[rows], dayOf = new string[rows], brewerOf = new string[rows];
        double[] score = new double[rows], rest = new double[rows];
        for (int row = 0; row < rows; row++)
        {
            int c = row < coffees ? row : random.NextInt32(coffees), d = row < days ? row : random.NextInt32(days), b = random.NextInt32(brewers);
            (coffeeOf[row], dayOf[row], brewerOf[row]) = (Level("coffee", c), Level("day", d), Level("brewer", b));
            rest[row] = 30 * random.NextDouble();
            score[row] = 6 + 0.02 * rest[row] + coffee[c] + day[d] + brewer[b] + random.NextNormal();
        }

        return ModelDesign.For("score", score).WithFixed(new NumericColumn("rest", rest))
            .WithRandomIntercept(CategoricalColumn.From("coffee", coffeeOf))
            .WithRandomIntercept(CategoricalColumn.From("day", dayOf))
            .WithRandomIntercept(CategoricalColumn.From("brewer", brewerOf));
    }

    private static double[] Effects(RandomStream random, int count, double deviation) => [.. Enumerable.Range(0, count).Select(_ => deviation * random.NextNormal())];

    private static string Level(string factor, int index) => string.Create(CultureInfo.InvariantCulture, $"{factor} {index}");
}
