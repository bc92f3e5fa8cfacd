namespace TastingKit.Statistics.Tests.LinearModels;

public class LinearFunctionTests
{
    private readonly LinearMixedModelFit _fit = LinearMixedModel.Fit(new CrossedYear(31).Design());

    [Fact]
    public void A_coefficient_asked_as_a_function_is_the_coefficient()
    {
        var effect = _fit.FixedEffects.Single(each => each.Name == "rest");
        var estimate = _fit.Estimate(_fit.FixedEffect("rest"));
        Assert.Equal((effect.Estimate, effect.StandardError, effect.DegreesOfFreedom, effect.Low), (estimate.Value, estimate.StandardError, estimate.DegreesOfFreedom, estimate.Low));
    }

    [Fact]
    public void Functions_add_up()
    {
        var a = _fit.RandomEffect("bag", "bag 3");
        var b = _fit.FixedEffect("(Intercept)");
        double sum = _fit.Value(2 * a - b * 0.5 + a);
        Assert.Equal(3 * _fit.Value(a) - 0.5 * _fit.Value(b), sum, 1e-12);
        Assert.Equal(_fit.Value(a), _fit.Value(LinearFunction.Mean([a, a, a])), 1e-12);
        Assert.Equal(0, _fit.Estimate(a - a).StandardError);
    }

    [Fact]
    public void A_random_effect_has_its_mode_and_a_prediction_error_that_counts_the_fixed_part()
    {
        var mode = _fit.ConditionalModes("bag")["bag 7"];
        var estimate = _fit.Estimate(_fit.RandomEffect("bag", "bag 7"));
        Assert.Equal(mode.Mode, estimate.Value, 1e-10);
        Assert.True(estimate.StandardError > mode.StandardDeviation);
        var modes = _fit.ConditionalModes("bag");
        Assert.Equal(mode.StandardDeviation * mode.StandardDeviation, modes.Covariance(_fit.RandomEffect("bag", "bag 7"), _fit.RandomEffect("bag", "bag 7")), 1e-10);
    }

    [Fact]
    public void A_prediction_whose_variance_is_hardly_determined_keeps_a_usable_interval()
    {
        for (ulong seed = 1; seed <= 40; seed++)
        {
            var random = new RandomDesign(seed);
            var fit = LinearMixedModel.Fit(random.Design);
            foreach (CategoricalColumn group in random.Groups)
            {
                var estimate = fit.Estimate(fit.RandomEffect(group.Name, group.Levels[0], fit.ConditionalModes(group.Name).Rows[0].Term));
                Assert.True(estimate.DegreesOfFreedom >= 1);
                Assert.True(estimate.High - estimate.Low <= 26 * estimate.StandardError);
            }
        }
    }

    [Fact]
    public void Prediction_error_variance_is_that_of_the_dense_model()
    {
        var random = new RandomDesign(9);
        var fit = LinearMixedModel.Fit(random.Design);
        string group = fit.VarianceComponents[0].Group, level = random.Groups[0].Levels[1];
        var covariances = RandomDesign.Covariances(fit);
        double residual = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
        var dense = random.Dense().At(covariances, residual);
        // Var(b̂ − b) = G − G Zᵀ P Z G for one effect of the first term.
        var z = random.Terms[0].Columns;
        var column = z[0].Column(1) * covariances[0][0, 0];
        for (int e = 1; e < z.Length; e++) column += z[e].Column(1) * covariances[0][0, e];
        double variance = covariances[0][0, 0] - column * (dense.Projection * column);
        Assert.Equal(Math.Sqrt(variance), fit.Estimate(fit.RandomEffect(group, level)).StandardError, 1e-7);
    }

    [Fact]
    public void A_setting_takes_factors_at_a_level_or_averaged_and_covariates_at_a_value_or_their_mean()
    {
        double intercept = Coefficient("(Intercept)"), brewer = Coefficient("brewerflat-bed dripper"), slope = Coefficient("rest");
        Assert.Equal(intercept + brewer + 14 * slope, _fit.Value(_fit.At(Setting.Averaged().With("brewer", "flat-bed dripper").With("rest", 14.0))), 1e-10);
        double mean = ((NumericColumn)_fit.Design.FixedTerms[1].Columns[0]).Mean;
        Assert.Equal(intercept + 0.5 * brewer + mean * slope, _fit.Value(_fit.At(Setting.Averaged())), 1e-10);
        var factor = (CategoricalColumn)_fit.Design.FixedTerms[0].Columns[0];
        double share = factor.Codes.ToArray().Average();
        Assert.Equal(intercept + share * brewer + mean * slope, _fit.Value(_fit.At(Setting.Averaged(MarginalWeights.AsObserved))), 1e-10);
        Assert.Throws<ArgumentException>(() => _fit.At(Setting.Averaged().With("brewer", "syphon")));
        Assert.Throws<ArgumentException>(() => _fit.At(Setting.Averaged().With("altitude", 1700)));
    }

    [Fact]
    public void Marginal_means_of_an_interaction_are_the_cells_averaged_over_the_other_factor()
    {
        // Two by two cells with three rows each and one more, so that equal and observed weights differ.
        double[] y = [1, 2, 3, 4, 6, 5, 2, 4, 3, 9, 7, 8, 10];
        string[] a = ["p", "p", "p", "p", "p", "p", "q", "q", "q", "q", "q", "q", "q"], b = ["u", "u", "u", "v", "v", "v", "u", "u", "u", "v", "v", "v", "v"];
        CategoricalColumn first = CategoricalColumn.From("a", a), second = CategoricalColumn.From("b", b);
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", y).WithFixed(first).WithFixed(second).WithInteraction(first, second));
        double q = fit.MarginalMeans("a").Single(mean => mean.Level == "q").Mean, observed = fit.MarginalMeans("a", MarginalWeights.AsObserved).Single(mean => mean.Level == "q").Mean;
        Assert.Equal((3 + 8.5) / 2, q, 1e-10);
        Assert.Equal((6 * 3 + 7 * 8.5) / 13, observed, 1e-10);
        Assert.Equal(["p:u", "q:u", "p:v", "q:v"], fit.MarginalMeans(["a", "b"]).Select(mean => mean.Level));
        Assert.Equal(4, fit.Cells(["a", "b"], Setting.Averaged()).Count);
    }

    private double Coefficient(string name) => _fit.FixedEffects.Single(each => each.Name == name).Estimate;
}
