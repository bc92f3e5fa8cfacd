namespace TastingKit.Statistics;

/// <summary>A fitted ordinal model. Immutable and safe to use from several threads.</summary>
/// <remarks>
/// Inference is large-sample: standard errors from the observed information of all parameters together, intervals and
/// p-values from the normal distribution, so that degrees of freedom are infinite wherever the vocabulary asks for them.
/// </remarks>
public sealed partial class OrdinalMixedModelFit : IContrastSource
{
    private readonly OrdinalSystem _system;
    private readonly double[] _parameters;

    // Over all parameters; zero where a standard deviation is held at zero, NaN throughout where there is no inverse.
    private readonly double[,] _covariance;
    private readonly ConditionalMode[][] _modes;

    internal OrdinalMixedModelFit(OrdinalDesign design, OrdinalMixedModelOptions options, OrdinalSystem system, OrdinalOptimum optimum)
    {
        Design = design;
        Options = options;
        _system = system;
        _parameters = optimum.Parameters;
        LogLikelihood = optimum.LogLikelihood;
        Convergence = optimum.Convergence;
        IsSingular = optimum.Held.Length > 0;
        _covariance = Covariance(system, optimum);
        Coefficients = [.. AllCoefficients()];
        VarianceComponents = [.. system.Terms.Select((term, t) =>
            new VarianceComponent(term.Group.Name, term.Group.Levels.Count, [term.Name], [_parameters[system.DeviationOffset + t] / term.Unit], new double[,] { { 1.0 } }))];
        _modes = [.. system.Terms.Select((_, t) => ModesOf(optimum, t))];
        Cautions = [.. AllCautions(optimum)];
    }

    /// <summary>What was fitted.</summary>
    public OrdinalDesign Design { get; }

    /// <summary>How it was fitted.</summary>
    public OrdinalMixedModelOptions Options { get; }

    /// <summary>Number of rows.</summary>
    public int ObservationCount => _system.RowCount;

    /// <summary>The categories, the lowest first.</summary>
    public IReadOnlyList<string> Categories => Design.Response.Levels;

    /// <summary>All coefficients: thresholds, location, logarithm of the scale.</summary>
    public IReadOnlyList<OrdinalCoefficient> Coefficients { get; }

    /// <summary>The coefficients of the location, in the vocabulary of linear models; degrees of freedom are infinite.</summary>
    public IReadOnlyList<FixedEffect> FixedEffects => [.. Coefficients.Where(c => c.Part == OrdinalPart.Location)
        .Select(c => new FixedEffect(c.Name, c.Estimate, c.StandardError, double.PositiveInfinity, c.Z, c.P, c.Low, c.High))];

    /// <summary>The spread of each random term, in the order the terms were added, on the latent scale.</summary>
    public IReadOnlyList<VarianceComponent> VarianceComponents { get; }

    /// <summary>Whether a variance is estimated as zero.</summary>
    public bool IsSingular { get; }

    /// <summary>What a reader must know before relying on the fit.</summary>
    public IReadOnlyList<string> Cautions { get; }

    /// <summary>The optimiser's record.</summary>
    public Convergence Convergence { get; }

    /// <summary>The maximised log-likelihood, integrated over the random effects as <see cref="OrdinalMixedModelOptions.QuadraturePoints"/> says.</summary>
    public double LogLikelihood { get; }

    /// <summary>−2 times <see cref="LogLikelihood"/>.</summary>
    public double Deviance => -2.0 * LogLikelihood;

    /// <summary>Number of parameters, standard deviations estimated as zero included.</summary>
    public int ParameterCount => _system.ParameterCount;

