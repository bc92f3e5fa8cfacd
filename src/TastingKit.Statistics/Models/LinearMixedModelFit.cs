namespace TastingKit.Statistics;

/// <summary>A fitted linear mixed model. Immutable and safe to use from several threads.</summary>
public sealed partial class LinearMixedModelFit : IContrastSource
{
    private readonly MixedModelGeometry _geometry;
    private readonly ResponseProducts _response;
    private readonly ProfiledDeviance _deviance;
    private readonly VarianceParameters _point;
    private readonly LinearMixedModelOptions _options;
    private readonly double[] _parameters;
    private readonly HeldSystem _system;
    private readonly Lazy<VarianceInformation> _information;
    private readonly Lazy<FixedEffect[]> _fixedEffects;
    private readonly Lock _inverseLock = new();

    internal LinearMixedModelFit(ModelDesign design, MixedModelGeometry geometry, ResponseProducts response, ProfiledDeviance deviance,
        double[] parameters, VarianceParameters point, LinearMixedModelOptions options, Convergence convergence)
    {
        Design = design;
        _geometry = geometry;
        _response = response;
        _deviance = deviance;
        _parameters = parameters;
        _point = point;
        _options = options;
        Convergence = convergence;
        _system = new HeldSystem(response, deviance);
        Deviance = deviance.Value + deviance.Constant(response);
        Setting = new SettingEvaluator(geometry.FixedDesign, geometry.RowCount);
        VarianceComponents = [.. Components()];
        Cautions = [.. CautionsOf(geometry, point, convergence)];
        _information = new Lazy<VarianceInformation>(() => new VarianceInformation(geometry, response, point, options.Criterion, options.Threads));
        _fixedEffects = new Lazy<FixedEffect[]>(AllFixedEffects);
    }

    /// <summary>What was fitted.</summary>
    public ModelDesign Design { get; }

    /// <summary>Number of rows.</summary>
    public int ObservationCount => _geometry.RowCount;

    /// <summary>What was maximised.</summary>
    public EstimationCriterion Criterion => _options.Criterion;

    /// <summary>The coefficients of the fixed part that the data can tell apart, in the design's order.</summary>
    public IReadOnlyList<FixedEffect> FixedEffects => _fixedEffects.Value;

    /// <summary>The spread of each random term, in the order the terms were added.</summary>
    public IReadOnlyList<VarianceComponent> VarianceComponents { get; }

    /// <summary>Standard deviation of what is left in a row of weight one, in the response's unit.</summary>
    public double ResidualStandardDeviation => _system.ResidualStandardDeviation;

    /// <summary>Whether a variance is estimated as zero or a correlation as perfect: the data support a simpler model.</summary>
    public bool IsSingular => _point.IsSingular;

    /// <summary>What a reader must know before relying on the fit: columns dropped, variances of zero, a search that did not converge.</summary>
    public IReadOnlyList<string> Cautions { get; }

    /// <summary>The optimiser's record.</summary>
    public Convergence Convergence { get; }

    /// <summary>The criterion at the estimate, −2 times <see cref="LogLikelihood"/>. The restricted one depends on the coding and units of the fixed columns.</summary>
    public double Deviance { get; }

    /// <summary>The maximised restricted or full log-likelihood, as <see cref="Criterion"/> says.</summary>
    public double LogLikelihood => -0.5 * Deviance;

    /// <summary>Number of parameters of the criterion: fixed coefficients, entries of the covariance factors, residual variance.</summary>
    public int ParameterCount => _geometry.Rank + _geometry.ParameterCount + 1;

    internal SettingEvaluator Setting { get; }

    internal MixedModelGeometry Geometry => _geometry;

    internal ResponseProducts Products => _response;

    internal VarianceParameters Point => _point;

    internal LinearMixedModelOptions Options => _options;

    internal double[] Parameters => _parameters;

    internal HeldSystem Equations => _system;

    internal VarianceInformation Information => _information.Value;

    /// <summary>The coefficient of a fixed column as a function of this fit, columns that were dropped being out of the model.</summary>
    /// <param name="name">The coefficient's name as in <see cref="FixedEffects"/>.</param>
    /// <exception cref="ArgumentException">There is no such coefficient; the message lists those there are.</exception>
    public LinearFunction FixedEffect(string name)
    {
        int index = Array.IndexOf(_geometry.FixedDesign.Names, name);
        if (index < 0 || Array.IndexOf(_geometry.Fixed.Dropped, index) >= 0)
            throw new ArgumentException($"There is no coefficient '{name}'; there are {string.Join(", ", _geometry.Fixed.Kept.Take(40).Select(kept => $"'{_geometry.FixedDesign.Names[kept]}'"))}.", nameof(name));
        return new LinearFunction([index], [1]);
    }

