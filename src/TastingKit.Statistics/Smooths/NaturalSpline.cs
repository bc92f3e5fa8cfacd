namespace TastingKit.Statistics;

/// <summary>
/// A natural cubic spline of a covariate with free coefficients: cubic between knots, a straight line before the first
/// and after the last.
/// </summary>
/// <remarks>
/// Beside an intercept, the coefficient of a function is what the curve gains from the first knot to the function's own
/// knot, which gives it its name. There is one function fewer than knots.
/// </remarks>
public sealed class NaturalSpline : CovariateBasis
{
    private const int MostOnStack = 64;

    private readonly CardinalSpline _spline;
    private readonly double[] _knots;

    private NaturalSpline(string name, NumericColumn covariate, double[] knots)
        : base(name, covariate, knots.Length - 1)
    {
        _knots = knots;
        _spline = new CardinalSpline(knots);
    }

    /// <summary>The knots, rising, in the covariate's unit.</summary>
    public IReadOnlyList<double> Knots => _knots;

    /// <summary>A spline with knots at even shares of the covariate's distinct values, the ends included.</summary>
    /// <param name="covariate">The covariate; its name is the spline's.</param>
    /// <param name="knots">The number of knots, at least 3 and no more than distinct values; the spline has one coefficient less.</param>
    /// <returns>The spline.</returns>
    /// <exception cref="ArgumentException">Too few knots, or too few distinct values for them.</exception>
    public static NaturalSpline Of(NumericColumn covariate, int knots) =>
        new(covariate?.Name!, covariate!, CardinalSpline.EvenKnots(covariate!, knots, nameof(knots)));

    /// <summary>A spline with knots that the caller gives.</summary>
    /// <param name="covariate">The covariate; its name is the spline's.</param>
    /// <param name="knots">At least three numbers, rising, in the covariate's unit.</param>
    /// <returns>The spline.</returns>
    /// <exception cref="ArgumentException">Fewer than three knots, or knots that are not finite and rising.</exception>
    public static NaturalSpline At(NumericColumn covariate, params ReadOnlySpan<double> knots)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        return new NaturalSpline(covariate.Name, covariate, CardinalSpline.CheckedKnots(knots, nameof(knots)));
    }

    /// <inheritdoc/>
    public override string FunctionName(int index) => FormattableString.Invariant($"{Name}@{_knots[index + 1]}");

    /// <inheritdoc/>
    public override void Evaluate(double covariate, Span<double> functions)
    {
        Span<double> all = _knots.Length <= MostOnStack ? stackalloc double[_knots.Length] : new double[_knots.Length];
        _spline.Evaluate(covariate, all);
        all[1..].CopyTo(functions);
    }

    /// <summary>The slopes of the functions at one value of the covariate, for where a curve rises and falls.</summary>
    /// <param name="covariate">A value in the covariate's unit.</param>
    /// <param name="slopes">Receives as many numbers as the basis is wide, per unit of the covariate.</param>
    public void EvaluateSlope(double covariate, Span<double> slopes)
    {
        Span<double> all = _knots.Length <= MostOnStack ? stackalloc double[_knots.Length] : new double[_knots.Length];
        _spline.EvaluateSlope(covariate, all);
        all[1..].CopyTo(slopes);
    }
}
