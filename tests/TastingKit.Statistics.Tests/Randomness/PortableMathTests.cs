namespace TastingKit.Statistics.Tests;

public sealed class PortableMathTests
{
    [Fact]
    public void Logarithm_and_exponential_stay_within_two_units_of_the_platform()
    {
        var random = new RandomStream(1);
        for (int i = 0; i < 200_000; i++)
        {
            double x = (random.NextDouble() - 0.5) * 1400.0;
            AssertWithinUnits(Math.Exp(x), PortableMath.Exp(x), x);
            double y = Math.Exp(x / 1.01);
            AssertWithinUnits(Math.Log(y), PortableMath.Log(y), y);
            double nearOne = 1.0 + x * 1e-9;
            AssertWithinUnits(Math.Log(nearOne), PortableMath.Log(nearOne), nearOne);
        }
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(709.79)]
    [InlineData(-745.2)]
    public void Exponential_at_the_edges_of_the_range_is_that_of_the_platform(double x) =>
        Assert.Equal(Math.Exp(x), PortableMath.Exp(x));

    [Theory]
    [InlineData(0.0)]
    [InlineData(1.0)]
    [InlineData(-1.0)]
    [InlineData(double.NaN)]
    [InlineData(double.PositiveInfinity)]
    [InlineData(double.NegativeInfinity)]
    [InlineData(double.Epsilon)]
    [InlineData(double.MaxValue)]
    public void Logarithm_at_the_edges_of_the_range_is_that_of_the_platform(double x) =>
        Assert.Equal(Math.Log(x), PortableMath.Log(x));

    [Theory]
    [InlineData(709.7)]
    [InlineData(-708.5)]
    [InlineData(-740.0)]
    public void Exponential_keeps_its_accuracy_near_the_largest_and_among_the_subnormal_numbers(double x) =>
        AssertWithinUnits(Math.Exp(x), PortableMath.Exp(x), x);

    [Theory]
    [InlineData(0.1, 0x3ff1aec7b35a00d4UL)]
    [InlineData(-3.7, 0x3f99511fc6871044UL)]
    [InlineData(88.25, 0x47e3f180bd95a9aeUL)]
    public void Exponential_has_its_stored_bits(double x, ulong bits) =>
        Assert.Equal(bits, BitConverter.DoubleToUInt64Bits(PortableMath.Exp(x)));

    [Theory]
    [InlineData(0.1, 0xc0026bb1bbb55515UL)]
    [InlineData(3.7, 0x3ff4eeee650ae550UL)]
    [InlineData(1e-310, 0xc0864e69394d9508UL)]
    public void Logarithm_has_its_stored_bits(double x, ulong bits) =>
        Assert.Equal(bits, BitConverter.DoubleToUInt64Bits(PortableMath.Log(x)));

    private static void AssertWithinUnits(double expected, double actual, double argument)
    {
        long units = Math.Abs(BitConverter.DoubleToInt64Bits(expected) - BitConverter.DoubleToInt64Bits(actual));
        Assert.True(units <= 2, $"at {argument:R}: {expected:R} against {actual:R}, {units} units apart");
    }
}
