using System.Globalization;

namespace TastingKit.Statistics.Tests;

public sealed class AgreementTests
{
    [Theory]
    [InlineData("unweighted", KappaWeights.Unweighted)]
    [InlineData("linear", KappaWeights.Linear)]
    [InlineData("quadratic", KappaWeights.Quadratic)]
    public void Kappa_is_that_of_the_reference(string name, KappaWeights weights)
    {
        var block = MiscReference.Block("kappa");
        var expected = block.GetProperty("results").GetProperty(name);
        var kappa = Kappa.Of(block.Matrix("table"), weights);
        Assert.Equal(expected.Number("observed"), kappa.Observed, 1e-13);
        Assert.Equal(expected.Number("expected"), kappa.Expected, 1e-13);
        Assert.Equal(expected.Number("kappa"), kappa.Value, 1e-13);
        Assert.Equal(expected.Number("se"), kappa.StandardError, 1e-13);
        Assert.Equal(expected.Number("lower95"), kappa.Low, 1e-12);
        Assert.Equal(expected.Number("upper95"), kappa.High, 1e-12);
        Assert.Equal(expected.Number("se_null"), kappa.NullStandardError, 1e-13);
        Assert.Equal(1.0, kappa.P / expected.Number("p_two_sided"), 1e-9);
    }

    [Fact]
    public void Kappa_of_perfect_and_of_independent_classifications()
    {
        Assert.Equal(1.0, Kappa.Of(new[,] { { 10.0, 0.0 }, { 0.0, 7.0 } }).Value, 1e-15);
        Assert.Equal(0.0, Kappa.Of(new[,] { { 8.0, 12.0 }, { 12.0, 18.0 } }).Value, 1e-15);
        Assert.Contains("undefined", Assert.Throws<ArgumentException>(() => Kappa.Of(new[,] { { 9.0, 0.0 }, { 0.0, 0.0 } })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Kappa.Of(new double[2, 3]));
        Assert.Throws<ArgumentException>(() => Kappa.Of(new double[2, 2]));
        Assert.Throws<ArgumentException>(() => Kappa.Of(new[,] { { 1.0, -1.0 }, { 1.0, 1.0 } }));
    }

    [Fact]
    public void Intraclass_correlations_are_those_of_the_reference()
    {
        var block = MiscReference.Block("icc_two_way");
        var expected = block.GetProperty("results").GetProperty("table").EnumerateArray().ToArray();
        var actual = IntraclassCorrelations.Of(block.Matrix("table"));
        Assert.Equal(3, expected.Length);
        Assert.Equal([IntraclassCorrelationForm.OneWay, IntraclassCorrelationForm.TwoWayAgreement, IntraclassCorrelationForm.TwoWayConsistency], actual.Select(r => r.Form));
        for (int i = 0; i < 3; i++)
        {
            Assert.Equal(expected[i].Number("icc"), actual[i].Value, 1e-13);
            Assert.Equal(expected[i].Number("lower95"), actual[i].Low, 1e-10);
            Assert.Equal(expected[i].Number("upper95"), actual[i].High, 1e-10);
            Assert.Equal(expected[i].Number("icc_average_of_k"), actual[i].OfMean, 1e-13);
        }

        // As published, to two digits.
        Assert.Equal(["0.17", "0.29", "0.71"], actual.Select(r => r.Value.ToString("F2", CultureInfo.InvariantCulture)));
    }

    [Fact]
    public void Intraclass_correlations_need_a_complete_table_with_some_disagreement()
    {
        Assert.Throws<ArgumentException>(() => IntraclassCorrelations.Of(new double[1, 4]));
        Assert.Contains("target 1 by rater 0", Assert.Throws<ArgumentException>(() => IntraclassCorrelations.Of(new[,] { { 1.0, 2.0 }, { double.NaN, 3.0 } })).Message, StringComparison.Ordinal);
        Assert.Contains("agree exactly", Assert.Throws<ArgumentException>(() => IntraclassCorrelations.Of(new[,] { { 1.0, 2.0 }, { 2.0, 3.0 }, { 5.0, 6.0 } })).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Repeatability_is_that_of_the_reference()
    {
        string[] lines = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "misc", "data.csv")).Skip(1)];
        var item = CategoricalColumn.From("item", [.. lines.Select(l => l.Split(',')[0])]);
        double[] scores = [.. lines.Select(l => double.Parse(l.Split(',')[1], CultureInfo.InvariantCulture))];
        var expected = MiscReference.Block("repeatability").GetProperty("results");
        var actual = Repeatability.Of(item, scores);
        Assert.Equal(expected.Number("groups"), actual.Items);
        Assert.Equal(expected.Number("n"), actual.Observations);
        Assert.Equal(expected.Number("df_within"), actual.DegreesOfFreedom);
        Assert.Equal(expected.Number("ms_between"), actual.MeanSquareBetween, 1e-12);
        Assert.Equal(expected.Number("ms_within"), actual.MeanSquareWithin, 1e-13);
        Assert.Equal(expected.Number("F"), actual.F, 1e-11);
        Assert.Equal(1.0, actual.P / expected.Number("p"), 1e-11);
        Assert.Equal(expected.Number("repeatability_sd"), actual.StandardDeviation, 1e-13);
        Assert.Equal(expected.Number("sd_lower95"), actual.Low, 1e-11);
        Assert.Equal(expected.Number("sd_upper95"), actual.High, 1e-11);
        Assert.Equal(expected.Number("repeatability_limit_95"), actual.Limit, 1e-12);
        Assert.Equal(expected.Number("single_value_half_width_95"), actual.HalfWidth, 1e-12);
        Assert.Equal(expected.Number("variance_between_anova"), actual.VarianceBetween, 1e-12);
        Assert.Equal(expected.Number("icc_anova_negative_truncated"), actual.IntraclassCorrelation, 1e-13);
    }

    [Fact]
    public void Repeatability_of_unequal_numbers_and_of_impossible_data()
    {
        // By hand: means 2 and 5 about 3.8, sums of squares 4 within and 2·1.8² + 3·1.2² between, n₀ = (5 − 13/5)/1.
        var item = CategoricalColumn.From("item", ["a", "a", "b", "b", "b"]);
        var result = Repeatability.Of(item, [1.0, 3.0, 4.0, 5.0, 6.0]);
        Assert.Equal(4.0 / 3.0, result.MeanSquareWithin, 1e-14);
        Assert.Equal(2.0 * 1.8 * 1.8 + 3.0 * 1.2 * 1.2, result.MeanSquareBetween, 1e-13);
        Assert.Equal((result.MeanSquareBetween - result.MeanSquareWithin) / 2.4, result.VarianceBetween, 1e-13);
        Assert.Throws<ArgumentException>(() => Repeatability.Of(item, [1.0]));
        Assert.Throws<ArgumentException>(() => Repeatability.Of(CategoricalColumn.From("item", ["a", "b"]), [1.0, 2.0]));
        Assert.Contains("Value 2", Assert.Throws<ArgumentException>(() => Repeatability.Of(item, [1.0, 3.0, double.NaN, 5.0, 6.0])).Message, StringComparison.Ordinal);
    }
}
