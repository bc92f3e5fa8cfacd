namespace TastingKit.Statistics.Tests.LinearModels;

public class InputTests
{
    private static readonly double[] Scores = [6, 7, 6.5, 8, 7.5, 7, 6, 8.5];
    private static readonly CategoricalColumn Coffee = CategoricalColumn.From("coffee", ["a", "a", "b", "b", "c", "c", "d", "d"]);

    [Fact]
    public void No_rows_are_refused_with_the_response_named()
        => Assert.Contains("'score' has no rows", Assert.Throws<ArgumentException>(() => ModelDesign.For("score", Array.Empty<double>())).Message, StringComparison.Ordinal);

    [Fact]
    public void A_number_that_is_not_finite_is_refused_with_its_row()
    {
        Assert.Contains("row 1", Assert.Throws<ArgumentException>(() => ModelDesign.For("score", new[] { 1, double.NaN })).Message, StringComparison.Ordinal);
        Assert.Contains("'rest' holds Infinity in row 2", Assert.Throws<ArgumentException>(() => new NumericColumn("rest", new[] { 1, 2, double.PositiveInfinity })).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Columns_of_another_length_are_refused()
        => Assert.Contains("has 3 rows; the response 'score' has 8", Assert.Throws<ArgumentException>(() => Design().WithFixed(new NumericColumn("rest", new double[3]))).Message, StringComparison.Ordinal);

    [Fact]
    public void Weights_must_be_positive()
        => Assert.Contains("weight of row 2", Assert.Throws<ArgumentException>(() => Design().WithWeights(new double[] { 1, 1, 0, 1, 1, 1, 1, 1 })).Message, StringComparison.Ordinal);

    [Fact]
    public void A_value_outside_the_stated_levels_is_refused()
        => Assert.Contains("'c' in row 1", Assert.Throws<ArgumentException>(() => CategoricalColumn.From("f", ["a", "c"], ["a", "b"])).Message, StringComparison.Ordinal);

    [Fact]
    public void A_response_that_does_not_vary_is_refused()
        => Refused(ModelDesign.For("score", Enumerable.Repeat(7.0, 8).ToArray()).WithRandomIntercept(Coffee), "is 7 in all 8 rows");

    [Fact]
    public void A_group_with_one_level_is_refused()
        => Refused(Design().WithRandomIntercept(CategoricalColumn.From("taster", [.. Enumerable.Repeat("me", 8)])), "'taster' has one level ('me')");

    [Fact]
    public void A_group_with_a_level_a_row_is_refused()
        => Refused(Design().WithRandomIntercept(CategoricalColumn.From("cup", [.. Enumerable.Range(0, 8).Select(row => $"{row}")])), "8 levels in 8 rows");

    [Fact]
    public void More_coefficients_than_rows_are_refused()
    {
        var many = CategoricalColumn.From("cup", [.. Enumerable.Range(0, 8).Select(row => $"{row}")]);
        Refused(Design().WithFixed(many), "8 coefficients for 8 rows");
    }

    [Fact]
    public void A_slope_on_a_constant_is_refused()
        => Refused(Design().WithRandomEffects(Coffee, true, new NumericColumn("dose", Enumerable.Repeat(15.0, 8).ToArray())), "'dose' has one value in all 8 rows");

    [Fact]
    public void Two_factors_of_one_name_are_refused()
        => Refused(Design().WithRandomIntercept(Coffee).WithRandomIntercept(CategoricalColumn.From("coffee", ["a", "b", "a", "b", "a", "b", "a", "b"])), "called 'coffee'");

    [Fact]
    public void A_dependent_column_is_dropped_with_a_caution()
    {
        var rest = new NumericColumn("rest", new double[] { 1, 5, 9, 2, 6, 3, 8, 7 });
        var double_ = new NumericColumn("twice", rest.Values.ToArray().Select(value => 2 * value + 1).ToArray());
        var fit = LinearMixedModel.Fit(Design().WithFixed(rest).WithFixed(double_));
        Assert.Equal(["(Intercept)", "rest"], fit.FixedEffects.Select(effect => effect.Name));
        Assert.Contains("'twice'", Assert.Single(fit.Cautions), StringComparison.Ordinal);
        // What the data can tell is still answered; what they can't is refused.
        Assert.Equal(fit.Value(fit.FixedEffect("(Intercept)") + 5 * fit.FixedEffect("rest")), fit.Value(fit.At(Setting.Averaged().With("rest", 5.0).With("twice", 11.0))), 1e-9);
        Assert.Throws<ModelException>(() => fit.Estimate(fit.At(Setting.Averaged().With("rest", 5.0).With("twice", 3.0))));
    }

    [Fact]
    public void A_cell_without_rows_has_no_marginal_mean()
    {
        CategoricalColumn a = CategoricalColumn.From("a", ["p", "p", "p", "p", "q", "q", "q", "q"]), b = CategoricalColumn.From("b", ["u", "u", "v", "v", "u", "u", "u", "u"]);
        var fit = LinearMixedModel.Fit(Design().WithFixed(a).WithFixed(b).WithInteraction(a, b));
        Assert.Single(fit.Cautions);
        Assert.Throws<ModelException>(() => fit.MarginalMeans("a"));
        Assert.Equal(3, fit.FixedEffects.Count);
    }

    [Fact]
    public void A_variance_of_zero_is_exactly_zero_and_said()
    {
        double[] y = [1, 3, 3, 1, 1, 3, 3, 1];
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", y).WithRandomIntercept(Coffee));
        Assert.True(fit.IsSingular);
        Assert.Equal(0, fit.VarianceComponents[0].StandardDeviations[0]);
        Assert.Contains("estimated as zero", Assert.Single(fit.Cautions), StringComparison.Ordinal);
        Assert.All(fit.ConditionalModes("coffee").Rows, mode => Assert.Equal(0, mode.Mode));
    }

    [Fact]
    public void Effects_that_fit_every_row_exactly_are_refused()
        => Refused(ModelDesign.For("score", new double[] { 6, 6, 7, 7, 5, 5, 8, 8 }).WithRandomIntercept(Coffee), "fit 'score' exactly (4 effects for 8 rows)");

    [Fact]
    public void A_cancelled_fit_stops()
        => Assert.Throws<OperationCanceledException>(() => LinearMixedModel.Fit(Design().WithRandomIntercept(Coffee), null, new CancellationToken(true)));

    [Fact]
    public void A_term_can_be_added_once()
        => Assert.Contains("already", Assert.Throws<ArgumentException>(() => Design().WithFixed(Coffee).WithFixed(Coffee)).Message, StringComparison.Ordinal);

    private static ModelDesign Design() => ModelDesign.For("score", Scores);

    private static void Refused(ModelDesign design, string because)
        => Assert.Contains(because, Assert.Throws<ModelException>(() => LinearMixedModel.Fit(design)).Message, StringComparison.Ordinal);
}
