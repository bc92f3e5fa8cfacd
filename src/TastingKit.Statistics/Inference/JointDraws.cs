namespace TastingKit.Statistics;

/// <summary>
/// Joint draws of everything a fit estimates: variance parameters by importance sampling from the restricted likelihood times a weak prior,
/// then fixed coefficients and random effects, which are normal given them. No draw has a variance of zero, even where the fit is singular.
/// </summary>
/// <remarks>Draws are computed when they are evaluated, from the seed, so that two evaluations see the same draws and large models need no large memory.</remarks>
public sealed class JointDraws
{
    private const double FewEffective = 50;

    private readonly LinearMixedModelFit _fit;
    private readonly DrawOptions _options;
    private readonly VarianceDraw[] _varianceDraws;
    private readonly int[] _firstDraw;
    private readonly RandomStream _effectStream;

    private JointDraws(LinearMixedModelFit fit, DrawOptions options, VarianceDraw[] varianceDraws, int[] firstDraw, double effectiveSampleSize, RandomStream effectStream)
    {
        _fit = fit;
        _options = options;
        _varianceDraws = varianceDraws;
        _firstDraw = firstDraw;
        _effectStream = effectStream;
        EffectiveSampleSize = effectiveSampleSize;
    }

    /// <summary>Number of draws.</summary>
    public int Count => _firstDraw[^1];

    /// <summary>Number of different variance parameters behind them.</summary>
    public int DistinctVarianceDraws => _varianceDraws.Length;

    /// <summary>Effective number of the weighted proposals of variance parameters: one over the sum of their squared weights. Far below their number, the draws lean on few of them.</summary>
    public double EffectiveSampleSize { get; }

    /// <summary>What a reader must know: that the variance draws lean on too few proposals for probabilities to be trusted to a few hundredths.</summary>
    public IReadOnlyList<string> Cautions => EffectiveSampleSize >= FewEffective ? [] :
        [FormattableString.Invariant($"The draws of the variance parameters count as no more than {EffectiveSampleSize:F0} independent ones; the model has more variance parameters than importance sampling can follow here.")];

    /// <summary>The residual standard deviation of each draw, in the response's unit.</summary>
    public double[] ResidualStandardDeviations()
    {
        var values = new double[Count];
        for (int v = 0; v < _varianceDraws.Length; v++) values.AsSpan(_firstDraw[v].._firstDraw[v + 1]).Fill(_fit.Products.Scale * _varianceDraws[v].Residual);
        return values;
    }

    /// <summary>The standard deviation of one random effect over levels in each draw, in the response's unit.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="term">The effect, "(Intercept)" or a slope's name.</param>
    /// <exception cref="ArgumentException">There is no such group or effect.</exception>
    public double[] StandardDeviations(string group, string term = RandomTerm.Intercept)
    {
        RandomTermLayout[] terms = _fit.TermsOf(group);
        RandomTermLayout own = Array.Find(terms, each => Array.IndexOf(each.EffectNames, term) >= 0)
            ?? throw new ArgumentException($"Group '{group}' has no effect '{term}'; it has {string.Join(", ", terms.SelectMany(each => each.EffectNames))}.", nameof(term));
        int effect = Array.IndexOf(own.EffectNames, term);
        var values = new double[Count];
        for (int v = 0; v < _varianceDraws.Length; v++)
        {
            var factor = new double[own.Owner.Width, own.Owner.Width];
            own.Unpack(_varianceDraws[v].Entries, factor);
            double deviation = _fit.Products.Scale * _varianceDraws[v].Residual * Math.Sqrt(own.RelativeCovariance(factor)[effect, effect]);
            values.AsSpan(_firstDraw[v].._firstDraw[v + 1]).Fill(deviation);
        }

        return values;
    }