    /// <summary>Whether rows have a level of a grouping factor.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="level">The level's name.</param>
    /// <exception cref="ArgumentException">There is no such group.</exception>
    public bool HasLevel(string group, string level) => TermsOf(group)[0].Term.Group.Has(level);

    /// <summary>A random effect as a function of this fit.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <param name="level">One of its levels.</param>
    /// <param name="term">The effect, "(Intercept)" or a slope's name.</param>
    /// <exception cref="ArgumentException">There is no such group, level or effect.</exception>
    public LinearFunction RandomEffect(string group, string level, string term = RandomTerm.Intercept)
    {
        RandomTermLayout[] terms = TermsOf(group);
        int row = terms[0].Term.Group.IndexOf(level);
        foreach (RandomTermLayout each in terms)
        {
            int effect = Array.IndexOf(each.EffectNames, term);
            if (effect >= 0) return new LinearFunction([_geometry.FixedDesign.Width + each.EffectIndex(row, effect)], [1]);
        }

        throw new ArgumentException($"Group '{group}' has no effect '{term}'; it has {string.Join(", ", terms.SelectMany(each => each.EffectNames))}.", nameof(term));
    }

    /// <summary>The penalised part of a curve at a value of its covariate, as a function of this fit. The straight line is a fixed term and comes from <see cref="At"/>.</summary>
    /// <param name="penalised">The functions that were added to the design.</param>
    /// <param name="value">A value in the covariate's unit.</param>
    /// <param name="group">The group whose curve is asked for and its level, or null for the curve that all rows share.</param>
    /// <exception cref="ArgumentException">The design has no such curve, group or level.</exception>
    public LinearFunction Smooth(CovariateBasis penalised, double value, (string Name, string Level)? group = null)
    {
        ArgumentNullException.ThrowIfNull(penalised);
        var functions = new double[penalised.Width];
        penalised.Evaluate(value, functions);
        var (name, level) = group ?? (penalised.Name, "all");
        LinearFunction sum = LinearFunction.Zero;
        for (int i = 0; i < functions.Length; i++) sum += functions[i] * RandomEffect(name, level, penalised.FunctionName(i));
        return sum;
    }

    /// <summary>The fixed part at a setting, as a function of this fit.</summary>
    /// <param name="setting">Factors at a level or averaged, covariates at a value or their mean.</param>
    /// <exception cref="ArgumentException">The setting names something that is not in the fixed part.</exception>
    /// <exception cref="ModelException">The data can't tell the fixed part at this setting: it needs a column that was dropped.</exception>
    public LinearFunction At(Setting setting)
    {
        ArgumentNullException.ThrowIfNull(setting);
        LinearFunction function = Setting.At(setting);
        _system.Translator.CheckEstimable(function);
        return function;
    }

    /// <summary>The estimate of a function with standard error, Satterthwaite's degrees of freedom and an interval.</summary>
    /// <param name="function">A function of this fit's coefficients and effects.</param>
    /// <param name="level">Coverage that the interval aims at, between 0 and 1.</param>
    /// <remarks>
    /// For functions with random effects the standard error is that of the prediction error, and the degrees of freedom are Satterthwaite's
    /// applied to its estimated variance, at least 1: an approximation that takes the variance parameters as estimated in the variance itself. Where a
    /// group's variance is near zero it understates what is not known; <see cref="DrawJoint"/> does not.
    /// </remarks>
    public Estimate Estimate(LinearFunction function, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(function);
        if (!(level > 0 && level < 1)) throw new ArgumentOutOfRangeException(nameof(level), level, "A coverage lies between 0 and 1.");
        double value = Value(function);
        double error = Math.Sqrt(Covariance(function, function));
        if (error == 0) return new Estimate(value, 0, double.PositiveInfinity, value, value, level);
        double degreesOfFreedom = _information.Value.DegreesOfFreedom(function);
        // The variance of a prediction can be so ill-determined that the approximation gives a small fraction, whose t distribution has no use.
        if (function.Indices[^1] >= _geometry.FixedDesign.Width) degreesOfFreedom = Math.Max(degreesOfFreedom, 1);
        double margin = StudentsT.TwoSidedQuantile(1 - level, degreesOfFreedom) * error;
        return new Estimate(value, error, degreesOfFreedom, value - margin, value + margin, level);
    }

    /// <summary>The estimated value of a function, without its uncertainty.</summary>
    /// <param name="function">A function of this fit's coefficients and effects.</param>
    public double Value(LinearFunction function)
    {
        ArgumentNullException.ThrowIfNull(function);
        return _system.Value(function);
    }

