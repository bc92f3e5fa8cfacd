namespace TastingKit.Statistics.Tests;

public sealed class VarianceSumTests
{
    [Fact]
    public void The_residual_alone_has_the_chi_square_interval_of_its_degrees_of_freedom()
    {
        double[] values = [6.1, 7.4, 5.2, 6.6, 8.0, 7.1, 6.3, 5.9];
        var sum = LinearMixedModel.Fit(ModelDesign.For("y", values)).ResidualVarianceWith();
        double variance = values.Sum(value => (value - values.Average()) * (value - values.Average())) / 7;

        Assert.Equal(variance, sum.Variance, 1e-9);
        Assert.Equal(7, sum.DegreesOfFreedom, 1e-9);
        Assert.Equal(Math.Sqrt(7 * variance / SamplingDistributions.ChiSquareQuantile(0.975, 7)), sum.Interval().Low, 1e-9);
        Assert.Equal(Math.Sqrt(7 * variance / SamplingDistributions.ChiSquareQuantile(0.025, 7)), sum.Interval().High, 1e-9);
    }

    [Fact]
    public void In_a_balanced_design_the_degrees_of_freedom_are_those_of_the_mean_squares()
    {
        // 20 groups of 4: the total is MSB/4 + 3/4 MSW, whose degrees of freedom Satterthwaite's formula gives.
        var random = new RandomStream(8);
        var (groups, values) = (new List<string>(), new List<double>());
        for (int g = 0; g < 20; g++)
        {
            double effect = random.NextNormal();
            for (int i = 0; i < 4; i++)
            {
                groups.Add($"g{g}");
                values.Add(effect + random.NextNormal());
            }
        }

        var means = groups.Zip(values).GroupBy(row => row.First).Select(group => group.Average(row => row.Second)).ToArray();
        double within = groups.Zip(values).GroupBy(row => row.First).Sum(group => group.Sum(row => Math.Pow(row.Second - group.Average(each => each.Second), 2))) / 60;
        double between = 4 * means.Sum(mean => Math.Pow(mean - means.Average(), 2)) / 19;
        double total = between / 4 + 0.75 * within;
        double freedom = total * total / (between * between / 16 / 19 + 9.0 / 16 * within * within / 60);

        var sum = LinearMixedModel.Fit(ModelDesign.For("y", values.ToArray()).WithRandomIntercept(CategoricalColumn.From("group", groups.ToArray()))).ResidualVarianceWith("group");
        Assert.Equal(total, sum.Variance, 1e-6 * total);
        // Differences of the gradient leave a part in some thousands.
        Assert.Equal(freedom, sum.DegreesOfFreedom, 2e-3 * freedom);
    }

    [Fact]
    public void A_variance_of_nought_has_no_interval_of_its_own()
    {
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", new double[] { 1, 3, 1, 3, 1, 3, 1, 3 }).WithRandomIntercept(CategoricalColumn.From("group", ["a", "a", "b", "b", "c", "c", "d", "d"])));
        Assert.Null(fit.InterceptVariance("group"));
        Assert.Equal(fit.ResidualVarianceWith().Variance, fit.ResidualVarianceWith("group").Variance);
        Assert.Throws<ArgumentException>(() => fit.ResidualVarianceWith("other"));
    }
}
