namespace TastingKit.Statistics;

/// <summary>
/// What a fit says of several functions together with its variance parameters held: their values, the covariance of their prediction errors, and
/// how much smaller these errors become by observations that are yet to be made. Immutable; an observation gives a new instance.
/// </summary>
/// <remarks>
/// With the variance parameters held, the covariance V of what is not known does not depend on what will be observed. An observation of function x
/// with noise σ² takes Vx(Vx)ᵀ/(σ² + xᵀVx) from it: conditioning of a normal distribution, which is what refitting with one more row gives (Henderson's
/// equations; V is their inverse, fixed coefficients having a flat prior). Chaloner and Verdinelli 1995, Bayesian experimental design: a review,
/// Statistical Science 10. A level that no row has enters with its group's variance, independent of all else.
/// </remarks>
public sealed class FurtherObservations
{
    private readonly double[] _values;
    private readonly double[,] _covariance;

    private FurtherObservations(double[] values, double[,] covariance, double noiseVariance)
    {
        (_values, _covariance, NoiseVariance) = (values, covariance, noiseVariance);
    }

    /// <summary>Number of functions.</summary>
    public int Count => _values.Length;

    /// <summary>Variance of one observation about its function: the residual variance of a row of weight one.</summary>
    public double NoiseVariance { get; }

    /// <summary>Functions of a fit.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="functions">Both what is asked and what could be observed.</param>
    /// <param name="heldAt">
    /// Draws of the fit: the variance parameters are held at the middle of these, none of which is zero, so that a spread that was estimated as
    /// zero is not taken for none. Null for the estimates.
    /// </param>
    /// <param name="freeGroup">
    /// A group with an intercept and nothing else whose levels' intercepts are left free, so that its levels tell nothing of one another: what is said is then
    /// said within its levels. Null for none; otherwise draws must be given.
    /// </param>
    /// <exception cref="ArgumentException">A new level is one that the fit has, its group or the free one has more than an intercept, or a group is left free without draws.</exception>
    public static FurtherObservations Of(LinearMixedModelFit fit, IReadOnlyList<FurtherFunction> functions, JointDraws? heldAt = null, string? freeGroup = null)
    {
        ArgumentNullException.ThrowIfNull(fit);
        ArgumentNullException.ThrowIfNull(functions);
        if (heldAt is null && freeGroup is not null) throw new ArgumentException("A group is left free at drawn variances; give the draws.", nameof(heldAt));
        HeldSystem held = heldAt is null ? fit.Equations : HeldSystem.At(fit, heldAt, freeGroup);
        double[] values = [.. functions.Select(function => held.Value(function.Known))];
        double[,] covariance = held.Covariances([.. functions.Select(function => function.Known)]);
        var ofLevels = new Dictionary<(string Group, string Level), List<(int Function, double Weight)>>();
        for (int i = 0; i < functions.Count; i++)
        {
            foreach (NewLevel level in functions[i].New)
            {
                if (!ofLevels.TryGetValue((level.Group, level.Level), out var users)) ofLevels[(level.Group, level.Level)] = users = [];
                users.Add((i, level.Weight));
            }
        }

        foreach (var (level, users) in ofLevels)
        {
            double variance = held.VarianceOfNew(fit.TermsOf(level.Group), level.Level);
            foreach (var (i, first) in users)
                foreach (var (j, second) in users) covariance[i, j] += first * second * variance;
        }

        return new FurtherObservations(values, covariance, held.ResidualStandardDeviation * held.ResidualStandardDeviation);
    }

    /// <summary>The value of a function as it stands before any further observation.</summary>
    public double Value(int function) => _values[function];

    /// <summary>Variance of a function's prediction error.</summary>
    public double Variance(int function) => _covariance[function, function];

    /// <summary>Covariance of two functions' prediction errors.</summary>
    public double Covariance(int first, int second) => _covariance[first, second];

    internal double[,] Covariances() => _covariance;

    /// <summary>Variance that a single observation of a function would have about its prediction, noise included.</summary>
    public double PredictiveVariance(int observed) => NoiseVariance + _covariance[observed, observed];

    /// <summary>By how much observing one function once would shrink the variance of another; never negative.</summary>
    public double Reduction(int function, int observed) =>
        _covariance[function, observed] * _covariance[function, observed] / PredictiveVariance(observed);

    /// <summary>How far a function's value moves for each standard deviation by which the observation of another departs from its prediction.</summary>
    public double Step(int function, int observed) => _covariance[function, observed] / Math.Sqrt(PredictiveVariance(observed));

    /// <summary>Some of the functions, in the order given.</summary>
    /// <param name="functions">Their numbers.</param>
    public FurtherObservations Only(IReadOnlyList<int> functions)
    {
        ArgumentNullException.ThrowIfNull(functions);
        var covariance = new double[functions.Count, functions.Count];
        for (int i = 0; i < functions.Count; i++)
            for (int j = 0; j < functions.Count; j++) covariance[i, j] = _covariance[functions[i], functions[j]];
        return new FurtherObservations([.. functions.Select(Value)], covariance, NoiseVariance);
    }

    /// <summary>The same after a function has been observed once, whatever was observed; values stay those before.</summary>
    public FurtherObservations After(int observed)
    {
        int count = Count;
        var left = new double[count, count];
        double predictive = PredictiveVariance(observed);
        for (int i = 0; i < count; i++)
            for (int j = 0; j < count; j++) left[i, j] = _covariance[i, j] - _covariance[i, observed] * _covariance[j, observed] / predictive;
        return new FurtherObservations(_values, left, NoiseVariance);
    }
}