    /// <summary>Covariance of the prediction errors of two functions; for fixed coefficients, the covariance of their estimates.</summary>
    /// <param name="first">A function of this fit's coefficients and effects.</param>
    /// <param name="second">A function of this fit's coefficients and effects.</param>
    public double Covariance(LinearFunction first, LinearFunction second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        double[] weights = _system.Translator.Translate(first, _deviance.Factors);
        double[] solved = ReferenceEquals(first, second) ? (double[])weights.Clone() : _system.Translator.Translate(second, _deviance.Factors);
        _deviance.SolveSystem(solved);
        return ResidualStandardDeviation * ResidualStandardDeviation * OrthonormalBasis.Dot(weights, solved);
    }

    /// <summary>Covariances of the prediction errors of several functions, symmetric.</summary>
    /// <param name="functions">Functions of this fit's coefficients and effects.</param>
    public double[,] Covariances(IReadOnlyList<LinearFunction> functions)
    {
        ArgumentNullException.ThrowIfNull(functions);
        return _system.Covariances(functions);
    }

    /// <summary>The residual variance plus the variances of some groups' intercepts: of one observation where those groups' levels are new.</summary>
    /// <param name="groups">Grouping factors, each with an intercept of its own and nothing else.</param>
    /// <exception cref="ArgumentException">There is no such group, or it has more than an intercept.</exception>
    public VarianceSum ResidualVarianceWith(params IReadOnlyList<string> groups)
    {
        ArgumentNullException.ThrowIfNull(groups);
        return SumOf(1, [.. groups.Distinct().Select(InterceptOf)]);
    }

    /// <summary>The variance of a group's intercepts; nothing where it is estimated as zero.</summary>
    /// <param name="group">A grouping factor with an intercept and nothing else.</param>
    /// <exception cref="ArgumentException">There is no such group, or it has more than an intercept.</exception>
    public VarianceSum? InterceptVariance(string group)
    {
        int entry = InterceptOf(group);
        return _point.IsZero[entry] ? null : SumOf(0, [entry]);
    }

    private int InterceptOf(string name) => TermsOf(name) is [{ EffectNames.Length: 1 } term]
        ? term.ParameterOffset
        : throw new ArgumentException($"Group '{name}' has more than an intercept.", nameof(name));

    private VarianceSum SumOf(double residual, int[] entries)
    {
        double sum = residual + entries.Sum(entry => _point.IsZero[entry] ? 0 : _parameters[entry] * _parameters[entry]);
        // Derivatives of the sum's logarithm in the free entries and the logarithm of the residual variance.
        double[] derivatives = [.. _point.Free.Select(entry => entries.Contains(entry) ? 2 * _parameters[entry] / sum : 0), 1];
        double[,] covariance = _information.Value.ParameterCovariance;
        double variance = 0;
        for (int i = 0; i < derivatives.Length; i++)
            for (int j = 0; j < derivatives.Length; j++) variance += derivatives[i] * covariance[i, j] * derivatives[j];
        return new VarianceSum(ResidualStandardDeviation * ResidualStandardDeviation * sum, 2 / variance);
    }

    /// <summary>The conditional modes of a group's effects.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <exception cref="ArgumentException">There is no such group.</exception>
    public ConditionalModes ConditionalModes(string group)
    {
        RandomTermLayout[] terms = TermsOf(group);
        GroupLayout layout = terms[0].Owner;
        int index = Array.IndexOf(_geometry.Groups, layout);
        double[][,] roots = Array.ConvertAll(terms, term => term.RawFactor(_deviance.Factors[index]));
        var rows = new List<ConditionalMode>();
        var block = new double[layout.Width, layout.Width];
        lock (_inverseLock)
        {
            if (_geometry.RandomRest > 0) _deviance.Dense.Invert(_geometry.RandomRest, _options.Threads);
            var inverse = new InverseBlocks(_deviance, _geometry.RandomRest);
            int held = -1;
            for (int level = 0; level < terms[0].LevelCount; level++)
            {
                int holder = terms[0].PlaceOf(level, 0).Level;
                if (holder != held) inverse.Block(index, holder, block);
                held = holder;
                for (int t = 0; t < roots.Length; t++) AddModes(terms[t], level, roots[t], block, rows);
            }
        }

        return new ConditionalModes(this, group, [.. rows]);
    }

