using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Draws that a simulated year is made of, from basic arithmetic alone, so that every machine gives the same.</summary>
internal static class Chance
{
    /// <summary>The index drawn with probability proportional to its weight.</summary>
    public static int Pick(ReadOnlySpan<double> weights, RandomStream random)
    {
        var total = 0.0;
        foreach (var weight in weights)
            total += weight;
        return Pick(weights, total, random.NextDouble());
    }

    /// <summary>The index at which the running sum of the weights passes a share of their total.</summary>
    public static int Pick(ReadOnlySpan<double> weights, double total, double share)
    {
        var left = share * total;
        var last = 0;
        for (var i = 0; i < weights.Length; i++)
        {
            if (weights[i] <= 0)
                continue;
            last = i;
            if ((left -= weights[i]) < 0)
                return i;
        }

        return last;
    }

    /// <summary>A whole number from one bound to another, both included.</summary>
    public static int Between(int from, int to, RandomStream random) => from + random.NextInt32(to - from + 1);

    /// <summary>Deals a number of cups out in proportion to weights; each gets at least one while they last.</summary>
    public static int[] Deal(int cups, ReadOnlySpan<double> weights)
    {
        var dealt = new int[weights.Length];
        var total = 0.0;
        foreach (var weight in weights)
            total += weight;
        var running = 0.0;
        var given = 0;
        var spare = Math.Max(0, cups - weights.Length);
        for (var i = 0; i < weights.Length; i++)
        {
            running += weights[i];
            // Rounding the running sum, not each share, makes the parts add up.
            var upToHere = Math.Min(cups, i + 1) + (int)Math.Round(spare * (running / total), MidpointRounding.AwayFromZero);
            dealt[i] = upToHere - given;
            given = upToHere;
        }

        return dealt;
    }
}
