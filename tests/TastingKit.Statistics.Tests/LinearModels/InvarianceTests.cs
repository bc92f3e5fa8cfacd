namespace TastingKit.Statistics.Tests.LinearModels;

public class InvarianceTests
{
    private readonly CrossedYear _year = new(11);

    [Fact]
    public void The_order_of_rows_does_not_matter()
    {
        var random = new RandomStream(3);
        int[] order = [.. Enumerable.Range(0, _year.RowCount).OrderBy(_ => random.NextUInt64())];
        Same(LinearMixedModel.Fit(_year.Design()), LinearMixedModel.Fit(_year.Design(order)));
    }

    [Fact]
    public void The_names_of_levels_do_not_matter()
    {
        var plain = LinearMixedModel.Fit(_year.Design());
        var renamed = LinearMixedModel.Fit(_year.Design(relabel: name => new string([.. name.Reverse()])));
        Same(plain, renamed);
        Assert.Equal(plain.ConditionalModes("bag")["bag 12"].Mode, renamed.ConditionalModes("bag")["21 gab"].Mode, 8);
    }

    [Fact]
    public void An_affine_change_of_the_response_changes_the_figures_alike()
    {
        const double scale = 250, shift = 1e6;
        var plain = LinearMixedModel.Fit(_year.Design());
        var changed = LinearMixedModel.Fit(_year.Design(respond: value => shift + scale * value));
        for (int j = 0; j < plain.FixedEffects.Count; j++)
        {
            Assert.Equal(scale * plain.FixedEffects[j].Estimate + (j == 0 ? shift : 0), changed.FixedEffects[j].Estimate, 1e-6);
            Assert.Equal(plain.FixedEffects[j].DegreesOfFreedom, changed.FixedEffects[j].DegreesOfFreedom, 1e-4);
        }

        for (int t = 0; t < plain.VarianceComponents.Count; t++)
            Assert.Equal(scale * plain.VarianceComponents[t].StandardDeviations[0], changed.VarianceComponents[t].StandardDeviations[0], 1e-5);
        int degreesOfFreedom = _year.RowCount - plain.FixedEffects.Count;
        Assert.Equal(plain.Deviance + 2 * degreesOfFreedom * Math.Log(scale), changed.Deviance, 1e-6);
    }

    [Fact]
    public void The_unit_of_a_random_slope_does_not_matter()
    {
        var random = new RandomDesign(1);
        double[] days = [.. random.FixedColumns[1]], weeks = [.. days.Select(day => day / 7)];
        var group = random.Groups[0];
        LinearMixedModelFit Fit(double[] values) => LinearMixedModel.Fit(ModelDesign.For("y", random.Response).WithFixed(new NumericColumn("t", values)).WithRandomEffects(group, true, new NumericColumn("t", values)));
        LinearMixedModelFit inDays = Fit(days), inWeeks = Fit(weeks);
        Assert.Equal(7 * inDays.VarianceComponents[0].StandardDeviations[1], inWeeks.VarianceComponents[0].StandardDeviations[1], 1e-6);
        Assert.Equal(inDays.VarianceComponents[0].StandardDeviations[0], inWeeks.VarianceComponents[0].StandardDeviations[0], 1e-6);
        // The restricted criterion holds the determinant of the fixed columns, hence the change by their unit.
        Assert.Equal(inDays.Deviance - 2 * Math.Log(7), inWeeks.Deviance, 1e-8);
    }

    [Fact]
    public void The_number_of_threads_does_not_change_a_bit()
    {
        var large = new CrossedYear(12, 3000, 500, 400);
        var one = LinearMixedModel.Fit(large.Design(), new() { Threads = 1 });
        var two = LinearMixedModel.Fit(large.Design(), new() { Threads = 2 });
        Assert.Equal(BitConverter.DoubleToInt64Bits(one.Deviance), BitConverter.DoubleToInt64Bits(two.Deviance));
        for (int j = 0; j < one.FixedEffects.Count; j++) Assert.Equal(one.FixedEffects[j], two.FixedEffects[j]);
    }

    private static void Same(LinearMixedModelFit expected, LinearMixedModelFit actual)
    {
        Assert.Equal(expected.Deviance, actual.Deviance, 1e-9 * Math.Abs(expected.Deviance));
        for (int j = 0; j < expected.FixedEffects.Count; j++)
        {
            Assert.Equal(expected.FixedEffects[j].Estimate, actual.FixedEffects[j].Estimate, 1e-7);
            Assert.Equal(expected.FixedEffects[j].StandardError, actual.FixedEffects[j].StandardError, 1e-7);
        }

        for (int t = 0; t < expected.VarianceComponents.Count; t++)
            Assert.Equal(expected.VarianceComponents[t].StandardDeviations[0], actual.VarianceComponents[t].StandardDeviations[0], 1e-6);
    }
}
