using Xunit.Sdk;

namespace TastingKit.Tests.Simulation;

public class YearsTests
{
    [Fact]
    public void The_comparison_within_a_share_can_fail()
    {
        Years.Near(10, 10.4, 0.05);
        Assert.Throws<TrueException>(() => Years.Near(10, 10.6, 0.05));
        Assert.Throws<TrueException>(() => Years.Near(10, double.NaN, 0.05));
    }

    [Fact]
    public void The_standard_deviation_is_the_samples() => Assert.Equal(Math.Sqrt(5.0 / 3), Years.StandardDeviation([1, 2, 3, 4]), 12);
}
