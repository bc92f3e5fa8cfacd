namespace TastingKit.Statistics.Tests;

public sealed class ProportionTests
{
    [Fact]
    public void Intervals_are_those_of_the_reference()
    {
        var rows = MiscReference.Block("wilson").GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(3, rows.Length);
        foreach (var row in rows)
        {
            int x = row.GetProperty("x").GetInt32();
            int n = row.GetProperty("n").GetInt32();
            double level = row.Number("level");
            AssertInterval(row.Number("lower"), row.Number("upper"), Proportion.Wilson(x, n, level));
            AssertInterval(row.Number("lower_cc"), row.Number("upper_cc"), Proportion.Wilson(x, n, level, continuityCorrection: true));
            AssertInterval(row.Number("lower_clopper_pearson"), row.Number("upper_clopper_pearson"), Proportion.ClopperPearson(x, n, level));
        }
    }

    [Fact]
    public void Exact_tests_agree_with_sums_of_probabilities()
    {
        for (int x = 0; x <= 11; x++)
        {
            double[] mass = [.. Enumerable.Range(0, 12).Select(k => Choose(11, k) * Math.Pow(0.3, k) * Math.Pow(0.7, 11 - k))];
            Assert.Equal(mass[x..].Sum(), Proportion.UpperTail(x, 11, 0.3), 1e-13);
            Assert.Equal(mass.Where(m => m <= mass[x] * (1.0 + 1e-7)).Sum(), Proportion.TwoSided(x, 11, 0.3), 1e-12);
        }
    }

    [Fact]
    public void Exact_interval_covers_at_least_as_often_as_it_says()
    {
        foreach (double p in new[] { 0.05, 0.31, 0.5, 0.9 })
        {
            double covered = 0.0;
            for (int x = 0; x <= 25; x++)
            {
                var interval = Proportion.ClopperPearson(x, 25, 0.9);
                covered += interval.Low <= p && p <= interval.High ? Choose(25, x) * Math.Pow(p, x) * Math.Pow(1.0 - p, 25 - x) : 0.0;
            }

            Assert.InRange(covered, 0.9, 1.0 + 1e-12);
        }
    }

    [Fact]
    public void Certain_hypotheses_and_impossible_arguments()
    {
        Assert.Equal(1.0, Proportion.UpperTail(0, 5, 0.0));
        Assert.Equal(0.0, Proportion.UpperTail(1, 5, 0.0));
        Assert.Equal(1.0, Proportion.TwoSided(5, 5, 1.0));
        Assert.Equal(0.0, Proportion.TwoSided(4, 5, 1.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.UpperTail(6, 5, 0.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.UpperTail(1, 5, 1.5));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.Wilson(1, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Proportion.ClopperPearson(1, 5, 0.0));
    }

    private static void AssertInterval(double low, double high, Interval interval)
    {
        Assert.Equal(low, interval.Low, 1e-12);
        Assert.Equal(high, interval.High, 1e-12);
    }

    private static double Choose(int n, int k) => k == 0 ? 1.0 : Choose(n - 1, k - 1) * n / k;
}
