namespace TastingKit.Statistics.Tests;

public sealed class StandardNormalTests
{
    // Expected values: the power series of the error function in 80-digit decimal arithmetic.
    [Theory]
    [InlineData(-0.3, 0.38208857781104736269)]
    [InlineData(-1.0, 0.15865525393145705141)]
    [InlineData(-2.5, 0.0062096653257761351670)]
    [InlineData(-5.0, 2.866515718791939116737523e-7)]
    [InlineData(-5.75, 4.4621724539016118730692e-9)]
    [InlineData(-8.0, 6.220960574271784123515995e-16)]
    [InlineData(0.5, 0.69146246127401310364)]
    [InlineData(1.96, 0.97500210485177956586)]
    [InlineData(4.5, 0.99999660232687526994)]
    public void Cumulative_probability_is_exact_in_both_tails(double x, double expected)
    {
        Assert.Equal(1.0, StandardNormal.CumulativeProbability(x) / expected, 2e-15);
        Assert.Equal(x, StandardNormal.Quantile(expected), 1e-14 * Math.Abs(x) / Math.Min(1.0, (1.0 - expected) * 1e3));
    }

    [Fact]
    public void Ends_of_the_scale_are_the_limits()
    {
        Assert.Equal(0.0, StandardNormal.CumulativeProbability(double.NegativeInfinity));
        Assert.Equal(1.0, StandardNormal.CumulativeProbability(double.PositiveInfinity));
        Assert.Equal(0.5, StandardNormal.CumulativeProbability(0.0));
        Assert.True(double.IsNaN(StandardNormal.CumulativeProbability(double.NaN)));
        Assert.Equal(double.NegativeInfinity, StandardNormal.Quantile(0.0));
        Assert.Equal(double.PositiveInfinity, StandardNormal.Quantile(1.0));
        Assert.Equal(0.0, StandardNormal.Quantile(0.5));
    }

    [Fact]
    public void Quantile_inverts_the_cumulative_probability()
    {
        for (double x = -37.0; x <= 8.0; x += 0.0625)
        {
            double p = StandardNormal.CumulativeProbability(x);
            double tolerance = 1e-14 * Math.Max(1.0, Math.Abs(x)) + 2e-16 / StandardNormal.Density(Math.Max(x, 0.0));
            Assert.Equal(x, StandardNormal.Quantile(p), tolerance);
        }
    }

    [Theory]
    [InlineData(-0.01)]
    [InlineData(1.01)]
    [InlineData(double.NaN)]
    public void A_quantile_needs_a_probability(double p) =>
        Assert.Throws<ArgumentOutOfRangeException>(() => StandardNormal.Quantile(p));
}
