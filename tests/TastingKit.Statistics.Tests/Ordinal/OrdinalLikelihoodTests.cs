namespace TastingKit.Statistics.Tests;

public sealed class OrdinalLikelihoodTests
{
    [Theory]
    [InlineData(OrdinalLink.Logit, 1)]
    [InlineData(OrdinalLink.Probit, 1)]
    [InlineData(OrdinalLink.Logit, 7)]
    [InlineData(OrdinalLink.Probit, 7)]
    public void Gradient_of_the_marginal_likelihood_agrees_with_differences_of_its_value(OrdinalLink link, int points)
    {
        var s = OrdinalSimulation.Create(3, 300, 15, 5, link);
        var design = OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate).WithScale(s.Period)
            .WithNominal(s.Period).WithWeights(s.Weights).WithRandomIntercept(s.Group);
        if (points == 1)
        {
            design = design.WithRandomIntercept(s.Crossed).WithRandomSlope(s.Group, s.Covariate);
        }

        var system = OrdinalSystem.Of(design, new OrdinalMixedModelOptions { Link = link });
        IMarginalLikelihood likelihood = points == 1 ? new LaplaceLikelihood(system) : new QuadratureLikelihood(system, points);
        double[] parameters = Somewhere(system);
        double[] gradient = likelihood.Gradient(parameters).Gradient;
        Assert.Equal(system.ParameterCount, gradient.Length);
        for (int i = 0; i < parameters.Length; i++)
        {
            double difference = Difference(p => likelihood.Value(p), parameters, i, 1e-4);
            Assert.Equal(difference, gradient[i], 1e-6 * Math.Max(1.0, Math.Abs(difference)));
        }
    }

    [Theory]
    [InlineData(OrdinalLink.Logit)]
    [InlineData(OrdinalLink.Probit)]
    public void Hessian_without_random_effects_agrees_with_differences_of_the_gradient(OrdinalLink link)
    {
        var s = OrdinalSimulation.Create(4, 200, 10, 4, link);
        var design = OrdinalDesign.For(s.Response).WithFixed(s.Factor).WithFixed(s.Covariate).WithScale(s.Period).WithScale(s.Covariate)
            .WithNominal(s.Period).WithWeights(s.Weights);
        var system = OrdinalSystem.Of(design, new OrdinalMixedModelOptions { Link = link });
        double[] parameters = Somewhere(system);
        var (value, gradient, hessian) = At(system, parameters);
        for (int i = 0; i < parameters.Length; i++)
        {
            double slope = Difference(p => At(system, p).Value, parameters, i, 1e-5);
            Assert.Equal(slope, gradient[i], 1e-6 * Math.Max(1.0, Math.Abs(slope)));
            for (int j = 0; j < parameters.Length; j++)
            {
                double curvature = Difference(p => At(system, p).Gradient[j], parameters, i, 1e-5);
                Assert.Equal(curvature, hessian[i, j], 1e-6 * Math.Max(1.0, Math.Abs(curvature)));
            }
        }

        Assert.True(double.IsFinite(value));
    }

    [Theory]
    [InlineData(OrdinalLink.Logit)]
    [InlineData(OrdinalLink.Probit)]
    public void Derivatives_of_a_rows_probability_agree_with_differences(OrdinalLink link)
    {
        foreach (var (hi, lo) in new[] { (0.7, -0.4), (double.PositiveInfinity, 0.3), (-0.2, double.NegativeInfinity), (3.1, 3.05), (6.5, 5.0) })
        {
            foreach (double eta in new[] { -1.1, 0.0, 2.3 })
            {
                CategoryDerivatives At(double h, double l, double e, double logScale)
                {
                    var d = default(CategoryDerivatives);
                    CategoryDerivatives.Evaluate(link, h, l, CategoryDerivatives.Gap(h, l, Math.Exp(-logScale)), e, Math.Exp(-logScale), ref d);
                    return d;
                }

                const double step = 1e-5;
                const double kappa = 0.2;
                var d = At(hi, lo, eta, kappa);
                void Check(double analytic, Func<double, double> along) =>
                    Assert.Equal((along(step) - along(-step)) / (2.0 * step), analytic, 2e-5 * Math.Max(1.0, Math.Abs(analytic)));

                Check(d.Eta, h => At(hi, lo, eta + h, kappa).Log);
                Check(d.EtaEta, h => At(hi, lo, eta + h, kappa).Eta);
                Check(d.EtaEtaEta, h => At(hi, lo, eta + h, kappa).EtaEta);
                Check(d.Kappa, h => At(hi, lo, eta, kappa + h).Log);
                Check(d.EtaKappa, h => At(hi, lo, eta, kappa + h).Eta);
                Check(d.EtaEtaKappa, h => At(hi, lo, eta, kappa + h).EtaEta);
                Check(d.KappaKappa, h => At(hi, lo, eta, kappa + h).Kappa);
                if (double.IsFinite(hi))
                {
                    Check(d.Hi, h => At(hi + h, lo, eta, kappa).Log);
                    Check(d.EtaHi, h => At(hi + h, lo, eta, kappa).Eta);
                    Check(d.EtaEtaHi, h => At(hi + h, lo, eta, kappa).EtaEta);
                    Check(d.HiHi, h => At(hi + h, lo, eta, kappa).Hi);
                    Check(d.HiLo, h => At(hi + h, lo, eta, kappa).Lo);
                    Check(d.HiKappa, h => At(hi, lo, eta, kappa + h).Hi);
                }

                if (double.IsFinite(lo))
                {
                    Check(d.Lo, h => At(hi, lo + h, eta, kappa).Log);
                    Check(d.EtaLo, h => At(hi, lo + h, eta, kappa).Eta);
                    Check(d.EtaEtaLo, h => At(hi, lo + h, eta, kappa).EtaEta);
                    Check(d.LoLo, h => At(hi, lo + h, eta, kappa).Lo);
                    Check(d.LoKappa, h => At(hi, lo, eta, kappa + h).Lo);
                }
            }
        }
    }

    [Theory]
    [InlineData(2)]
    [InlineData(10)]
    [InlineData(41)]
    public void Quadrature_integrates_polynomials_exactly(int points)
    {
        var rule = GaussHermite.Of(points);
        double moment = Math.Sqrt(Math.PI);
        for (int degree = 0; degree < Math.Min(2 * points, 30); degree += 2)
        {
            double sum = rule.Nodes.Select((x, k) => Math.Exp(rule.LogWeights[k]) * Math.Pow(x, degree)).Sum();
            Assert.Equal(1.0, sum / moment, 1e-12);
            moment *= (degree + 1) / 2.0;
        }
    }

    [Fact]
    public void Blocked_and_plain_algebra_of_the_effects_agree()
    {
        var s = OrdinalSimulation.Create(5, 80, 9, 3);
        var design = OrdinalDesign.For(s.Response).WithRandomIntercept(s.Crossed).WithRandomIntercept(s.Group).WithRandomSlope(s.Group, s.Covariate);
        var system = OrdinalSystem.Of(design, new OrdinalMixedModelOptions());
        var random = new RandomStream(6);
        double[] weights = [.. Enumerable.Range(0, 80).Select(_ => random.NextDouble())];
        double[] deviations = [0.7, 1.3, 0.4];
        var effects = new EffectSystem(system.Terms);
        effects.Factor(weights, deviations);
        int n = effects.Count;
        var plain = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            plain[i, i] = 1.0;
        }

        for (int row = 0; row < 80; row++)
        {
            for (int t = 0; t < 3; t++)
            {
                for (int u = 0; u < 3; u++)
                {
                    plain[effects.Index(t, row), effects.Index(u, row)] += weights[row] * effects.Share(t, row, deviations) * effects.Share(u, row, deviations);
                }
            }
        }

        var factor = SmallCholesky.Factor(plain);
        double[,] inverse = factor.Inverse();
        Assert.Equal(Enumerable.Range(0, n).Sum(i => 2.0 * Math.Log(factor.Lower[i, i])), effects.LogDeterminant(), 1e-11);
        double[] right = [.. Enumerable.Range(0, n).Select(_ => random.NextNormal())];
        double[] solved = (double[])right.Clone();
        effects.Solve(solved);
        double[] expected = factor.Solve(right);
        for (int i = 0; i < n; i++)
        {
            Assert.Equal(expected[i], solved[i], 1e-11);
        }

        for (int row = 0; row < 80; row++)
        {
            for (int t = 0; t < 3; t++)
            {
                for (int u = 0; u < 3; u++)
                {
                    Assert.Equal(inverse[effects.Index(t, row), effects.Index(u, row)], effects.Inverse(effects.Index(t, row), effects.Index(u, row)), 1e-11);
                }
            }
        }
    }

    private static (double Value, double[] Gradient, double[,] Hessian) At(OrdinalSystem system, double[] parameters)
    {
        var state = new RowState(system);
        Assert.True(state.TryMove(parameters));
        return ConditionalLikelihood.Evaluate(system, state, state.Eta);
    }

    private static double[] Somewhere(OrdinalSystem system)
    {
        var random = new RandomStream(8);
        var parameters = new double[system.ParameterCount];
        for (int i = 0; i < parameters.Length; i++)
        {
            parameters[i] = i < system.Map.ParameterCount
                ? i - 0.5 * system.Map.ParameterCount
                : i >= system.DeviationOffset ? 0.4 + 0.3 * random.NextDouble() : 0.2 * (random.NextDouble() - 0.5);
        }

        return parameters;
    }

    private static double Difference(Func<double[], double> function, double[] at, int index, double step)
    {
        double[] above = (double[])at.Clone();
        double[] below = (double[])at.Clone();
        above[index] += step;
        below[index] -= step;
        return (function(above) - function(below)) / (2.0 * step);
    }
}
