namespace TastingKit.Statistics.Tests;

public sealed class RandomStreamTests
{
    // The first four numbers were also computed by a separate implementation of the published algorithms.
    [Fact]
    public void Raw_bits_are_those_of_xoshiro_seeded_by_splitmix()
    {
        var random = new RandomStream(12345);
        ulong[] expected = [0xbe6a36374160d49bUL, 0x214aaa0637a688c6UL, 0xf69d16de9954d388UL, 0x0c60048c4e96e033UL];
        Assert.Equal(expected, expected.Select(_ => random.NextUInt64()).ToArray());
    }

    [Fact]
    public void Normals_gammas_and_splits_have_their_stored_bits()
    {
        var random = new RandomStream(12345);
        for (int i = 0; i < 4; i++)
        {
            random.NextUInt64();
        }

        ulong[] normals =
        [
            0x3fc1c31dc7c1ecceUL, 0xc00269bc51e8c0d9UL, 0xbfefda19b051d72dUL,
            0xbfe12b0e5e4a9913UL, 0xbfd28ce452be46f9UL, 0x3ff5833c50e04dccUL,
        ];
        Assert.Equal(normals, normals.Select(_ => BitConverter.DoubleToUInt64Bits(random.NextNormal())).ToArray());

        ulong[] gammas = [0x3fdde899c0b6d166UL, 0x40078906610f04b6UL, 0x4025114bbe54c23eUL];
        double[] shapes = [0.3, 1.0, 7.5];
        Assert.Equal(gammas, shapes.Select(s => BitConverter.DoubleToUInt64Bits(random.NextGamma(s))).ToArray());

        var split = new RandomStream(12345).Split(7);
        Assert.Equal(0xcf66df2a87c942d8UL, split.NextUInt64());
        int[] integers = [1, 5, 8, 9, 2, 1];
        Assert.Equal(integers, integers.Select(_ => split.NextInt32(10)).ToArray());
    }

    [Fact]
    public void A_split_depends_on_the_seed_and_the_index_only()
    {
        var untouched = new RandomStream(5);
        var used = new RandomStream(5);
        for (int i = 0; i < 1000; i++)
        {
            used.NextUInt64();
        }

        Assert.Equal(untouched.Split(3).NextUInt64(), used.Split(3).NextUInt64());
    }

    [Fact]
    public void Splits_of_neighbouring_seeds_and_indices_never_coincide()
    {
        var seen = new HashSet<ulong>();
        for (ulong seed = 0; seed < 60; seed++)
        {
            var parent = new RandomStream(seed);
            Assert.True(seen.Add(parent.NextUInt64()));
            for (ulong index = 0; index < 60; index++)
            {
                var child = parent.Split(index);
                Assert.True(seen.Add(child.NextUInt64()));
                Assert.True(seen.Add(child.Split(index).NextUInt64()));
            }
        }
    }

    [Fact]
    public void Parent_and_split_are_uncorrelated()
    {
        var parent = new RandomStream(99);
        var child = parent.Split(0);
        const int n = 100_000;
        double sum = 0.0;
        for (int i = 0; i < n; i++)
        {
            sum += parent.NextNormal() * child.NextNormal();
        }

        Assert.InRange(sum / Math.Sqrt(n), -4.0, 4.0);
    }

    [Fact]
    public void Doubles_are_uniform()
    {
        var random = new RandomStream(2);
        const int n = 1_000_000;
        var counts = new int[100];
        for (int i = 0; i < n; i++)
        {
            double u = random.NextDouble();
            Assert.InRange(u, 0.0, 0.99999999999999989);
            counts[(int)(u * 100)]++;
        }

        // 99 degrees of freedom: four standard deviations around the mean of the chi-square distribution.
        Assert.InRange(ChiSquare(counts, n / 100.0), 99.0 - 4.0 * Math.Sqrt(198.0), 99.0 + 4.0 * Math.Sqrt(198.0));
    }