    internal double ConditionalCovariance(LinearFunction first, LinearFunction second)
    {
        ArgumentNullException.ThrowIfNull(first);
        ArgumentNullException.ThrowIfNull(second);
        double[] weights = _system.Translator.Translate(first, _deviance.Factors), solved = _system.Translator.Translate(second, _deviance.Factors);
        Span<double> effects = solved.AsSpan(0, _geometry.EffectCount);
        _deviance.SolveEffects(effects);
        double sum = 0;
        for (int i = 0; i < effects.Length; i++) sum += weights[i] * effects[i];
        return ResidualStandardDeviation * ResidualStandardDeviation * sum;
    }

    /// <summary>The random terms of a grouping factor, in the order they were added.</summary>
    internal RandomTermLayout[] TermsOf(string group)
    {
        RandomTermLayout[] all = [.. _geometry.Groups.SelectMany(layout => layout.Terms).OrderBy(term => term.ParameterOffset)];
        RandomTermLayout[] own = Array.FindAll(all, term => term.Term.Group.Name == group);
        return own.Length > 0
            ? own
            : throw new ArgumentException($"There is no group '{group}'; there {(all.Length == 0 ? "are none" : $"are {string.Join(", ", all.Select(term => term.Term.Group.Name).Distinct())}")}.", nameof(group));
    }

    private void AddModes(RandomTermLayout term, int level, double[,] root, double[,] block, List<ConditionalMode> rows)
    {
        for (int effect = 0; effect < term.EffectNames.Length; effect++)
        {
            int place = term.PlaceOf(level, effect).Place;
            double mode = 0, variance = 0;
            for (int i = 0; i < term.Width; i++)
            {
                double weight = root[place - term.Offset, i];
                if (weight == 0) continue;
                mode += weight * _system.Solution[term.EffectIndex(level, effect) - place + term.Offset + i];
                for (int j = 0; j < term.Width; j++) variance += weight * block[term.Offset + i, term.Offset + j] * root[place - term.Offset, j];
            }

            rows.Add(new ConditionalMode(term.Term.Group.Levels[level], term.EffectNames[effect], _response.Scale * mode, ResidualStandardDeviation * Math.Sqrt(variance)));
        }
    }

    private FixedEffect[] AllFixedEffects() => Array.ConvertAll(_geometry.Fixed.Kept, column =>
    {
        var function = new LinearFunction([column], [1]);
        Estimate estimate = Estimate(function);
        return new FixedEffect(_geometry.FixedDesign.Names[column], estimate.Value, estimate.StandardError, estimate.DegreesOfFreedom,
            estimate.Value / estimate.StandardError, estimate.PValue(), estimate.Low, estimate.High);
    });

    private IEnumerable<VarianceComponent> Components()
    {
        var terms = _geometry.Groups.SelectMany((group, index) => group.Terms.Select(term => (index, term))).OrderBy(each => each.term.ParameterOffset);
        foreach (var (index, term) in terms)
        {
            double[,] covariance = term.RelativeCovariance(_deviance.Factors[index]);
            int width = term.EffectNames.Length;
            var deviations = new double[width];
            for (int i = 0; i < width; i++) deviations[i] = ResidualStandardDeviation * Math.Sqrt(covariance[i, i]);
            var correlations = new double[width, width];
            for (int i = 0; i < width; i++)
                for (int j = 0; j < width; j++) correlations[i, j] = i == j ? 1 : Math.Clamp(covariance[i, j] / Math.Sqrt(covariance[i, i] * covariance[j, j]), -1, 1);
            yield return new VarianceComponent(term.Term.Group.Name, term.LevelCount, term.EffectNames, deviations, correlations);
        }
    }

    private static IEnumerable<string> CautionsOf(MixedModelGeometry geometry, VarianceParameters point, Convergence convergence)
    {
        foreach (int dropped in geometry.Fixed.Dropped)
            yield return $"The coefficient '{geometry.FixedDesign.Names[dropped]}' is left out: the data can't tell it from the others (no row, or a combination of other columns in every row).";
        if (point.IsSingular)
        {
            foreach (RandomTermLayout term in geometry.Groups.SelectMany(group => group.Terms).OrderBy(term => term.ParameterOffset))
            {
                if (!point.IsZero.AsSpan(term.ParameterOffset, term.ParameterCount).Contains(true)) continue;
                bool isZero = !point.IsZero.AsSpan(term.ParameterOffset, term.ParameterCount).Contains(false);
                yield return isZero
                    ? $"The variance of '{string.Join(", ", term.EffectNames)}' by '{term.Term.Group.Name}' is estimated as zero: the fit is singular, and degrees of freedom hold that variance at zero."
                    : $"The effects '{string.Join(", ", term.EffectNames)}' by '{term.Term.Group.Name}' are estimated as perfectly correlated or not all varying: the fit is singular.";
            }
        }

        if (!convergence.HasConverged) yield return $"The search for the variance parameters did not converge: {convergence.Reason}";
    }
}
