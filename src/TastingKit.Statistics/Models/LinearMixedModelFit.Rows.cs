namespace TastingKit.Statistics;

public sealed partial class LinearMixedModelFit
{
    private double[]? _fixedPart;

    /// <summary>Fitted values row by row, conditional modes included, in the response's unit.</summary>
    public double[] FittedValues()
    {
        double[] fitted = RowAlgebra.Fitted(_geometry, _deviance.Factors, _system.Solution);
        for (int row = 0; row < fitted.Length; row++)
        {
            double value = _response.Scale * fitted[row];
            for (int j = 0; j < _geometry.Rank; j++) value += _geometry.FixedRows[row * _geometry.Rank + j] * _response.LeastSquares[j];
            fitted[row] = _geometry.RootWeights is { } weights ? value / weights[row] : value;
        }

        return fitted;
    }

    /// <summary>Observed less fitted values row by row, in the response's unit.</summary>
    public double[] Residuals()
    {
        double[] residuals = FittedValues();
        for (int row = 0; row < residuals.Length; row++) residuals[row] = Design.Response[row] - residuals[row];
        return residuals;
    }

    /// <summary>
    /// For each row its predictive distribution given all other rows, without refitting: fixed effects and modes are those without the row, exactly; the variance
    /// parameters are those of all rows.
    /// </summary>
    /// <remarks>With h the row's leverage and e its residual, the row lies e/(1 − h) from the prediction, whose variance is σ²/(1 − h) over its weight (Henderson's system, Christensen, Pearson and Johnson 1992).</remarks>
    public IReadOnlyList<LeaveOneOut> LeaveOneOutPredictions()
    {
        var workspace = new ProfiledDeviance(_geometry, EstimationCriterion.Restricted, _options.Threads);
        workspace.Evaluate(_parameters, _response);
        double[] leverages = RowAlgebra.Leverages(workspace), residuals = Residuals();
        var predictions = new LeaveOneOut[residuals.Length];
        for (int row = 0; row < predictions.Length; row++)
        {
            double observed = Design.Response[row], left = 1 - leverages[row];
            double deviation = ResidualStandardDeviation / Math.Sqrt(left) / (_geometry.RootWeights?[row] ?? 1);
            predictions[row] = left > 1e-10 ? new LeaveOneOutPrediction(row, observed, observed - residuals[row] / left, deviation) : new LeaveOneOutUndetermined(row, observed);
        }

        return predictions;
    }

    /// <summary>A response drawn from the fitted model: the fixed part as estimated, new random effects and new residuals.</summary>
    /// <param name="random">Where the numbers come from.</param>
    /// <returns>One number a row, in the response's unit.</returns>
    public double[] Simulate(RandomStream random)
    {
        ArgumentNullException.ThrowIfNull(random);
        return RowAlgebra.Simulate(this, FixedPart(), random);
    }

    /// <summary>Simulates responses from the fit, fits each again and keeps what is asked of the refit (parametric bootstrap).</summary>
    /// <param name="replicates">Number of simulated responses.</param>
    /// <param name="seed">Replicate i uses the seed's stream i, so that the result does not depend on the number of threads.</param>
    /// <param name="statistic">What to keep of a refit. Called on several threads; the refit shares its workspace with later ones and must not be kept.</param>
    /// <param name="threads">The most threads to use, or 0 for all.</param>
    /// <param name="progress">Is told the share of the replicates that is done, on any thread, never less than before; null for nobody.</param>
    /// <param name="cancellationToken">Stops between replicates.</param>
    /// <returns>One result a replicate, in order.</returns>
    public IReadOnlyList<T> Bootstrap<T>(int replicates, ulong seed, Func<LinearMixedModelFit, T> statistic, int threads = 0, IProgress<double>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(replicates, 1);
        ArgumentNullException.ThrowIfNull(statistic);
        var streams = new RandomStream(seed);
        var results = new T[replicates];
        var options = _options with { Threads = 1 };
        FixedPart();
        var watch = new LoopWatch(progress, cancellationToken);
        watch.Expect(replicates);
        Parallel.For(0, replicates, watch.Options(threads > 0 ? threads : Environment.ProcessorCount),
            () => new ProfiledDeviance(_geometry, _options.Criterion, 1),
            (i, _, workspace) =>
            {
                ModelDesign design = Design.WithSimulated(Simulate(streams.Split((ulong)i)));
                results[i] = statistic(LinearMixedModel.Refit(_geometry, design, options, _point, workspace, cancellationToken));
                watch.Done();
                return workspace;
            },
            _ => { });
        watch.Finish();
        return results;
    }

    /// <summary>Percentile intervals of every standard deviation from a parametric bootstrap.</summary>
    /// <param name="replicates">Number of refits; 1,000 or more for the ends of a 95 % interval.</param>
    /// <param name="seed">Seed of the simulated responses.</param>
    /// <param name="level">Coverage that the intervals aim at.</param>
    /// <param name="threads">The most threads to use, or 0 for all; the result does not depend on it.</param>
    /// <param name="progress">Is told the share of the replicates that is done, on any thread, never less than before; null for nobody.</param>
    /// <param name="cancellationToken">Stops between replicates.</param>
    public IReadOnlyList<VarianceInterval> BootstrapVarianceIntervals(int replicates, ulong seed, double level = 0.95, int threads = 0, IProgress<double>? progress = null, CancellationToken cancellationToken = default)
    {
        if (!(level > 0 && level < 1)) throw new ArgumentOutOfRangeException(nameof(level), level, "A coverage lies between 0 and 1.");
        double[][] draws = [.. Bootstrap(replicates, seed, refit => refit.AllDeviations(), threads, progress, cancellationToken)];
        double[] estimates = AllDeviations();
        var names = VarianceComponents.SelectMany(component => component.Terms.Select(term => (component.Group, term))).Append(("Residual", ""));
        return [.. names.Select((name, i) =>
        {
            double[] sorted = [.. draws.Select(draw => draw[i]).Order()];
            return new VarianceInterval(name.Item1, name.Item2, estimates[i], Quantile(sorted, 0.5 * (1 - level)), Quantile(sorted, 0.5 * (1 + level)), level);
        })];
    }

    internal double[,] FactorOf(GroupLayout group) => _deviance.Factors[Array.IndexOf(_geometry.Groups, group)];

    private double[] AllDeviations() => [.. VarianceComponents.SelectMany(component => component.StandardDeviations), ResidualStandardDeviation];

    // The quantile of definition 7 of Hyndman and Fan (1996): linear between order statistics.
    private static double Quantile(double[] sorted, double probability)
    {
        double position = probability * (sorted.Length - 1);
        int below = (int)position;
        return below + 1 < sorted.Length ? sorted[below] + (position - below) * (sorted[below + 1] - sorted[below]) : sorted[below];
    }

    private double[] FixedPart()
    {
        if (_fixedPart is not null) return _fixedPart;
        var part = new double[_geometry.RowCount];
        for (int row = 0; row < part.Length; row++)
        {
            for (int j = 0; j < _geometry.Rank; j++)
                part[row] += _geometry.FixedRows[row * _geometry.Rank + j] * (_response.LeastSquares[j] + _response.Scale * _system.Solution[_geometry.EffectCount + j]);
            if (_geometry.RootWeights is { } weights) part[row] /= weights[row];
        }

        return _fixedPart = part;
    }
}
