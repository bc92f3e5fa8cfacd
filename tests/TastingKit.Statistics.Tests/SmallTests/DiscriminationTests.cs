using System.Text.Json;

namespace TastingKit.Statistics.Tests;

public sealed class DiscriminationTests
{
    private static readonly JsonElement Block = MiscReference.Block("discrimination");

    [Fact]
    public void Tests_and_intervals_are_those_of_the_reference()
    {
        var rows = Block.GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(9, rows.Length);
        foreach (var row in rows)
        {
            var protocol = Protocol(row);
            int n = row.GetProperty("n").GetInt32();
            var test = DiscriminationTest.Of(protocol, row.GetProperty("correct").GetInt32(), n);
            Equal(row, "proportion", test.ProportionCorrect);
            Equal(row, "p_difference_exact_one_sided", test.P);
            Equal(row, "p_two_sided_exact", test.TwoSidedP);
            Equal(row, "pd_hat", test.ProportionDiscriminators);
            Equal(row, "d_prime", test.DPrime);
            Equal(row, "se_d_prime", test.StandardError);
            Equal(row, "d_lower_exact", test.Exact.Low);
            Equal(row, "d_upper_exact", test.Exact.High);
            Equal(row, "d_lower_likelihood", test.Likelihood.Low);
            Equal(row, "d_upper_likelihood", test.Likelihood.High);
            var proportion = Proportion.ClopperPearson(test.Correct, n);
            Equal(row, "pc_lower_exact", proportion.Low);
            Equal(row, "pc_upper_exact", proportion.High);
        }
    }

    [Fact]
    public void Psychometric_functions_are_those_of_the_reference()
    {
        var rows = Block.GetProperty("psychometric_points").EnumerateArray().ToArray();
        Assert.Equal(20, rows.Length);
        foreach (var row in rows)
        {
            Assert.Equal(row.Number("pc"), PsychometricFunction.ProportionCorrect(Protocol(row), row.Number("d_prime")), 1e-13);
        }
    }

    [Fact]
    public void Critical_counts_power_and_similarity_are_those_of_the_reference()
    {
        var rows = Block.GetProperty("power").EnumerateArray().ToArray();
        Assert.Equal(3, rows.Length);
        foreach (var row in rows)
        {
            int n = row.GetProperty("n").GetInt32();
            int critical = DiscriminationTest.CriticalCount(Protocol(row), n, row.Number("alpha"));
            Assert.Equal(row.GetProperty("critical_correct").GetInt32(), critical);
            Assert.Equal(row.Number("actual_alpha"), Proportion.UpperTail(critical, n, PsychometricFunction.Chance(Protocol(row))), 1e-12);
            Assert.Equal(row.Number("power"), DiscriminationTest.Power(Protocol(row), n, row.Number("d_prime"), row.Number("alpha")), 1e-12);
        }

        var similarity = Assert.Single(Block.GetProperty("similarity").EnumerateArray().ToArray());
        Assert.Equal(
            similarity.Number("p_similarity_exact"),
            DiscriminationTest.SimilarityP(Protocol(similarity), similarity.GetProperty("correct").GetInt32(), similarity.GetProperty("n").GetInt32(), similarity.Number("pd0")),
            1e-12);
    }

    [Theory]
    [InlineData(DiscriminationProtocol.Triangle)]
    [InlineData(DiscriminationProtocol.DuoTrio)]
    [InlineData(DiscriminationProtocol.Paired)]
    [InlineData(DiscriminationProtocol.ThreeAlternative)]
    [InlineData(DiscriminationProtocol.Tetrad)]
    public void Slope_and_inverse_agree_with_the_function(DiscriminationProtocol protocol)
    {
        for (double d = 0.25; d < 5.0; d += 0.25)
        {
            double p = PsychometricFunction.ProportionCorrect(protocol, d);
            double slope = (PsychometricFunction.ProportionCorrect(protocol, d + 1e-4) - PsychometricFunction.ProportionCorrect(protocol, d - 1e-4)) / 2e-4;
            Assert.Equal(slope, PsychometricFunction.Slope(protocol, d), 1e-7);
            Assert.Equal(d, PsychometricFunction.DPrime(protocol, p), 1e-11);
        }

        Assert.Equal(PsychometricFunction.Chance(protocol), PsychometricFunction.ProportionCorrect(protocol, 0.0), 1e-14);
        Assert.Equal(1.0, PsychometricFunction.ProportionCorrect(protocol, 100.0));
    }

    [Fact]
    public void Impossible_arguments_are_named()
    {
        Assert.Throws<ArgumentOutOfRangeException>(() => DiscriminationTest.Of(DiscriminationProtocol.Triangle, 5, 4));
        Assert.Throws<ArgumentOutOfRangeException>(() => DiscriminationTest.Of(DiscriminationProtocol.Triangle, 0, 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => DiscriminationTest.Of(DiscriminationProtocol.Triangle, 1, 3, 1.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => PsychometricFunction.ProportionCorrect(DiscriminationProtocol.Paired, -1.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => PsychometricFunction.DPrime(DiscriminationProtocol.Paired, 1.5));
        Assert.Equal(5, DiscriminationTest.CriticalCount(DiscriminationProtocol.Paired, 4, 0.05));
        Assert.Equal(0.0, DiscriminationTest.Power(DiscriminationProtocol.Paired, 4, 3.0));
    }

    private static DiscriminationProtocol Protocol(JsonElement row) => row.GetProperty("test").GetString() switch
    {
        "triangle" => DiscriminationProtocol.Triangle,
        "duotrio" => DiscriminationProtocol.DuoTrio,
        "paired" => DiscriminationProtocol.Paired,
        "threeafc" => DiscriminationProtocol.ThreeAlternative,
        "tetrad" => DiscriminationProtocol.Tetrad,
        var other => throw new FormatException(other),
    };

    private static void Equal(JsonElement row, string property, double? actual)
    {
        if (row.GetProperty(property).ValueKind == JsonValueKind.Null)
        {
            Assert.Null(actual);
            return;
        }

        double expected = row.Number(property);
        if (double.IsInfinity(expected))
        {
            Assert.Equal(expected, actual);
            return;
        }

        // The reference differentiates numerically and inverts to about 1e-12.
        Assert.Equal(expected, actual!.Value, 1e-9 * Math.Max(1.0, Math.Abs(expected)));
    }
}
