namespace TastingKit.Statistics;

/// <summary>Which end of the scale is rank 1.</summary>
public enum RankOrder
{
    /// <summary>The largest value is the best.</summary>
    HighestFirst,

    /// <summary>The smallest value is the best.</summary>
    LowestFirst,
}

/// <summary>How items rank against each other over joint draws of their values.</summary>
public static class Ranks
{
    /// <summary>Counts how often each item takes each rank.</summary>
    /// <param name="draws">Values, draws × items, as <see cref="JointDraws.Evaluate"/> gives them.</param>
    /// <param name="items">The items' names, one a column.</param>
    /// <param name="order">Which end is rank 1.</param>
    /// <param name="threads">The most threads to use, or 0 for all; the result does not depend on it.</param>
    /// <exception cref="ArgumentException">No draws, or another number of names than columns.</exception>
    public static RankDistribution Of(double[,] draws, IReadOnlyList<string> items, RankOrder order = RankOrder.HighestFirst, int threads = 0)
    {
        ArgumentNullException.ThrowIfNull(draws);
        ArgumentNullException.ThrowIfNull(items);
        int count = draws.GetLength(0), width = draws.GetLength(1);
        if (count == 0 || width != items.Count) throw new ArgumentException($"There are {count} draws of {width} values for {items.Count} names; at least one draw and as many names as values are needed.", nameof(draws));
        var total = new int[width, width];
        var merge = new Lock();
        double sign = order == RankOrder.HighestFirst ? -1 : 1;
        int workers = threads > 0 ? threads : Environment.ProcessorCount;
        int block = (count + workers - 1) / workers;
        Parallel.For(0, workers, new ParallelOptions { MaxDegreeOfParallelism = workers }, worker =>
        {
            var counts = new int[width, width];
            var keys = new double[width];
            var order = new int[width];
            for (int draw = worker * block; draw < Math.Min(count, (worker + 1) * block); draw++)
            {
                for (int item = 0; item < width; item++)
                {
                    keys[item] = sign * draws[draw, item];
                    order[item] = item;
                }

                Array.Sort(keys, order);
                for (int rank = 0; rank < width; rank++) counts[order[rank], rank]++;
            }

            lock (merge)
            {
                for (int item = 0; item < width; item++)
                    for (int rank = 0; rank < width; rank++) total[item, rank] += counts[item, rank];
            }
        });
        return new RankDistribution([.. items], total, count);
    }
}
