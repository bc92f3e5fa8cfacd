using System.Text.Json;

namespace TastingKit.Statistics.Tests;

public sealed class FurtherSmallTests
{
    [Fact]
    public void Yes_no_tests_are_those_of_the_reference()
    {
        var rows = MiscReference.Block("a_not_a").GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(2, rows.Length);
        foreach (var row in rows)
        {
            var test = YesNoTest.Of(row.GetProperty("hits").GetInt32(), row.GetProperty("signal_trials").GetInt32(), row.GetProperty("false_alarms").GetInt32(), row.GetProperty("noise_trials").GetInt32());
            AssertOptional(row, "d_prime", test.DPrime);
            AssertOptional(row, "se", test.StandardError);
            AssertOptional(row, "lower95", test.Interval?.Low);
            AssertOptional(row, "upper95", test.Interval?.High);
            AssertOptional(row, "criterion_c", test.Criterion);
            AssertOptional(row, "d_prime_loglinear", test.LogLinearDPrime);
            Assert.Equal(1.0, test.P / row.Number("p_fisher_one_sided"), 1e-10);
        }

        Assert.Null(YesNoTest.Of(5, 5, 3, 3).DPrime);
        Assert.Equal(double.PositiveInfinity, YesNoTest.Of(5, 5, 0, 3).DPrime);
        Assert.Null(YesNoTest.Of(5, 5, 0, 3).Criterion);
        Assert.Throws<ArgumentOutOfRangeException>(() => YesNoTest.Of(6, 5, 0, 3));
    }

    [Theory]
    [InlineData("nominal", AlphaMetric.Nominal)]
    [InlineData("ordinal", AlphaMetric.Ordinal)]
    [InlineData("interval", AlphaMetric.Interval)]
    public void Alpha_is_that_of_the_reference(string name, AlphaMetric metric)
    {
        var block = MiscReference.Block("krippendorff");
        JsonElement[] rows = [.. block.GetProperty("table_raters_by_units").EnumerateArray()];
        var ratings = new double?[rows.Length, rows[0].GetArrayLength()];
        for (int r = 0; r < rows.Length; r++)
        {
            for (int u = 0; u < rows[r].GetArrayLength(); u++)
            {
                ratings[r, u] = rows[r][u].ValueKind == JsonValueKind.Null ? null : rows[r][u].GetDouble();
            }
        }

        Assert.Equal(block.GetProperty("results").Number(name), KrippendorffAlpha.Of(ratings, metric), 1e-13);
    }

    [Fact]
    public void Alpha_needs_two_ratings_of_a_unit_and_two_values()
    {
        Assert.Contains("nothing to compare", Assert.Throws<ArgumentException>(() => KrippendorffAlpha.Of(new double?[,] { { 1, null }, { null, 2 } }, AlphaMetric.Nominal)).Message, StringComparison.Ordinal);
        Assert.Contains("undefined", Assert.Throws<ArgumentException>(() => KrippendorffAlpha.Of(new double?[,] { { 1, 1 }, { 1, 1 } }, AlphaMetric.Nominal)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => KrippendorffAlpha.Of(new double?[,] { { 1, double.NaN }, { 1, 2 } }, AlphaMetric.Interval));
    }

    [Fact]
    public void Change_of_level_is_that_of_the_reference()
    {
        var block = MiscReference.Block("series");
        var pettitt = block.GetProperty("results").GetProperty("pettitt");
        var means = block.GetProperty("results").GetProperty("one_change_least_squares");
        var change = ChangePoint.Of(block.Numbers("y"));
        Assert.Equal(pettitt.Number("K"), change.Statistic);
        Assert.Equal(pettitt.GetProperty("last_index_before_change").GetInt32(), change.Before);
        Assert.Equal(pettitt.Number("p_approx"), change.P, 1e-15);
        Assert.Equal(means.Number("mean_before"), change.MeanBefore, 1e-13);
        Assert.Equal(means.Number("mean_after"), change.MeanAfter, 1e-13);
        Assert.Equal(1.0, ChangePoint.Of([1.0, 1.0, 1.0, 1.0]).P);
        Assert.Throws<ArgumentException>(() => ChangePoint.Of([1.0, 2.0, 3.0]));
        Assert.Throws<ArgumentException>(() => ChangePoint.Of([1.0, 2.0, 3.0, double.NaN]));
    }

    [Theory]
    [InlineData("z")]
    [InlineData("t_df_of_slope_at_peak")]
    [InlineData("t_df_of_c")]
    public void Peak_is_that_of_the_reference(string name)
    {
        var row = MiscReference.Block("peak").GetProperty(name);
        double[,] v = row.Matrix("cov_bc");
        var peak = QuadraticPeak.Of(row.Number("b"), row.Number("c"), v[0, 0], v[0, 1], v[1, 1], row.Number("quantile"));
        Assert.Equal(row.Number("peak"), peak.Location, 1e-11);
        Assert.Equal(row.Number("se_delta"), peak.StandardError, 1e-11);
        Assert.Equal(row.GetProperty("is_maximum").GetBoolean(), peak.IsMaximum);
        var set = Assert.IsType<FiellerSet.Bounded>(peak.Set);
        Assert.Equal(row.Number("fieller_lower"), set.Low, 1e-10);
        Assert.Equal(row.Number("fieller_upper"), set.High, 1e-10);
    }

    [Fact]
    public void A_peak_whose_curvature_is_unsure_is_unbounded()
    {
        string Kind(double b, double c) => QuadraticPeak.Of(b, c, 0.01, 0.0, 0.01, 1.96).Set.Match((_, _) => "bounded", (_, _) => "outside", () => "everything");
        Assert.Equal("bounded", Kind(1.0, -1.0));
        Assert.Equal("outside", Kind(1.0, -0.1));
        Assert.Equal("everything", Kind(0.05, -0.1));
        Assert.False(QuadraticPeak.Of(1.0, 1.0, 0.01, 0.0, 0.01, 1.96).IsMaximum);
        Assert.Throws<ArgumentException>(() => QuadraticPeak.Of(1.0, 0.0, 0.01, 0.0, 0.01, 1.96));
        Assert.Throws<ArgumentException>(() => QuadraticPeak.Of(1.0, -1.0, 0.01, 0.1, 0.01, 1.96));
    }

    private static void AssertOptional(JsonElement row, string property, double? actual)
    {
        if (row.GetProperty(property).ValueKind == JsonValueKind.Null)
        {
            Assert.Null(actual);
        }
        else if (double.IsInfinity(row.Number(property)))
        {
            Assert.Equal(row.Number(property), actual);
        }
        else
        {
            Assert.Equal(row.Number(property), actual!.Value, 1e-12);
        }
    }
}
