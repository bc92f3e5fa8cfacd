namespace TastingKit.Statistics.Tests;

public sealed class RoundedSpreadTests
{
    private static readonly double[][] Unrounded = [[6.31, 6.92], [7.44, 7.05], [5.87, 6.02, 6.6], [8.13, 7.29], [6.75, 6.9], [7.7, 7.01]];

    [Fact]
    public void Without_steps_the_interval_is_that_of_chi_square()
    {
        var spread = RoundedSpread.Of(Unrounded, 0);
        var iso = Iso(Unrounded);

        Assert.Equal(iso.StandardDeviation, spread.Estimate, 1e-12);
        // The grid's spacing of four per cent leaves a part in a thousand.
        Assert.Equal(iso.Low, spread.Interval().Low, 1e-3 * iso.Low);
        Assert.Equal(iso.High, spread.Interval().High, 1e-3 * iso.High);
        Assert.Equal(7, spread.DegreesOfFreedom);
    }

    [Fact]
    public void Fine_steps_change_nothing_and_coarse_ones_are_taken_out()
    {
        var random = new RandomStream(31);
        double[][] sets = [.. Enumerable.Range(0, 4000).Select(_ =>
        {
            double mean = 5 + 2 * random.NextDouble();
            return new[] { mean + 0.3 * random.NextNormal(), mean + 0.3 * random.NextNormal() };
        })];
        Assert.Equal(RoundedSpread.Of(sets, 0).Estimate, RoundedSpread.Of(Rounded(sets, 0.01), 0.01).Estimate, 1e-3);

        // Rounded to steps of three standard deviations, the plain estimate is far off and this one is not.
        var coarse = Rounded(sets, 1);
        Assert.True(Iso(coarse).StandardDeviation > 0.38);
        Assert.InRange(RoundedSpread.Of(coarse, 1).Estimate, 0.28, 0.32);
    }

    [Fact]
    public void The_ratio_without_steps_is_that_of_the_f_distribution()
    {
        var ratio = RoundedSpread.Of(Unrounded, 0).RatioTo(RoundedSpread.Of([[1, 2], [3, 5], [4, 4.4], [6, 6.9], [2, 3.1]], 0));
        double estimate = Iso(Unrounded).StandardDeviation / Iso([[1, 2], [3, 5], [4, 4.4], [6, 6.9], [2, 3.1]]).StandardDeviation;
        double low = estimate / Math.Sqrt(SamplingDistributions.FQuantile(0.975, 7, 5)), high = estimate / Math.Sqrt(SamplingDistributions.FQuantile(0.025, 7, 5));
        Assert.Equal(low, ratio.Low, 1e-3 * low);
        Assert.Equal(high, ratio.High, 1e-3 * high);
    }

    [Fact]
    public void Repeats_that_never_differ_leave_nought_possible_but_not_certain()
    {
        var spread = RoundedSpread.Of([[6, 6], [7, 7], [6.5, 6.5]], 0.5);
        Assert.Equal(0, spread.Estimate);
        Assert.Equal(0, spread.Interval().Low);
        Assert.InRange(spread.Interval().High, 0.1, 1.5);
        // The same in other units.
        Assert.Equal(2 * spread.Interval().High, RoundedSpread.Of([[12, 12], [14, 14], [13, 13]], 1).Interval().High, 1e-9);
    }

    [Theory]
    [InlineData(0.4, 0.5)]
    [InlineData(0.15, 0.5)]
    [InlineData(0.8, 1)]
    public void Intervals_of_few_rounded_repeats_cover(double deviation, double step)
    {
        var random = new RandomStream(77);
        int covered = 0;
        const int Tries = 500;
        for (int i = 0; i < Tries; i++)
        {
            double[][] sets = [.. Enumerable.Range(0, 10).Select(_ =>
            {
                double mean = 5 + 3 * random.NextDouble();
                return new[] { mean + deviation * random.NextNormal(), mean + deviation * random.NextNormal() };
            })];
            var interval = RoundedSpread.Of(Rounded(sets, step), step).Interval();
            covered += interval.Low <= deviation && deviation <= interval.High ? 1 : 0;
        }

        // Three simulation errors about the nominal coverage; above it is no fault where steps are coarse.
        Assert.InRange(covered / (double)Tries, 0.92, 0.99);
    }

    [Fact]
    public void A_rare_difference_is_one_that_chance_seldom_makes()
    {
        Assert.Equal(0.5, RoundedSpread.RareDifference(0, 0.5, 0.05));
        double rare = RoundedSpread.RareDifference(0.4, 0.5, 0.05);
        var random = new RandomStream(5);
        int reached = 0, nearly = 0;
        for (int i = 0; i < 20000; i++)
        {
            double mean = random.NextDouble();
            double difference = Math.Abs(Round(mean + 0.4 * random.NextNormal(), 0.5) - Round(mean + 0.4 * random.NextNormal(), 0.5));
            reached += difference >= rare - 1e-9 ? 1 : 0;
            nearly += difference >= rare - 0.5 - 1e-9 ? 1 : 0;
        }

        Assert.True(reached < 1000 && nearly > 1000);
    }

    [Fact]
    public void What_is_no_set_of_repeats_is_refused()
    {
        Assert.Throws<ArgumentException>(() => RoundedSpread.Of([], 0.5));
        Assert.Throws<ArgumentException>(() => RoundedSpread.Of([[1]], 0.5));
        Assert.Throws<ArgumentException>(() => RoundedSpread.Of([[1, double.NaN]], 0.5));
        Assert.Throws<ArgumentException>(() => RoundedSpread.Of([[1, 1]], 0));
        Assert.Throws<ArgumentException>(() => RoundedSpread.Of([[1, 2]], -1));
    }

    private static Repeatability Iso(double[][] sets) => Repeatability.Of(
        CategoricalColumn.From("set", [.. sets.SelectMany((set, i) => set.Select(_ => $"s{i}"))]), sets.SelectMany(set => set).ToArray());

    private static double[][] Rounded(double[][] sets, double step) => [.. sets.Select(set => set.Select(value => Round(value, step)).ToArray())];

    private static double Round(double value, double step) => Math.Round(value / step) * step;
}
