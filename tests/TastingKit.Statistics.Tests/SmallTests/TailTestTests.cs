namespace TastingKit.Statistics.Tests;

public sealed class TailTestTests
{
    // Twenty even numbers have a kurtosis that can be had by hand, and a z-value that other programs print as -1.70581041521.
    [Fact]
    public void Kurtosis_and_its_scale_are_those_of_even_numbers()
    {
        double[] even = [.. Enumerable.Range(0, 20).Select(i => (double)i)];
        var test = TailTest.Of(even);
        Assert.Equal(3.0 / 5 * (3 * 400.0 - 7) / (400 - 1), test.Kurtosis, 1e-12);
        Assert.Equal(-1.7058104152122, test.Z, 1e-12);
        Assert.Equal(1 - 0.04402169166, test.P, 1e-10);
    }

    [Theory]
    [InlineData(30)]
    [InlineData(500)]
    public void Normal_values_are_called_far_straying_at_the_level_asked(int n)
    {
        const int Samples = 4_000;
        var random = new RandomStream(811);
        var values = new double[n];
        int called = 0;
        for (int sample = 0; sample < Samples; sample++)
        {
            for (int i = 0; i < n; i++) values[i] = 5 + (0.3 * random.NextNormal());
            if (TailTest.Of(values).P < 0.05) called++;
        }

        // 5 % with a standard error of 0.34 %.
        Assert.InRange(called / (double)Samples, 0.038, 0.062);
    }

    [Fact]
    public void Neither_unit_nor_place_matters_and_far_values_are_seen()
    {
        var random = new RandomStream(7);
        double[] values = [.. Enumerable.Range(0, 200).Select(_ => random.NextNormal())];
        var plain = TailTest.Of(values);
        var moved = TailTest.Of([.. values.Select(v => 3 - (2 * v))]);
        Assert.Equal(plain.Kurtosis, moved.Kurtosis, 1e-10);
        Assert.Equal(plain.P, moved.P, 1e-10);
        values[4] = -5;
        values[80] = -5.5;
        Assert.True(plain.P > 0.05 && TailTest.Of(values).P < 0.001);
    }

    [Fact]
    public void Two_values_in_turn_stray_least_of_all()
    {
        double[] values = [.. Enumerable.Range(0, 20_000).Select(i => i % 2.0)];
        var test = TailTest.Of(values);
        Assert.Equal(1, test.Kurtosis, 1e-9);
        Assert.Equal(1, test.P, 1e-12);
    }

    [Fact]
    public void Impossible_values_are_explained()
    {
        Assert.Throws<ArgumentException>(() => TailTest.Of(new double[19]));
        Assert.Throws<ArgumentException>(() => TailTest.Of(new double[20]));
        double[] broken = [.. Enumerable.Range(0, 20).Select(i => i == 3 ? double.NaN : i)];
        Assert.Throws<ArgumentException>(() => TailTest.Of(broken));
    }
}
