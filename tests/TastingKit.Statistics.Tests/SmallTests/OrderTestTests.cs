namespace TastingKit.Statistics.Tests;

public sealed class OrderTestTests
{
    [Fact]
    public void Without_ties_the_trend_of_few_values_is_Kendalls_exact_test()
    {
        double[] values = [3.1, 2.0, 4.7, 4.1, 6.0, 5.2, 7.7], times = [1, 2, 3, 4, 5, 6, 7];
        var found = OrderTest.Of(values, times, 99, new RandomStream(1));
        var kendall = KendallTrend.Of(values);
        Assert.Equal((kendall.S, 5040, true), (found.S, found.Orders, found.IsExact));
        Assert.Equal(kendall.TauB, found.TauB, 12);
        Assert.Equal(kendall.ExactP!.Value, found.TrendP, 12);
    }

    [Fact]
    public void Drawn_orders_come_near_the_exact_test_and_count_the_order_found()
    {
        double[] values = [3.1, 2.0, 4.7, 4.1, 6.0, 5.2, 7.7, 1.2, 3.3, 6.6, 2.9, 6.1], times = [.. Enumerable.Range(0, 12).Select(i => (double)i)];
        var found = OrderTest.Of(values, times, 20_000, new RandomStream(1));
        Assert.False(found.IsExact);
        Assert.InRange(found.TrendP, KendallTrend.Of(values).ExactP!.Value - 0.012, KendallTrend.Of(values).ExactP!.Value + 0.012);
        double[] steep = [.. Enumerable.Range(0, 40).Select(i => (double)i)];
        Assert.Equal(1.0 / 200, OrderTest.Of(steep, steep, 199, new RandomStream(1)).TrendP, 12);
    }

    [Fact]
    public void The_step_is_Pettitts_and_is_looked_for_between_different_times_alone()
    {
        double[] values = [5, 5.1, 4.9, 5.2, 7, 7.2, 6.9, 7.1, 7.05, 6.95], times = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10];
        var found = OrderTest.Of(values, times, 1999, new RandomStream(1));
        var pettitt = ChangePoint.Of(values);
        Assert.Equal((pettitt.Statistic, pettitt.Before), (found.K, found.Before));
        Assert.InRange(found.StepP, 0.002, 0.03);

        // Within the three of one time no step is looked for, and the next best is a value earlier.
        Assert.Equal(3, OrderTest.Of(values, [1, 2, 3, 4, 4, 4, 7, 8, 9, 10], 199, new RandomStream(1)).Before);
    }

    [Fact]
    public void Pairs_of_one_time_or_value_are_neither_rise_nor_fall()
    {
        var found = OrderTest.Of([1, 2, 2, 3], [1, 1, 2, 3], 99, new RandomStream(1));
        // Rises: 1 to 2 (second), 1 to 3, 2 to 3, 2 to 3; the pair of equal times and the equal pair count nothing.
        Assert.Equal(4, found.S);
        Assert.Equal(4 / Math.Sqrt(5 * 5), found.TauB, 12);
        // All values the same: every order is as extreme.
        Assert.Equal((1.0, 1.0, 0.0), (OrderTest.Of([2, 2, 2, 2], [1, 2, 3, 4], 99, new RandomStream(1)) is var flat ? flat.TrendP : 0, flat.StepP, flat.TauB));
    }

    [Fact]
    public void The_same_seed_gives_the_same_and_bad_input_is_told()
    {
        double[] values = [.. Enumerable.Range(0, 30).Select(i => Math.Sin(i * i))], times = [.. Enumerable.Range(0, 30).Select(i => (double)i)];
        Assert.Equal(OrderTest.Of(values, times, 499, new RandomStream(7)), OrderTest.Of(values, times, 499, new RandomStream(7)));
        Assert.Throws<ArgumentException>(() => OrderTest.Of([1, 2, 3], [1, 2, 3], 99, new RandomStream(1)));
        Assert.Throws<ArgumentException>(() => OrderTest.Of([1, 2, 3, 4], [1, 1, 1, 1], 99, new RandomStream(1)));
        Assert.Throws<ArgumentException>(() => OrderTest.Of([1, 2, 3, 4], [1, 3, 2, 4], 99, new RandomStream(1)));
        Assert.Throws<ArgumentException>(() => OrderTest.Of([1, 2, 3, double.NaN], [1, 2, 3, 4], 99, new RandomStream(1)));
        Assert.Throws<ArgumentException>(() => OrderTest.Of([1, 2, 3, 4], [1, 2, 3, 4], 9, new RandomStream(1)));
    }
}