    /// <summary>The value of each function in each draw, draws × functions, in the response's unit.</summary>
    /// <param name="functions">Functions of the fit the draws belong to.</param>
    /// <param name="progress">Is told the share of the work that is done, on any thread, never less than before; null for nobody.</param>
    /// <param name="cancellationToken">Stops between variance draws.</param>
    /// <exception cref="OperationCanceledException">The drawing was cancelled.</exception>
    public double[,] Evaluate(IReadOnlyList<LinearFunction> functions, IProgress<double>? progress = null, CancellationToken cancellationToken = default)
    {
        ArgumentNullException.ThrowIfNull(functions);
        var values = new double[Count, functions.Count];
        var watch = new LoopWatch(progress, cancellationToken);
        watch.Expect(_varianceDraws.Length);
        // One solve a function at each draw of the variances, or one a draw.
        bool solved = (long)functions.Count * _varianceDraws.Length < Count;
        Parallel.For(0, _varianceDraws.Length, watch.Options(_options.Threads),
            () => new EffectSampler(_fit),
            (v, _, sampler) =>
            {
                sampler.Condition(_varianceDraws[v]);
                if (solved) sampler.Solve(functions);
                for (int draw = _firstDraw[v]; draw < _firstDraw[v + 1]; draw++)
                {
                    RandomStream random = _effectStream.Split((ulong)draw);
                    if (solved) sampler.DrawSolved(random, values, draw);
                    else sampler.Draw(random, functions, values, draw);
                }

                watch.Done();
                return sampler;
            },
            _ => { });
        watch.Finish();
        return values;
    }

    /// <summary>
    /// The middle draw of the residual standard deviation, in units of the scaled response, and of each entry of the covariance factors in the same
    /// unit: relative entries would all be large together where the residual is small, and their middle that of no draw.
    /// </summary>
    internal (double[] RelativeEntries, double Residual) Middle()
    {
        double residual = MiddleOf(draw => draw.Residual);
        double[] entries = [.. Enumerable.Range(0, _varianceDraws[0].Entries.Length).Select(entry => MiddleOf(draw => draw.Entries[entry] * draw.Residual) / residual)];
        return (entries, residual);
    }

    private double MiddleOf(Func<VarianceDraw, double> value)
    {
        double[] values = Array.ConvertAll(_varianceDraws, draw => value(draw));
        int[] order = [.. Enumerable.Range(0, values.Length).OrderBy(v => values[v])];
        int below = 0, at = -1;
        while (2 * below < Count)
        {
            at++;
            below += _firstDraw[order[at] + 1] - _firstDraw[order[at]];
        }

        return values[order[at]];
    }

    internal static JointDraws Of(LinearMixedModelFit fit, int count, ulong seed, DrawOptions options, LoopWatch watch)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(count, 1);
        if (options.VarianceProposals < 50) throw new ArgumentOutOfRangeException(nameof(options), options.VarianceProposals, "Importance sampling needs at least 50 proposals.");
        if (options.PilotDraws < 50) throw new ArgumentOutOfRangeException(nameof(options), options.PilotDraws, "A pilot round needs at least 50 draws.");
        if (!(options.PriorScale > 0) || !(options.PriorDegreesOfFreedom > 0) || options.PriorScaleOfEffect.Values.Any(scale => !(scale > 0)))
            throw new ArgumentOutOfRangeException(nameof(options), "The prior's scale and degrees of freedom must be positive.");
        var random = new RandomStream(seed);
        var (proposals, weights, size) = new VarianceSampler(fit, options, random.Split(0), watch).Run(fit.Point);
        watch.Finish();

        // Systematic resampling: each proposal comes as often as its weight says, to within one.
        double position = random.Split(1).NextDouble(), cumulative = 0;
        var kept = new List<VarianceDraw>();
        var first = new List<int> { 0 };
        int drawn = 0;
        for (int i = 0; i < proposals.Length; i++)
        {
            cumulative += weights[i] * count;
            int upTo = i == proposals.Length - 1 ? count : Math.Min(count, (int)Math.Floor(cumulative - position) + 1);
            if (upTo <= drawn) continue;
            kept.Add(proposals[i]);
            first.Add(upTo);
            drawn = upTo;
        }

        return new JointDraws(fit, options, [.. kept], [.. first], size, random.Split(2));
    }
}
