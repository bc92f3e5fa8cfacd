namespace TastingKit.Statistics.Tests;

public sealed class SmoothFitTests
{
    [Fact]
    public void A_smooth_in_a_mixed_model_is_the_penalised_least_squares_curve_of_its_variance_ratio()
    {
        var random = new RandomStream(12);
        const int n = 90;
        double[] x = [.. Enumerable.Range(0, n).Select(i => 2.0 + 40.0 * i / n)];
        double[] y = [.. x.Select(v => 6.0 + 1.2 * Math.Sin(v / 6.0) + 0.02 * v + 0.4 * random.NextNormal())];
        var rest = new NumericColumn("rest", x);
        var smooth = PenalisedSpline.Of(rest, 10);
        var fit = LinearMixedModel.Fit(ModelDesign.For("score", y).WithFixed(rest).WithSmooth(smooth));
        double ratio = fit.ResidualStandardDeviation / fit.VarianceComponents[0].StandardDeviations[0];

        // The same curve directly: intercept, line and penalised functions, with the penalty σ²/τ² on the latter.
        int width = 2 + smooth.Width;
        var gram = new double[width, width];
        var right = new double[width];
        var row = new double[width];
        for (int i = 0; i < n; i++)
        {
            Row(smooth, x[i], row);
            for (int a = 0; a < width; a++)
            {
                right[a] += row[a] * y[i];
                for (int b = 0; b < width; b++)
                {
                    gram[a, b] += row[a] * row[b];
                }
            }
        }

        for (int a = 2; a < width; a++)
        {
            gram[a, a] += ratio * ratio;
        }

        double[] expected = SmallCholesky.Factor(gram).Solve(right);
        Assert.Equal(expected[0], fit.FixedEffects[0].Estimate, 1e-7);
        Assert.Equal(expected[1], fit.FixedEffects[1].Estimate, 1e-8);
        var modes = fit.ConditionalModes("rest").Rows;
        Assert.Equal(smooth.Width, modes.Count);
        for (int j = 0; j < smooth.Width; j++)
        {
            Assert.Equal(expected[2 + j], modes[j].Mode, 1e-6);
        }

        // And it finds the wave: within the noise's reach of the truth everywhere.
        foreach (double at in new[] { 5.0, 15.0, 25.0, 38.0 })
        {
            Row(smooth, at, row);
            Assert.Equal(6.0 + 1.2 * Math.Sin(at / 6.0) + 0.02 * at, row.Zip(expected, (f, c) => f * c).Sum(), 0.35);
        }
    }

    [Fact]
    public void A_straight_truth_leaves_nothing_for_the_smooth()
    {
        double[] x = [.. Enumerable.Range(0, 60).Select(i => (double)(i % 20))];
        double[] y = [.. x.Select((v, i) => 3.0 + 0.5 * v + (i % 2 == 0 ? 0.1 : -0.1))];
        var rest = new NumericColumn("rest", x);
        var fit = LinearMixedModel.Fit(ModelDesign.For("score", y).WithFixed(rest).WithSmooth(PenalisedSpline.Of(rest, 8)));
        Assert.True(fit.IsSingular);
        Assert.Equal(0.0, fit.VarianceComponents[0].StandardDeviations[0]);
    }

    [Fact]
    public void Deviations_by_group_share_one_smoothness()
    {
        var random = new RandomStream(14);
        string[] groups = [.. Enumerable.Range(0, 240).Select(i => "abcdef"[i % 6].ToString())];
        double[] x = [.. Enumerable.Range(0, 240).Select(i => (double)(i / 6))];
        double[] y = [.. x.Select((v, i) => 5.0 + Math.Sin(v / 5.0 + (i % 6)) + 0.3 * random.NextNormal())];
        var rest = new NumericColumn("rest", x);
        var process = CategoricalColumn.From("process", groups);
        var smooth = PenalisedSpline.Of(rest, 8);
        var fit = LinearMixedModel.Fit(ModelDesign.For("score", y).WithFixed(rest).WithSmooth(smooth).WithSmooth(smooth, process).WithRandomIntercept(process));
        Assert.True(fit.Convergence.HasConverged);
        Assert.Equal(3, fit.VarianceComponents.Count);
        Assert.Single(fit.VarianceComponents[1].StandardDeviations.Distinct());
        Assert.InRange(fit.ResidualStandardDeviation, 0.25, 0.35);
    }

    private static void Row(PenalisedSpline smooth, double x, double[] row)
    {
        row[0] = 1.0;
        row[1] = x;
        smooth.Evaluate(x, row.AsSpan(2));
    }
}
