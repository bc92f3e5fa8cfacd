namespace TastingKit.Statistics.Tests.LinearModels;

public class DenseAgreementTests
{
    public static TheoryData<ulong> Seeds => new(Enumerable.Range(1, RandomDesign.CrossedSeeds + 20).Select(seed => (ulong)seed));

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Criterion_coefficients_and_modes_are_those_of_plain_dense_algebra(ulong seed)
    {
        var random = new RandomDesign(seed);
        foreach (var criterion in new[] { EstimationCriterion.Restricted, EstimationCriterion.MaximumLikelihood })
        {
            var fit = LinearMixedModel.Fit(random.Design, new() { Criterion = criterion });
            Assert.True(fit.Convergence.HasConverged, fit.Convergence.Reason);
            double residual = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
            var dense = random.Dense().At(RandomDesign.Covariances(fit), residual);
            Close(criterion == EstimationCriterion.Restricted ? dense.Restricted : dense.Full, fit.Deviance, 1e-9);
            for (int j = 0; j < fit.FixedEffects.Count; j++)
            {
                Close(dense.Coefficients[j], fit.FixedEffects[j].Estimate, 1e-7);
                Close(Math.Sqrt(dense.Covariance[j, j]), fit.FixedEffects[j].StandardError, 1e-7);
            }

            for (int t = 0; t < random.Terms.Count; t++)
            {
                var component = fit.VarianceComponents[t];
                var modes = fit.ConditionalModes(component.Group);
                var levels = random.Groups.Single(group => group.Name == component.Group).Levels;
                for (int level = 0; level < levels.Count; level++)
                    for (int e = 0; e < component.Terms.Count; e++) Assert.Equal(dense.Modes[t][level, e], modes[levels[level], component.Terms[e]].Mode, 6);
            }
        }
    }

    [Theory]
    [MemberData(nameof(Seeds))]
    public void Degrees_of_freedom_are_those_of_the_analytic_information(ulong seed)
    {
        var random = new RandomDesign(seed);
        var fit = LinearMixedModel.Fit(random.Design);
        // At a variance of zero the two conventions differ: the dense information is taken in all variances.
        if (fit.IsSingular) return;
        double[] dense = random.Dense().At(RandomDesign.Covariances(fit), fit.ResidualStandardDeviation * fit.ResidualStandardDeviation).DegreesOfFreedom();
        for (int j = 0; j < dense.Length; j++) Close(dense[j], fit.FixedEffects[j].DegreesOfFreedom, 1e-3);
    }

    [Fact]
    public void Factors_that_the_first_group_holds_are_eliminated_with_it_in_most_designs()
        => Assert.True(Enumerable.Range(RandomDesign.CrossedSeeds + 1, 20).Select(seed => MixedModelGeometry.Of(new RandomDesign((ulong)seed).Design))
            .Count(geometry => geometry.Groups.All(group => group.Group.Name != "inner")) >= 10);

    [Fact]
    public void Enough_of_the_random_designs_are_not_singular()
        => Assert.True(Enumerable.Range(1, 40).Count(seed => !LinearMixedModel.Fit(new RandomDesign((ulong)seed).Design).IsSingular) >= 12);

    [Theory]
    [MemberData(nameof(Seeds))]
    public void No_nearby_parameters_have_a_lower_criterion(ulong seed)
    {
        var random = new RandomDesign(seed);
        var fit = LinearMixedModel.Fit(random.Design);
        var dense = random.Dense();
        var stream = new RandomStream(seed).Split(99);
        double residual = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
        var best = RandomDesign.Covariances(fit);
        for (int attempt = 0; attempt < 40; attempt++)
        {
            double step = attempt % 2 == 0 ? 0.2 : 0.01;
            // A positive semidefinite matrix near the estimate: the estimate shrunk, plus a small random one in the effects' own scale.
            var moved = best.Select((covariance, t) => Moved(covariance, Scales(random, t, residual), step, stream)).ToList();
            double value = dense.At(moved, residual * Math.Exp(step * stream.NextNormal())).Restricted;
            Assert.True(value >= fit.Deviance - 1e-7, $"{value} lies under {fit.Deviance}");
        }
    }

    private static double[] Scales(RandomDesign random, int term, double residual)
        => [.. random.Terms[term].Columns.Select(column => Math.Sqrt(residual * column.RowCount) / column.FrobeniusNorm())];

    private static double[,] Moved(double[,] covariance, double[] scales, double step, RandomStream stream)
    {
        int n = scales.Length;
        double[] direction = [.. scales.Select(scale => step * scale * stream.NextNormal())];
        double shrink = Math.Exp(-step * Math.Abs(stream.NextNormal()));
        var moved = new double[n, n];
        for (int i = 0; i < n; i++)
            for (int j = 0; j < n; j++) moved[i, j] = shrink * covariance[i, j] + direction[i] * direction[j];
        return moved;
    }

    private static void Close(double expected, double actual, double relative)
        => Assert.True(Math.Abs(actual - expected) <= relative * Math.Max(1e-3, Math.Abs(expected)), $"expected {expected:R}, found {actual:R}");
}
