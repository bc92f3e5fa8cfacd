namespace TastingKit.Statistics.Tests;

public sealed class OrdinalThresholdTests
{
    private static readonly OrdinalSimulation Simulated = OrdinalSimulation.Create(31, 600, 30, 5);

    private static readonly OrdinalMixedModelFit Together = OrdinalMixedModel.Fit(
        OrdinalDesign.For(Simulated.Response).WithFixed(Simulated.Covariate).WithFixed(Simulated.Period).WithRandomIntercept(Simulated.Group));

    private static readonly OrdinalMixedModelFit Apart = OrdinalMixedModel.Fit(
        OrdinalDesign.For(Simulated.Response).WithFixed(Simulated.Covariate).WithNominal(Simulated.Period).WithRandomIntercept(Simulated.Group));

    [Fact]
    public void A_threshold_of_the_first_level_is_its_coefficient_and_that_of_another_adds_its_shift()
    {
        for (var j = 0; j < 4; j++)
        {
            var name = $"{j + 1}|{j + 2}";
            var early = Apart.Estimate(Apart.Threshold(j, Setting.Averaged().With("period", "early")));
            var late = Apart.Threshold(j, Setting.Averaged().With("period", "late"));
            var own = Apart.Coefficients.Single(c => c.Name == $"{name}.(Intercept)" || c.Name == name);
            var shift = Apart.Coefficients.Single(c => c.Name.StartsWith($"{name}.", StringComparison.Ordinal) && c.Name.EndsWith("late", StringComparison.Ordinal));
            Assert.Equal(own.Estimate, early.Value, 1e-12);
            Assert.Equal(own.StandardError, early.StandardError, 1e-12);
            Assert.Equal(own.Estimate + shift.Estimate, Apart.Estimate(late).Value, 1e-12);
        }

        Assert.Throws<ArgumentOutOfRangeException>(() => Apart.Threshold(4, Setting.Averaged()));
    }

    [Fact]
    public void The_ratio_counts_what_thresholds_moving_apart_add_to_moving_together()
    {
        var ratio = LikelihoodRatio.Of(Together, Apart);
        Assert.Equal(3, ratio.DegreesOfFreedom);
        Assert.Equal(2 * (Apart.LogLikelihood - Together.LogLikelihood), ratio.Statistic, 1e-9);
        // The upper tail of chi-square with three degrees of freedom in closed form.
        var x = ratio.Statistic;
        Assert.Equal((2 * StandardNormal.CumulativeProbability(-Math.Sqrt(x))) + (Math.Sqrt(2 * x / Math.PI) * Math.Exp(-x / 2)), ratio.P, 1e-9);
        Assert.Equal(ratio.P, ratio.Against(1e7).P, 1e-6);
        // F with 3 and 20 degrees of freedom above 5: 0.00951 by integrating its density numerically.
        Assert.InRange(new LikelihoodRatio(15, 3, 0.0018).Against(20).P, 0.0094, 0.0096);
        Assert.Throws<ArgumentException>(() => LikelihoodRatio.Of(Apart, Together));
    }
}
