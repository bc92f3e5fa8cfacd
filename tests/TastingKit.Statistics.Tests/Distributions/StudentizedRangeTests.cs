namespace TastingKit.Statistics.Tests;

public sealed class StudentizedRangeTests
{
    [Fact]
    public void Quantiles_are_those_of_the_reference()
    {
        var results = MiscReference.Block("studentized_range").GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(4, results.Length);
        foreach (var row in results)
        {
            int means = row.GetProperty("k").GetInt32();
            double q = StudentizedRange.Quantile(row.Number("p"), means, row.Number("df"));

            // The reference was inverted to 1e-11.
            Assert.Equal(row.Number("q"), q, 1e-9);
            Assert.Equal(row.Number("p"), StudentizedRange.CumulativeProbability(row.Number("q"), means, row.Number("df")), 1e-11);
        }
    }

    [Theory]
    [InlineData(1.0)]
    [InlineData(7.3)]
    [InlineData(250.0)]
    [InlineData(double.PositiveInfinity)]
    public void For_two_means_it_is_the_absolute_t_distribution(double degreesOfFreedom)
    {
        foreach (double t in new[] { 0.01, 0.5, 1.0, 2.0, 5.0, 7.0 })
        {
            double expected = StudentsT.TwoSidedTail(t, degreesOfFreedom);
            Assert.Equal(1.0, StudentizedRange.UpperTail(t * Math.Sqrt(2.0), 2, degreesOfFreedom) / expected, 1e-9);
        }
    }

    [Theory]
    [InlineData(3, 5.0)]
    [InlineData(6, 2.0)]
    [InlineData(12, 115.0)]
    [InlineData(70, 300.0)]
    [InlineData(200, double.PositiveInfinity)]
    public void Quantile_inverts_the_tail_and_grows_with_the_probability(int means, double degreesOfFreedom)
    {
        double previous = 0.0;
        foreach (double p in new[] { 0.01, 0.5, 0.9, 0.95, 0.999 })
        {
            double q = StudentizedRange.Quantile(p, means, degreesOfFreedom);
            Assert.True(q > previous);
            Assert.Equal(p, StudentizedRange.CumulativeProbability(q, means, degreesOfFreedom), 1e-10);
            previous = q;
        }
    }

    [Fact]
    public void Known_variance_and_many_means_agree_with_simulation()
    {
        var random = new RandomStream(11);
        const int n = 40_000;
        double q = StudentizedRange.Quantile(0.9, 70, double.PositiveInfinity);
        int above = 0;
        for (int i = 0; i < n; i++)
        {
            double low = double.PositiveInfinity;
            double high = double.NegativeInfinity;
            for (int j = 0; j < 70; j++)
            {
                double z = random.NextNormal();
                low = Math.Min(low, z);
                high = Math.Max(high, z);
            }

            above += high - low > q ? 1 : 0;
        }

        Assert.InRange((above - 0.1 * n) / Math.Sqrt(0.09 * n), -4.0, 4.0);
    }

    [Fact]
    public void Many_degrees_of_freedom_approach_the_known_variance()
    {
        foreach (double q in new[] { 1.0, 3.0, 6.0 })
        {
            double limit = StudentizedRange.UpperTail(q, 5, double.PositiveInfinity);
            Assert.Equal(1.0, StudentizedRange.UpperTail(q, 5, 1e11) / limit, 1e-9);
        }
    }

    [Fact]
    public void Ends_and_impossible_arguments()
    {
        Assert.Equal(1.0, StudentizedRange.UpperTail(0.0, 4, 10.0), 1e-12);
        Assert.Equal(0.0, StudentizedRange.UpperTail(double.PositiveInfinity, 4, 10.0));
        Assert.Equal(0.0, StudentizedRange.Quantile(0.0, 4, 10.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StudentizedRange.UpperTail(-1.0, 4, 10.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StudentizedRange.UpperTail(1.0, 1, 10.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StudentizedRange.UpperTail(1.0, 4, 0.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StudentizedRange.UpperTail(double.NaN, 4, 10.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => StudentizedRange.Quantile(1.0, 4, 10.0));
    }
}
