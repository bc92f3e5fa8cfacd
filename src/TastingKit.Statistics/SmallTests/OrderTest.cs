namespace TastingKit.Statistics;

/// <summary>
/// Whether values hang together with the order of their times: Kendall's S for a rise or fall, Pettitt's K for one step, their p-values by
/// permuting whole values over the times, so that neither even times nor values without ties are needed.
/// </summary>
/// <remarks>
/// All orders of up to <see cref="MostInAllOrders"/> values are gone through. Of more, random ones are drawn, and the p-value is
/// (as extreme + 1) / (drawn + 1) (Phipson and Smyth 2010, Statistical Applications in Genetics and Molecular Biology 9:39).
/// </remarks>
/// <param name="Values">Number of values.</param>
/// <param name="S">Pairs that rise with time less those that fall; pairs of one time or one value are neither.</param>
/// <param name="TauB">Kendall's tau-b: from −1 to 1; 0 where all values or all times are the same.</param>
/// <param name="TrendP">Two-sided p-value of S.</param>
/// <param name="K">The largest absolute rank sum of the first part about its expectation, doubled; a step is never looked for within one time.</param>
/// <param name="Before">Number of values before the likeliest step, in the order of their times.</param>
/// <param name="StepP">p-value of K.</param>
/// <param name="Orders">Orders that the p-values rest on: all there are, or those drawn.</param>
/// <param name="IsExact">Whether these are all.</param>
public sealed record OrderTest(int Values, long S, double TauB, double TrendP, double K, int Before, double StepP, int Orders, bool IsExact)
{
    /// <summary>The most values of which every order is gone through: 40,320 of them.</summary>
    public const int MostInAllOrders = 8;

    private const int FewestValues = 4;

    /// <summary>Tests values at stated times.</summary>
    /// <param name="values">The values, at least four, all finite.</param>
    /// <param name="times">Their times, in order; equal ones may stand side by side, but not all may be equal.</param>
    /// <param name="orders">Orders drawn where there are too many for all; at least 99.</param>
    /// <param name="random">What draws them.</param>
    /// <exception cref="ArgumentException">Lengths differ, too few values, one that is not finite, times out of order or all the same, or too few orders.</exception>
    public static OrderTest Of(ReadOnlySpan<double> values, ReadOnlySpan<double> times, int orders, RandomStream random)
    {
        ArgumentNullException.ThrowIfNull(random);
        Check(values, times, orders);
        var ranks = Ranks(values);
        var ends = GroupEnds(times);
        var work = new Counts(values.Length);
        var (s, k, before) = work.Of(ranks, ends);
        int asSteep = 0, asLarge = 0, count = 0;
        var order = (int[])ranks.Clone();
        var isExact = ranks.Length <= MostInAllOrders;
        if (isExact)
        {
            Permute(order, order.Length, Look);
        }
        else
        {
            for (int i = 0; i < orders; i++)
            {
                random.Shuffle<int>(order);
                Look();
            }
        }

        double more = isExact ? 0 : 1;
        return new OrderTest(
            ranks.Length, s, TauOf(s, values, times), (asSteep + more) / (count + more), k, before, (asLarge + more) / (count + more), count, isExact);

        void Look()
        {
            var (ofS, ofK, _) = work.Of(order, ends);
            count++;
            asSteep += Math.Abs(ofS) >= Math.Abs(s) ? 1 : 0;
            asLarge += ofK >= k ? 1 : 0;
        }
    }

    // Heap's algorithm: each order once, by one exchange from the last.
    private static void Permute(int[] order, int n, Action look)
    {
        if (n == 1)
        {
            look();
            return;
        }

        for (int i = 0; i < n; i++)
        {
            Permute(order, n - 1, look);
            int other = n % 2 == 0 ? i : 0;
            if (i < n - 1)
            {
                (order[other], order[n - 1]) = (order[n - 1], order[other]);
            }
        }
    }