    [Theory]
    [InlineData(1)]
    [InlineData(7)]
    [InlineData(64)]
    public void Integers_are_uniform_below_the_bound(int bound)
    {
        var random = new RandomStream(3);
        const int n = 300_000;
        var counts = new int[bound];
        for (int i = 0; i < n; i++)
        {
            counts[random.NextInt32(bound)]++;
        }

        double degrees = bound - 1;
        Assert.InRange(ChiSquare(counts, (double)n / bound), degrees - 4.0 * Math.Sqrt(2.0 * degrees) - 1e-9, degrees + 4.0 * Math.Sqrt(2.0 * degrees) + 1e-9);
    }

    [Fact]
    public void Integers_stay_unbiased_when_the_bound_is_close_to_the_range()
    {
        // Two fifths of 2^32: without rejection three in five would be even.
        var random = new RandomStream(4);
        const int bound = 1_717_986_918;
        const int n = 300_000;
        int even = 0;
        for (int i = 0; i < n; i++)
        {
            even += random.NextInt32(bound) % 2 == 0 ? 1 : 0;
        }

        Assert.InRange((even - n / 2.0) / Math.Sqrt(n / 4.0), -4.0, 4.0);
    }

    [Fact]
    public void Normals_follow_the_normal_distribution()
    {
        var random = new RandomStream(5);
        const int n = 400_000;
        var counts = new int[50];
        double fourth = 0.0;
        for (int i = 0; i < n; i++)
        {
            double z = random.NextNormal();
            counts[Math.Min(49, (int)(50.0 * StandardNormal.CumulativeProbability(z)))]++;
            fourth += z * z * z * z;
        }

        Assert.InRange(ChiSquare(counts, n / 50.0), 49.0 - 4.0 * Math.Sqrt(98.0), 49.0 + 4.0 * Math.Sqrt(98.0));
        Assert.InRange((fourth / n - 3.0) / Math.Sqrt(96.0 / n), -4.0, 4.0);
    }

    [Theory]
    [InlineData(0.2)]
    [InlineData(1.0)]
    [InlineData(6.5)]
    public void Gammas_have_the_moments_of_their_shape(double shape)
    {
        var random = new RandomStream(6);
        const int n = 400_000;
        double sum = 0.0;
        double squares = 0.0;
        for (int i = 0; i < n; i++)
        {
            double x = random.NextGamma(shape);
            sum += x;
            squares += (x - shape) * (x - shape);
        }

        Assert.InRange((sum / n - shape) / Math.Sqrt(shape / n), -4.0, 4.0);
        double varianceOfVariance = shape * (2.0 * shape + 6.0);
        Assert.InRange((squares / n - shape) / Math.Sqrt(varianceOfVariance / n), -4.0, 4.0);
    }

    [Fact]
    public void Shuffling_gives_every_order_equally_often()
    {
        var random = new RandomStream(7);
        var counts = new Dictionary<string, int>();
        for (int i = 0; i < 60_000; i++)
        {
            char[] items = ['a', 'b', 'c', 'd'];
            random.Shuffle(items.AsSpan());
            string order = new(items);
            counts[order] = counts.GetValueOrDefault(order) + 1;
        }

        Assert.Equal(24, counts.Count);
        Assert.InRange(ChiSquare(counts.Values, 2500.0), 23.0 - 4.0 * Math.Sqrt(46.0), 23.0 + 4.0 * Math.Sqrt(46.0));
    }

    [Fact]
    public void Impossible_arguments_are_named()
    {
        var random = new RandomStream(0);
        Assert.Equal("exclusiveUpper", Assert.Throws<ArgumentOutOfRangeException>(() => random.NextInt32(0)).ParamName);
        foreach (double shape in new[] { 0.0, -1.0, double.NaN, double.PositiveInfinity })
        {
            Assert.Equal("shape", Assert.Throws<ArgumentOutOfRangeException>(() => random.NextGamma(shape)).ParamName);
        }
    }

    private static double ChiSquare(IEnumerable<int> counts, double expected) =>
        counts.Sum(c => (c - expected) * (c - expected) / expected);
}
