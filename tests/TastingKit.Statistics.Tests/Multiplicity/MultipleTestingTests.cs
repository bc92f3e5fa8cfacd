namespace TastingKit.Statistics.Tests;

public sealed class MultipleTestingTests
{
    [Fact]
    public void Adjusted_p_values_are_those_of_the_reference_in_any_order()
    {
        var rows = MiscReference.Block("multiplicity").GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(10, rows.Length);
        var random = new RandomStream(3);
        for (int repeat = 0; repeat < 5; repeat++)
        {
            double[] p = [.. rows.Select(r => r.Number("p"))];
            AssertColumn(rows.Select(r => r.Number("holm")), MultipleTesting.Holm(p));
            AssertColumn(rows.Select(r => r.Number("hochberg")), MultipleTesting.Hochberg(p));
            AssertColumn(rows.Select(r => r.Number("bh")), MultipleTesting.BenjaminiHochberg(p));
            AssertColumn(rows.Select(r => r.Number("bonferroni")), MultipleTesting.Bonferroni(p));
            random.Shuffle(rows.AsSpan());
        }
    }

    [Fact]
    public void Adjusting_never_lowers_a_p_value_nor_reverses_two()
    {
        var random = new RandomStream(4);
        for (int repeat = 0; repeat < 50; repeat++)
        {
            double[] p = [.. Enumerable.Range(0, 1 + random.NextInt32(30)).Select(_ => random.NextDouble())];
            foreach (var adjusted in new[] { MultipleTesting.Holm(p), MultipleTesting.Hochberg(p), MultipleTesting.BenjaminiHochberg(p), MultipleTesting.Bonferroni(p) })
            {
                for (int i = 0; i < p.Length; i++)
                {
                    Assert.InRange(adjusted[i], p[i], 1.0);
                    Assert.All(Enumerable.Range(0, p.Length).Where(j => p[j] <= p[i]), j => Assert.True(adjusted[j] <= adjusted[i]));
                }
            }

            Assert.All(Enumerable.Range(0, p.Length), i => Assert.True(MultipleTesting.Hochberg(p)[i] <= MultipleTesting.Holm(p)[i] + 1e-15));
        }
    }

    [Fact]
    public void An_empty_family_is_empty_and_a_wrong_p_value_is_named()
    {
        Assert.Empty(MultipleTesting.Holm([]));
        Assert.Empty(MultipleTesting.BenjaminiHochberg([]));
        var error = Assert.Throws<ArgumentOutOfRangeException>(() => MultipleTesting.Holm([0.2, 1.2]));
        Assert.Contains("position 1", error.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => MultipleTesting.Bonferroni([double.NaN]));
    }

    private static void AssertColumn(IEnumerable<double> expected, IReadOnlyList<double> actual)
    {
        double[] values = [.. expected];
        Assert.Equal(values.Length, actual.Count);
        for (int i = 0; i < values.Length; i++)
        {
            Assert.Equal(values[i], actual[i], 1e-14);
        }
    }
}
