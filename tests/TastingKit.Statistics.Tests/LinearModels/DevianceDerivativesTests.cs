namespace TastingKit.Statistics.Tests.LinearModels;

public class DevianceDerivativesTests
{
    public static TheoryData<ulong> Seeds => new(Enumerable.Range(1, 25).Select(seed => (ulong)seed));

    [Theory]
    [MemberData(nameof(Seeds))]
    public void The_gradient_is_what_finite_differences_give(ulong seed)
    {
        var random = new RandomDesign(seed);
        var geometry = MixedModelGeometry.Of(random.Design);
        var response = new ResponseProducts(geometry, random.Design.Response);
        var stream = new RandomStream(seed).Split(5);
        foreach (var criterion in new[] { EstimationCriterion.Restricted, EstimationCriterion.MaximumLikelihood })
        {
            var deviance = new ProfiledDeviance(geometry, criterion, 1);
            var derivatives = new DevianceDerivatives(deviance);
            double[] point = [.. Enumerable.Range(0, geometry.ParameterCount).Select(_ => 0.3 + stream.NextDouble())];
            deviance.Evaluate(point, response);
            derivatives.Update();
            double[] analytic = [.. derivatives.Gradient];
            for (int i = 0; i < point.Length; i++)
            {
                double numeric = Difference(h => Moved(deviance, response, point, i, h));
                Assert.True(Math.Abs(numeric - analytic[i]) < 1e-6 * (1 + Math.Abs(numeric)), $"entry {i}: {numeric:R} by differences, {analytic[i]:R} by formula");
            }
        }
    }

    // Five-point formula, so that its own error stays well under the tolerance.
    private static double Difference(Func<double, double> at)
    {
        const double h = 1e-3;
        return (8 * (at(h) - at(-h)) - (at(2 * h) - at(-2 * h))) / (12 * h);
    }

    private static double Moved(ProfiledDeviance deviance, ResponseProducts response, double[] point, int entry, double by)
    {
        var moved = (double[])point.Clone();
        moved[entry] += by;
        return deviance.Evaluate(moved, response);
    }
}
