namespace TastingKit.Statistics.Tests.LinearModels;

public class SimulationTests
{
    [Fact]
    public void Known_truth_is_recovered_on_average()
    {
        const int years = 60;
        double brewer = 0, slope = 0, bag = 0, day = 0, residual = 0, covered = 0;
        for (ulong seed = 0; seed < years; seed++)
        {
            var fit = LinearMixedModel.Fit(new CrossedYear(100 + seed).Design());
            var effect = fit.FixedEffects.Single(each => each.Name == "brewerflat-bed dripper");
            brewer += effect.Estimate / years;
            slope += fit.FixedEffects.Single(each => each.Name == "rest").Estimate / years;
            bag += Math.Pow(fit.VarianceComponents[0].StandardDeviations[0], 2) / years;
            day += Math.Pow(fit.VarianceComponents[1].StandardDeviations[0], 2) / years;
            residual += Math.Pow(fit.ResidualStandardDeviation, 2) / years;
            if (effect.Low <= CrossedYear.BrewerEffect && effect.High >= CrossedYear.BrewerEffect) covered += 1.0 / years;
        }

        // About four standard errors of a mean over the years.
        Assert.Equal(CrossedYear.BrewerEffect, brewer, 0.035);
        Assert.Equal(CrossedYear.Slope, slope, 0.002);
        Assert.Equal(CrossedYear.BagDeviation * CrossedYear.BagDeviation, bag, 0.07);
        Assert.Equal(CrossedYear.DayDeviation * CrossedYear.DayDeviation, day, 0.03);
        Assert.Equal(CrossedYear.Residual * CrossedYear.Residual, residual, 0.015);
        Assert.InRange(covered, 0.85, 1);
    }

    [Fact]
    public void A_bootstrap_is_the_same_on_one_core_and_on_two()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(5).Design());
        double[] one = [.. fit.Bootstrap(40, 9, refit => refit.VarianceComponents[0].StandardDeviations[0] + refit.Deviance, threads: 1)];
        double[] two = [.. fit.Bootstrap(40, 9, refit => refit.VarianceComponents[0].StandardDeviations[0] + refit.Deviance, threads: 2)];
        Assert.Equal(one, two);
        Assert.Equal(40, one.Distinct().Count());
        Assert.NotEqual(one, [.. fit.Bootstrap(40, 10, refit => refit.VarianceComponents[0].StandardDeviations[0] + refit.Deviance)]);
    }

    [Fact]
    public void A_refit_of_a_simulated_response_is_the_fit_of_that_response()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(6).Design());
        double boot = fit.Bootstrap(3, 21, refit => refit.Deviance)[2];
        double fresh = LinearMixedModel.Fit(fit.Design.WithResponse(fit.Simulate(new RandomStream(21).Split(2)))).Deviance;
        Assert.Equal(fresh, boot, 1e-8);
    }

    [Fact]
    public void Bootstrap_intervals_hold_the_truth_and_the_estimate()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(7).Design());
        var intervals = fit.BootstrapVarianceIntervals(300, 4);
        double[] truth = [CrossedYear.BagDeviation, CrossedYear.DayDeviation, CrossedYear.Residual];
        for (int i = 0; i < truth.Length; i++)
        {
            Assert.InRange(intervals[i].Estimate, intervals[i].Low, intervals[i].High);
            Assert.InRange(truth[i], intervals[i].Low, intervals[i].High);
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(6)]
    [InlineData(14)]
    public void Each_row_is_predicted_as_plain_algebra_without_the_row_predicts_it(ulong seed)
    {
        var random = new RandomDesign(seed);
        var fit = LinearMixedModel.Fit(random.Design);
        double residual = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
        // In the projection P of all rows, row i lies (P y)_i / P_ii from its prediction by the others, whose variance is 1 / P_ii: the block inverse of V without row i.
        var dense = random.Dense().At(RandomDesign.Covariances(fit), residual);
        var predictions = fit.LeaveOneOutPredictions();
        for (int row = 0; row < random.Response.Length; row++)
        {
            double mean = random.Response[row] - dense.Projected[row] / dense.Projection[row, row], deviation = 1 / Math.Sqrt(dense.Projection[row, row]);
            predictions[row].Match(
                predicted =>
                {
                    Assert.Equal(mean, predicted.Mean, 1e-6);
                    Assert.Equal(deviation, predicted.StandardDeviation, 1e-6);
                    return true;
                },
                undetermined => throw new InvalidOperationException($"Row {undetermined.Row} should be predicted."));
        }
    }

    [Fact]
    public void A_row_that_alone_determines_a_coefficient_is_not_predicted()
    {
        double[] y = [1, 2, 1.5, 2.5, 9];
        var factor = CategoricalColumn.From("f", ["a", "a", "b", "b", "c"]);
        var predictions = LinearMixedModel.Fit(ModelDesign.For("y", y).WithFixed(factor)).LeaveOneOutPredictions();
        Assert.IsType<LeaveOneOutUndetermined>(predictions[4]);
        var first = Assert.IsType<LeaveOneOutPrediction>(predictions[0]);
        Assert.Equal(2, first.Mean, 1e-10);
    }
}
