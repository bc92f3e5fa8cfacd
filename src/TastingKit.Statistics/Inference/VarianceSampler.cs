using System.Collections.Concurrent;

namespace TastingKit.Statistics;

/// <summary>One weighted draw of the variance parameters.</summary>
internal sealed record VarianceDraw(double[] Entries, double Residual, double LogWeight);

/// <summary>
/// Importance sampling of the variance parameters from the restricted likelihood times a weak prior. Factors come from a folded t proposal;
/// given them, the residual variance comes from its scaled inverse chi-squared, which is the likelihood's own.
/// </summary>
internal sealed class VarianceSampler
{
    private const int PilotRounds = 3;
    private const ulong FirstPilotStage = 1_000;
    private const int MostBatches = 6;
    private const double EnoughEffective = 250;

    private readonly MixedModelGeometry _geometry;
    private readonly ResponseProducts _response;
    private readonly DrawOptions _options;
    private readonly VariancePrior _prior;
    private readonly RandomStream _random;
    private readonly LoopWatch _watch;

    // A workspace a thread would be made anew in every loop, and each is memory to be cleared.
    private readonly ConcurrentBag<ProfiledDeviance> _workspaces = [];

    public VarianceSampler(LinearMixedModelFit fit, DrawOptions options, RandomStream random, LoopWatch watch)
    {
        _geometry = fit.Geometry;
        _response = fit.Products;
        _options = options;
        _random = random;
        _watch = watch;
        _prior = new VariancePrior(_geometry, options);
    }

    /// <summary>Draws with normalised weights; the effective sample size is one over the sum of their squares.</summary>
    /// <remarks>
    /// Pilot rounds move the proposal to the weighted mean and covariance of what they found, as long as that pays. When the draws asked for
    /// still weigh too unevenly, more are added, up to <see cref="MostBatches"/> times as many.
    /// </remarks>
    public (VarianceDraw[] Draws, double[] Weights, double EffectiveSampleSize) Run(VarianceParameters point)
    {
        // The most pilots there can be; fewer are a jump ahead.
        _watch.Expect((_geometry.ParameterCount == 0 ? 0 : (PilotRounds + 1) * _options.PilotDraws) + _options.VarianceProposals);
        var proposal = _geometry.ParameterCount == 0 ? null : Piloted(point);
        VarianceDraw[] draws = Draw(proposal, _options.VarianceProposals, 0);
        var weighted = Weighted(draws);
        double wanted = Math.Min(EnoughEffective, 0.25 * _options.VarianceProposals);
        for (int batch = 1; batch < MostBatches && weighted.EffectiveSampleSize < wanted; batch++)
        {
            _watch.Expect(_options.VarianceProposals);
            draws = [.. draws, .. Draw(proposal, _options.VarianceProposals, (ulong)batch)];
            weighted = Weighted(draws);
        }

        return weighted;
    }

    private VarianceProposal Piloted(VarianceParameters point)
    {
        double[] centre = point.Exact();
        double[,] covariance = StartCovariance(point);
        var best = new VarianceProposal(_geometry, centre, covariance);
        var (draws, weights, size) = Weighted(Draw(best, _options.PilotDraws, FirstPilotStage));
        double bestSize = size;
        for (ulong round = 1; round <= PilotRounds && bestSize < 0.75 * _options.PilotDraws; round++)
        {
            (centre, covariance) = Moments(draws, weights, size, centre, covariance);
            var proposal = new VarianceProposal(_geometry, centre, covariance);
            (draws, weights, size) = Weighted(Draw(proposal, _options.PilotDraws, FirstPilotStage + round));
            if (size > bestSize) (best, bestSize) = (proposal, size);
        }

        return best;
    }

