using MathNet.Numerics.Interpolation;

namespace TastingKit.Statistics.Tests;

public sealed class SplineTests
{
    private static readonly double[] Knots = [3.0, 7.0, 9.5, 16.0, 30.0];

    private static readonly NumericColumn Rest = new("rest", new[] { 2.0, 3.0, 4.0, 5.5, 7.0, 9.0, 12.0, 15.0, 16.0, 21.0, 25.0, 30.0, 34.0 });

    [Fact]
    public void Natural_spline_through_values_at_the_knots_is_the_interpolating_natural_cubic()
    {
        double[] values = [1.0, 4.0, 4.5, -2.0, 3.0];
        var independent = CubicSpline.InterpolateNatural(Knots, values);
        var spline = NaturalSpline.At(Rest, Knots);
        Assert.Equal(4, spline.Width);
        for (double x = 3.0; x <= 30.0; x += 0.37)
        {
            Assert.Equal(independent.Interpolate(x), Curve(spline, x, values), 1e-12);
            Assert.Equal(independent.Differentiate(x), Slope(spline, x, values), 1e-12);
        }
    }

    [Fact]
    public void Natural_spline_is_a_straight_line_outside_the_knots()
    {
        double[] values = [1.0, 4.0, 4.5, -2.0, 3.0];
        var spline = NaturalSpline.At(Rest, Knots);
        foreach (double end in new[] { 3.0, 30.0 })
        {
            double direction = end == 3.0 ? -1.0 : 1.0;
            double slope = Slope(spline, end, values);
            Assert.Equal(slope, Slope(spline, end + 5.0 * direction, values), 1e-12);
            Assert.Equal(Curve(spline, end, values) + 5.0 * direction * slope, Curve(spline, end + 5.0 * direction, values), 1e-12);
        }
    }

    [Fact]
    public void A_coefficient_is_named_after_its_knot()
    {
        var spline = NaturalSpline.At(Rest, Knots);
        Assert.Equal("rest@9.5", spline.FunctionName(1));
        var functions = new double[4];
        spline.Evaluate(9.5, functions);
        Assert.Equal([0.0, 1.0, 0.0, 0.0], functions.Select(f => Math.Round(f, 12)));
    }

    [Fact]
    public void Even_knots_run_from_the_smallest_to_the_largest_value()
    {
        var spline = NaturalSpline.Of(Rest, 4);
        Assert.Equal([2.0, 7.0, 16.0, 34.0], spline.Knots);
    }

    [Fact]
    public void The_sum_of_squares_of_penalised_coefficients_is_the_wiggliness_of_the_curve()
    {
        var spline = PenalisedSpline.At(Rest, Knots);
        Assert.Equal(3, spline.Width);
        double[] first = [0.3, -1.2, 0.8];
        double[] second = [1.5, 0.2, -0.4];
        double ratio = Wiggliness(spline, first) / first.Sum(b => b * b);
        Assert.Equal(ratio, Wiggliness(spline, second) / second.Sum(b => b * b), 1e-3 * ratio);
    }

    [Fact]
    public void Penalised_functions_are_orthogonal_to_lines_at_the_knots_and_of_mean_variance_one_over_the_rows()
    {
        var spline = PenalisedSpline.At(Rest, Knots);
        var functions = new double[3];
        var sums = new double[3];
        var moments = new double[3];
        foreach (double knot in Knots)
        {
            spline.Evaluate(knot, functions);
            for (int j = 0; j < 3; j++)
            {
                sums[j] += functions[j];
                moments[j] += functions[j] * knot;
            }
        }

        Assert.All(sums, s => Assert.Equal(0.0, s, 1e-12));
        Assert.All(moments, m => Assert.Equal(0.0, m, 1e-11));
        double squares = 0.0;
        foreach (double x in Rest.Values)
        {
            spline.Evaluate(x, functions);
            squares += functions.Sum(f => f * f);
        }

        Assert.Equal(1.0, squares / Rest.Count, 1e-12);
    }

    [Fact]
    public void Another_unit_of_the_covariate_gives_the_same_penalised_functions()
    {
        var hours = new NumericColumn("rest", Rest.Values.ToArray().Select(x => 24.0 * x + 100.0).ToArray());
        var inDays = PenalisedSpline.Of(Rest, 6);
        var inHours = PenalisedSpline.Of(hours, 6);
        var a = new double[4];
        var b = new double[4];
        foreach (double x in Rest.Values)
        {
            inDays.Evaluate(x, a);
            inHours.Evaluate(24.0 * x + 100.0, b);
            Assert.All(a.Zip(b), pair => Assert.Equal(pair.First, pair.Second, 1e-10));
        }
    }

    [Fact]
    public void Impossible_knots_are_explained()
    {
        Assert.Contains("at least three knots", Assert.Throws<ArgumentException>(() => NaturalSpline.At(Rest, 1.0, 2.0)).Message, StringComparison.Ordinal);
        Assert.Contains("rising", Assert.Throws<ArgumentException>(() => NaturalSpline.At(Rest, 1.0, 3.0, 2.0)).Message, StringComparison.Ordinal);
        Assert.Contains("13 distinct values", Assert.Throws<ArgumentException>(() => PenalisedSpline.Of(Rest, 20)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => PenalisedSpline.Of(Rest, 2));
        Assert.Throws<ArgumentNullException>(() => NaturalSpline.Of(null!, 4));
        Assert.Throws<ArgumentNullException>(() => PenalisedSpline.At(null!, 1.0, 2.0, 3.0));
    }

    private static double Curve(NaturalSpline spline, double x, double[] values)
    {
        var functions = new double[spline.Width];
        spline.Evaluate(x, functions);
        return values[0] + functions.Select((f, i) => f * (values[i + 1] - values[0])).Sum();
    }

    private static double Slope(NaturalSpline spline, double x, double[] values)
    {
        var slopes = new double[spline.Width];
        spline.EvaluateSlope(x, slopes);
        return slopes.Select((f, i) => f * (values[i + 1] - values[0])).Sum();
    }

    // Second derivatives by differences of slopes, their square integrated by the midpoint rule.
    private static double Wiggliness(PenalisedSpline spline, double[] coefficients)
    {
        double Slope(double x)
        {
            var slopes = new double[spline.Width];
            spline.EvaluateSlope(x, slopes);
            return slopes.Select((s, i) => s * coefficients[i]).Sum();
        }

        const double step = 0.005;
        double sum = 0.0;
        for (double x = 3.0; x < 30.0 - 0.5 * step; x += step)
        {
            double curvature = (Slope(x + step) - Slope(x)) / step;
            sum += curvature * curvature * step;
        }

        return sum;
    }
}