    /// <summary>The standard error of the logarithm of a term's standard deviation.</summary>
    /// <param name="term">The term's position in <see cref="VarianceComponents"/>.</param>
    /// <returns>The standard error, or null where the standard deviation is zero.</returns>
    public double? StandardErrorOfLogDeviation(int term)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(term);
        ArgumentOutOfRangeException.ThrowIfGreaterThanOrEqual(term, _system.Terms.Length);
        int index = _system.DeviationOffset + term;
        return _parameters[index] > 0.0 ? Math.Sqrt(_covariance[index, index]) / _parameters[index] : null;
    }

    /// <summary>The conditional modes of a group's effects, on the latent scale, with their conditional standard deviations given all parameters.</summary>
    /// <param name="group">The grouping factor.</param>
    /// <returns>One row a level and term, levels in the factor's order.</returns>
    /// <exception cref="ArgumentException">There is no such group.</exception>
    public IReadOnlyList<ConditionalMode> ConditionalModes(string group)
    {
        int[] terms = [.. Enumerable.Range(0, _system.Terms.Length).Where(t => _system.Terms[t].Group.Name == group)];
        if (terms.Length == 0)
        {
            throw new ArgumentException($"There is no group '{group}'; there {(_system.Terms.Length == 0 ? "are none" : $"are {string.Join(", ", _system.Terms.Select(t => t.Group.Name).Distinct())}")}.", nameof(group));
        }

        return [.. Enumerable.Range(0, _modes[terms[0]].Length).SelectMany(level => terms.Select(t => _modes[t][level]))];
    }

    private IEnumerable<OrdinalCoefficient> AllCoefficients()
    {
        int width = _system.Map.ParameterCount;
        for (int i = 0; i < _system.DeviationOffset; i++)
        {
            (string name, OrdinalPart part) = i < _system.LocationOffset
                ? (ThresholdName(i % width, i / width), OrdinalPart.Threshold)
                : i < _system.ScaleOffset
                    ? (_system.LocationNames[i - _system.LocationOffset], OrdinalPart.Location)
                    : (_system.ScaleNames[i - _system.ScaleOffset], OrdinalPart.LogScale);
            double error = Math.Sqrt(_covariance[i, i]);
            double z = _parameters[i] / error;
            double half = NormalQuantile(0.95) * error;
            yield return new OrdinalCoefficient(name, part, _parameters[i], error, z, 2.0 * StandardNormal.CumulativeProbability(-Math.Abs(z)), _parameters[i] - half, _parameters[i] + half);
        }
    }

    private string ThresholdName(int parameter, int nominal) => _system.Nominal.Length == 1
        ? _system.Map.Names[parameter]
        : $"{_system.Map.Names[parameter]}.{_system.NominalNames[nominal]}";

    private ConditionalMode[] ModesOf(OrdinalOptimum optimum, int term)
    {
        var modes = optimum.Likelihood!.Modes;
        double deviation = _parameters[_system.DeviationOffset + term] / _system.Terms[term].Unit;
        var group = _system.Terms[term].Group;
        return [.. group.Levels.Select((level, l) =>
        {
            int index = modes.Effects.Offsets[term] + l;
            return new ConditionalMode(level, _system.Terms[term].Name, deviation * modes.Values[index], deviation * Math.Sqrt(modes.Effects.Inverse(index, index)));
        })];
    }

    private IEnumerable<string> AllCautions(OrdinalOptimum optimum)
    {
        foreach (string name in _system.Dropped)
        {
            yield return $"The coefficient '{name}' is left out: the data can't tell it from the others or from the thresholds.";
        }

        foreach (int held in optimum.Held)
        {
            var term = _system.Terms[held - _system.DeviationOffset];
            yield return $"The variance of '{term.Name}' by '{term.Group.Name}' is estimated as zero: the fit is singular.";
        }

        if (!optimum.Convergence.HasConverged)
        {
            yield return $"The search did not converge: {optimum.Convergence.Reason}.";
        }

        // A category that one side never uses sends its coefficient to infinity while the likelihood levels off.
        foreach (var coefficient in Coefficients.Where(c => !(c.StandardError < 1e3)))
        {
            yield return $"The coefficient '{coefficient.Name}' has no finite estimate: its rows stand in the lowest or highest categories only, or on one side of a threshold.";
        }
    }

    private static double[,] Covariance(OrdinalSystem system, OrdinalOptimum optimum)
    {
        var covariance = new double[system.ParameterCount, system.ParameterCount];
        int[] free = [.. Enumerable.Range(0, system.ParameterCount).Except(optimum.Held)];
        double[,]? inverse = SmallCholesky.TryFactor(optimum.Information)?.Inverse();
        for (int i = 0; i < free.Length; i++)
        {
            for (int j = 0; j < free.Length; j++)
            {
                covariance[free[i], free[j]] = inverse is null ? double.NaN : inverse[i, j];
            }
        }

        return covariance;
    }

    private static double NormalQuantile(double level) => StandardNormal.Quantile(0.5 + 0.5 * level);
}