    // Twice the inverse of the criterion's curvature, with what the prior adds so that a flat direction keeps a finite spread.
    private double[,] StartCovariance(VarianceParameters point)
    {
        var deviance = new ProfiledDeviance(_geometry, EstimationCriterion.Restricted, _options.Threads);
        deviance.Evaluate(point.Values, _response);
        var derivatives = new DevianceDerivatives(deviance);
        derivatives.Update();
        int n = _geometry.ParameterCount;
        double[,] curvature = derivatives.Curvature([.. Enumerable.Range(0, n)]);
        double variance = deviance.ResidualSum / deviance.DegreesOfFreedom;
        double fromPrior = 2 * variance * (_options.PriorDegreesOfFreedom + 1) / (_options.PriorDegreesOfFreedom * _options.PriorScale * _options.PriorScale);
        for (int i = 0; i < n; i++) curvature[i, i] += Math.Min(fromPrior, 2);
        var (values, vectors) = SmallMatrix.Eigen(curvature);
        var covariance = new double[n, n];
        for (int e = 0; e < n; e++)
        {
            double spread = 2 / Math.Max(values[e], 0.2);
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++) covariance[i, j] += spread * vectors[i, e] * vectors[j, e];
        }

        return covariance;
    }

    // Weighted mean and covariance, trusted as far as the draws behind them go and completed by the proposal they came from.
    private static (double[] Mean, double[,] Covariance) Moments(VarianceDraw[] draws, double[] weights, double size, double[] centre, double[,] spread)
    {
        int n = centre.Length;
        double trust = size / (size + 2 * n);
        var mean = new double[n];
        for (int d = 0; d < draws.Length; d++)
            for (int i = 0; i < n; i++) mean[i] += weights[d] * draws[d].Entries[i];
        var covariance = new double[n, n];
        for (int d = 0; d < draws.Length; d++)
        {
            for (int i = 0; i < n; i++)
                for (int j = 0; j < n; j++) covariance[i, j] += trust * weights[d] * (draws[d].Entries[i] - mean[i]) * (draws[d].Entries[j] - mean[j]);
        }

        for (int i = 0; i < n; i++)
        {
            mean[i] = trust * mean[i] + (1 - trust) * centre[i];
            for (int j = 0; j < n; j++) covariance[i, j] += (1 - trust) * spread[i, j];
        }

        return (mean, covariance);
    }

    private VarianceDraw[] Draw(VarianceProposal? proposal, int count, ulong stage)
    {
        RandomStream streams = _random.Split(stage);
        var draws = new VarianceDraw[count];
        Parallel.For(0, count, _watch.Options(_options.Threads),
            () => _workspaces.TryTake(out var workspace) ? workspace : new ProfiledDeviance(_geometry, EstimationCriterion.Restricted, 1),
            (i, _, deviance) =>
            {
                RandomStream random = streams.Split((ulong)i);
                double[] entries = proposal?.Draw(random) ?? [];
                double value = deviance.Evaluate(entries, _response);
                double residual = Math.Sqrt(0.5 * deviance.ResidualSum / random.NextGamma(0.5 * deviance.DegreesOfFreedom));
                double logWeight = double.IsFinite(value) ? -0.5 * value + _prior.LogDensity(deviance.Factors, residual) - (proposal?.LogDensity(entries) ?? 0) : double.NegativeInfinity;
                draws[i] = new VarianceDraw(entries, residual, logWeight);
                _watch.Done();
                return deviance;
            },
            _workspaces.Add);
        return draws;
    }

    // Weights truncated at the mean times the square root of their number (Ionides 2008), which bounds what a single draw can count.
    private static (VarianceDraw[] Draws, double[] Weights, double EffectiveSampleSize) Weighted(VarianceDraw[] draws)
    {
        double largest = draws.Max(draw => draw.LogWeight);
        double[] weights = Array.ConvertAll(draws, draw => PortableMath.Exp(draw.LogWeight - largest));
        double limit = weights.Average() * Math.Sqrt(weights.Length);
        double sum = 0, squares = 0;
        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] = Math.Min(weights[i], limit);
            sum += weights[i];
        }

        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
            squares += weights[i] * weights[i];
        }

        return (draws, weights, 1 / squares);
    }
}
