namespace TastingKit.Statistics.Tests;

public sealed class KendallTrendTests
{
    [Fact]
    public void Trend_is_that_of_the_reference()
    {
        var block = MiscReference.Block("series");
        var expected = block.GetProperty("results").GetProperty("kendall");
        var trend = KendallTrend.Of(block.Numbers("y"));
        Assert.Equal(expected.Number("S"), trend.S);
        Assert.Equal(expected.Number("var_S"), trend.VarianceOfS, 1e-11);
        Assert.Equal(expected.Number("z_continuity"), trend.Z, 1e-13);
        Assert.Equal(expected.Number("p_two_sided_normal"), trend.P, 1e-14);
        Assert.Equal(expected.Number("tau_b"), trend.TauB, 1e-14);
        Assert.Equal(expected.Number("exact_p_if_no_ties"), trend.ExactP!.Value, 1e-14);
        Assert.Equal(expected.Number("sen_slope"), trend.Slope, 1e-14);
    }

    [Fact]
    public void Exact_p_value_counts_all_orders()
    {
        double[] values = [1.0, 2.0, 3.0, 4.0, 5.0];
        double[][] orders = [.. Permutations(values)];
        Assert.Equal(120, orders.Length);
        foreach (double[] order in orders.Take(40))
        {
            int s = KendallTrend.Of(order).S;
            double expected = Math.Min(1.0, 2.0 * orders.Count(o => KendallTrend.Of(o).S >= Math.Abs(s)) / 120.0);
            Assert.Equal(expected, KendallTrend.Of(order).ExactP!.Value, 1e-13);
        }
    }

    [Fact]
    public void Exact_p_value_of_a_long_series_approaches_the_normal_one()
    {
        var random = new RandomStream(9);
        double[] values = [.. Enumerable.Range(0, 150).Select(i => 0.004 * i + random.NextNormal())];
        var trend = KendallTrend.Of(values);
        Assert.Equal(trend.P, trend.ExactP!.Value, 0.002);
    }

    [Fact]
    public void Ties_have_no_exact_p_value_and_a_falling_series_mirrors_a_rising_one()
    {
        double[] values = [1.0, 2.0, 2.0, 4.0, 3.0, 5.0];
        var rising = KendallTrend.Of(values);
        var falling = KendallTrend.Of([.. values.Select(v => -v)]);
        Assert.Null(rising.ExactP);
        Assert.Equal(rising.S, -falling.S);
        Assert.Equal(rising.P, falling.P);
        Assert.Equal(rising.Slope, -falling.Slope);
        var stretched = KendallTrend.Of(values, [0.0, 2.0, 4.0, 6.0, 8.0, 10.0]);
        Assert.Equal(rising.Slope / 2.0, stretched.Slope, 1e-15);
    }

    [Fact]
    public void Impossible_series_are_explained()
    {
        Assert.Throws<ArgumentException>(() => KendallTrend.Of([1.0, 2.0]));
        Assert.Contains("same", Assert.Throws<ArgumentException>(() => KendallTrend.Of([1.0, 1.0, 1.0])).Message, StringComparison.Ordinal);
        Assert.Contains("rising", Assert.Throws<ArgumentException>(() => KendallTrend.Of([1.0, 2.0, 3.0], [1.0, 1.0, 2.0])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => KendallTrend.Of([1.0, 2.0, 3.0], [1.0, 2.0]));
        Assert.Throws<ArgumentException>(() => KendallTrend.Of([1.0, double.NaN, 3.0]));
    }

    private static IEnumerable<double[]> Permutations(double[] values) => values.Length == 1
        ? [values]
        : values.SelectMany((v, i) => Permutations([.. values[..i], .. values[(i + 1)..]]).Select(rest => (double[])[v, .. rest]));
}
