using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Statistics.Tests.LinearModels;

public class SmoothTermTests
{
    private const int Rows = 240;
    private readonly double[] _rest, _score;
    private readonly CategoricalColumn _coffee, _process;

    public SmoothTermTests()
    {
        var random = new RandomStream(77);
        (_rest, _score) = (new double[Rows], new double[Rows]);
        string[] coffee = new string[Rows], process = new string[Rows];
        double[] effects = [.. Enumerable.Range(0, 20).Select(_ => 0.5 * random.NextNormal())];
        for (int row = 0; row < Rows; row++)
        {
            int c = row < 20 ? row : random.NextInt32(20);
            (coffee[row], process[row]) = ($"c{c}", c % 2 == 0 ? "washed" : "natural");
            _rest[row] = 1 + 39 * random.NextDouble();
            _score[row] = 6 + Truth(_rest[row]) + effects[c] + 0.4 * random.NextNormal();
        }

        _coffee = CategoricalColumn.From("coffee", coffee);
        _process = CategoricalColumn.From("process", process);
    }

    [Fact]
    public void A_curve_is_recovered_and_a_line_is_not_bent()
    {
        var rest = new NumericColumn("rest", _rest);
        var curve = PenalisedSpline.Of(rest);
        var fit = LinearMixedModel.Fit(ModelDesign.For("score", _score).WithFixed(rest).WithSmooth(curve).WithRandomIntercept(_coffee));
        Assert.True(fit.Convergence.HasConverged);
        LinearFunction At(double day) => fit.At(Setting.Averaged().With("rest", day)) + fit.Smooth(curve, day);
        foreach (double day in new[] { 5.0, 12, 20, 30 })
        {
            var estimate = fit.Estimate(At(day) - At(38));
            Assert.InRange((estimate.Value - Truth(day) + Truth(38)) / estimate.StandardError, -3, 3);
        }

        double[] straight = [.. _score.Select((score, row) => score - Truth(_rest[row]) + 0.02 * _rest[row])];
        var line = LinearMixedModel.Fit(ModelDesign.For("score", straight).WithFixed(rest).WithSmooth(curve).WithRandomIntercept(_coffee));
        Assert.True(Math.Abs(line.Value(line.Smooth(curve, 12.0) - line.Smooth(curve, 30.0))) < 0.1);
    }

    [Fact]
    public void A_curve_with_deviations_by_group_is_the_mixed_model_of_dense_algebra()
    {
        var rest = new NumericColumn("rest", _rest);
        var curve = PenalisedSpline.Of(rest, 6);
        var fit = LinearMixedModel.Fit(ModelDesign.For("score", _score).WithFixed(rest).WithSmooth(curve).WithSmooth(curve, _process).WithRandomIntercept(_coffee));
        double[][] functions = [.. Enumerable.Range(0, curve.Width).Select(_ => new double[Rows])];
        var at = new double[curve.Width];
        for (int row = 0; row < Rows; row++)
        {
            curve.Evaluate(_rest[row], at);
            for (int f = 0; f < at.Length; f++) functions[f][row] = at[f];
        }

        int[] all = new int[Rows], processes = _process.Codes.ToArray();
        var terms = new[] { DenseTerm.Of(all, 1, functions), DenseTerm.Of(processes, 2, functions), DenseTerm.Of(_coffee.Codes.ToArray(), 20, [.. Enumerable.Repeat(1.0, Rows)]) };
        double[,] Diagonal(VarianceComponent component) => Matrix<double>.Build.DenseDiagonal(component.Terms.Count, Math.Pow(component.StandardDeviations[0], 2)).ToArray();
        var dense = new DenseMixedModel(_score, [[.. Enumerable.Repeat(1.0, Rows)], _rest], null, terms)
            .At([.. fit.VarianceComponents.Select(Diagonal)], Math.Pow(fit.ResidualStandardDeviation, 2));
        Assert.Equal(dense.Restricted, fit.Deviance, 1e-8 * Math.Abs(dense.Restricted));
        Assert.Equal(dense.Coefficients[1], fit.FixedEffects[1].Estimate, 1e-8);
        Assert.Equal(dense.Modes[1][1, 2], fit.Value(fit.RandomEffect("process", _process.Levels[1], curve.FunctionName(2))), 1e-7);
        Assert.Throws<ArgumentException>(() => fit.Smooth(curve, 10, ("process", "honey")));
    }

    private static double Truth(double day) => -0.002 * (day - 18) * (day - 18);
}
