namespace TastingKit.Statistics;

/// <summary>The rank of one item over joint draws.</summary>
/// <param name="Item">The item.</param>
/// <param name="ProbabilityBest">Share of draws in which it is first.</param>
/// <param name="ProbabilityTop">Share of draws in which it is among the first <paramref name="Top"/>; over all items these add up to <paramref name="Top"/>.</param>
/// <param name="Top">How many places count as the top.</param>
/// <param name="MeanRank">Mean rank, 1 being the best.</param>
/// <param name="RankLow">Lower end of the interval of ranks.</param>
/// <param name="RankHigh">Upper end of the interval of ranks.</param>
public sealed record RankSummary(string Item, double ProbabilityBest, double ProbabilityTop, int Top, double MeanRank, int RankLow, int RankHigh);

/// <summary>For each item the share of draws in which it takes each rank.</summary>
public sealed class RankDistribution
{
    private readonly string[] _items;
    private readonly int[,] _counts;

    internal RankDistribution(string[] items, int[,] counts, int drawCount)
    {
        _items = items;
        _counts = counts;
        DrawCount = drawCount;
    }

    /// <summary>The items, as they were given.</summary>
    public IReadOnlyList<string> Items => _items;

    /// <summary>Number of draws.</summary>
    public int DrawCount { get; }

    /// <summary>Probability that an item takes a rank.</summary>
    /// <param name="item">Index in <see cref="Items"/>.</param>
    /// <param name="rank">Rank from 1.</param>
    public double Probability(int item, int rank) => (double)_counts[item, rank - 1] / DrawCount;

    /// <summary>Probability that an item is among the first ranks.</summary>
    /// <param name="item">Index in <see cref="Items"/>.</param>
    /// <param name="top">Number of ranks, from 1.</param>
    public double ProbabilityTop(int item, int top)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(top, 1);
        long sum = 0;
        for (int rank = 0; rank < Math.Min(top, _items.Length); rank++) sum += _counts[item, rank];
        return (double)sum / DrawCount;
    }

    /// <summary>Mean rank of an item, 1 being the best.</summary>
    /// <param name="item">Index in <see cref="Items"/>.</param>
    public double MeanRank(int item)
    {
        double sum = 0;
        for (int rank = 0; rank < _items.Length; rank++) sum += (rank + 1.0) * _counts[item, rank];
        return sum / DrawCount;
    }

    /// <summary>An interval of ranks that leaves at most half of the rest on either side.</summary>
    /// <param name="item">Index in <see cref="Items"/>.</param>
    /// <param name="level">Probability of the interval at least, between 0 and 1.</param>
    public (int Low, int High) Interval(int item, double level = 0.95)
    {
        if (!(level > 0 && level < 1)) throw new ArgumentOutOfRangeException(nameof(level), level, "A probability lies between 0 and 1.");
        double tail = 0.5 * (1 - level) * DrawCount;
        int low = 0, high = _items.Length - 1;
        for (long below = _counts[item, 0]; below <= tail && low < high; below += _counts[item, low]) low++;
        for (long above = _counts[item, high]; above <= tail && high > low; above += _counts[item, high]) high--;
        return (low + 1, high + 1);
    }

    /// <summary>A row for every item, in the order given.</summary>
    /// <param name="top">How many places count as the top.</param>
    /// <param name="level">Probability of the rank intervals.</param>
    public IReadOnlyList<RankSummary> Summaries(int top, double level = 0.95)
        => [.. _items.Select((name, item) =>
        {
            var (low, high) = Interval(item, level);
            return new RankSummary(name, Probability(item, 1), ProbabilityTop(item, top), Math.Min(top, _items.Length), MeanRank(item), low, high);
        })];
}