    /// <summary>Twice the middle rank of each value: a whole number, with ties as without.</summary>
    private static int[] Ranks(ReadOnlySpan<double> values)
    {
        double[] sorted = values.ToArray();
        Array.Sort(sorted);
        var ranks = new int[values.Length];
        for (int i = 0; i < values.Length; i++)
        {
            int first = FirstAt(sorted, values[i]);
            int last = first;
            while (last + 1 < sorted.Length && sorted[last + 1] == values[i])
            {
                last++;
            }

            ranks[i] = first + last + 2;
        }

        return ranks;
    }

    private static int FirstAt(double[] sorted, double value)
    {
        int at = Array.BinarySearch(sorted, value);
        while (at > 0 && sorted[at - 1] == value)
        {
            at--;
        }

        return at;
    }

    private static int[] GroupEnds(ReadOnlySpan<double> times)
    {
        var ends = new List<int>();
        for (int i = 0; i < times.Length; i++)
        {
            if (i + 1 == times.Length || times[i + 1] > times[i])
            {
                ends.Add(i + 1);
            }
        }

        return [.. ends];
    }

    private static double TauOf(long s, ReadOnlySpan<double> values, ReadOnlySpan<double> times)
    {
        double pairs = 0.5 * values.Length * (values.Length - 1.0);
        double scale = Math.Sqrt((pairs - TiedPairs(values)) * (pairs - TiedPairs(times)));
        return scale > 0 ? s / scale : 0;
    }

    private static double TiedPairs(ReadOnlySpan<double> values) => values.ToArray().GroupBy(value => value).Sum(tied => 0.5 * tied.Count() * (tied.Count() - 1.0));

    private static void Check(ReadOnlySpan<double> values, ReadOnlySpan<double> times, int orders)
    {
        if (values.Length != times.Length)
        {
            throw new ArgumentException($"There are {values.Length} values and {times.Length} times.", nameof(times));
        }

        if (values.Length < FewestValues)
        {
            throw new ArgumentException($"Order is tested among at least {FewestValues} values; there are {values.Length}.", nameof(values));
        }

        if (orders < 99)
        {
            throw new ArgumentException($"A p-value by random orders needs at least 99 of them; {orders} were asked for.", nameof(orders));
        }

        for (int i = 0; i < values.Length; i++)
        {
            if (!double.IsFinite(values[i]) || !double.IsFinite(times[i]) || (i > 0 && times[i] < times[i - 1]))
            {
                throw new ArgumentException(
                    FormattableString.Invariant($"Values and times must be finite and times in order; number {i} (counted from 0) is {values[i]} at {times[i]}."), nameof(values));
            }
        }

        if (times[^1] == times[0])
        {
            throw new ArgumentException("All times are the same; there is no order to test.", nameof(times));
        }
    }

    /// <summary>Both statistics of an order, pairs counted by a tree of cumulative counts over ranks.</summary>
    private sealed class Counts(int values)
    {
        private readonly int[] _tree = new int[(2 * values) + 2];

        public (long S, double K, int Before) Of(int[] ranks, int[] ends)
        {
            Array.Clear(_tree);
            long s = 0, sum = 0, largest = -1;
            int from = 0, before = 0;
            foreach (int end in ends)
            {
                for (int i = from; i < end; i++)
                {
                    s += Below(ranks[i] - 1) - (from - Below(ranks[i]));
                    sum += ranks[i];
                }

                for (int i = from; i < end; i++)
                {
                    Add(ranks[i]);
                }

                from = end;
                long u = Math.Abs(sum - ((long)end * (ranks.Length + 1)));
                if (end < ranks.Length && u > largest)
                {
                    (largest, before) = (u, end);
                }
            }

            return (s, largest, before);
        }

        private int Below(int rank)
        {
            int count = 0;
            for (int i = rank; i > 0; i -= i & -i)
            {
                count += _tree[i];
            }

            return count;
        }

        private void Add(int rank)
        {
            for (int i = rank; i < _tree.Length; i += i & -i)
            {
                _tree[i]++;
            }
        }
    }
}
