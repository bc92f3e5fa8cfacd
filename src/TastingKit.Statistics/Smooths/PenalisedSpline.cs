namespace TastingKit.Statistics;

/// <summary>
/// What a penalised cubic spline adds to a straight line: functions whose coefficients, as independent random effects
/// of one variance, carry the penalty λ∫f″² on the curve's wiggliness. The variance, estimated with the model's others, decides
/// how smooth the curve is.
/// </summary>
/// <remarks>
/// The line is a fixed term of its own. Written as values at the knots, the functions are orthogonal to all lines. They are scaled so that
/// a standard deviation of one gives the curve, over the rows of the covariate, a mean variance of one about the line:
/// the estimated standard deviation is how far the curve strays from a line, in the response's unit. The same functions
/// serve a common curve and deviations from it by a group. Method: Wood (2017), sections 5.3.1 and 5.8; Ruppert, Wand and Carroll (2003).
/// </remarks>
public sealed class PenalisedSpline : CovariateBasis
{
    private const int MostOnStack = 64;

    private readonly CardinalSpline _spline;
    private readonly double[] _knots;

    // Values at the knots, one row a knot, of each penalised function.
    private readonly double[,] _values;

    private PenalisedSpline(NumericColumn covariate, double[] knots)
        : base(covariate.Name, covariate, knots.Length - 2)
    {
        _knots = knots;
        _spline = new CardinalSpline(knots);
        _values = PenalisedValues(_spline);
        Rescale(covariate);
    }

    /// <summary>The knots, rising, in the covariate's unit.</summary>
    public IReadOnlyList<double> Knots => _knots;

    /// <summary>A spline with knots at even shares of the covariate's distinct values, the ends included.</summary>
    /// <param name="covariate">The covariate; its name is the spline's.</param>
    /// <param name="knots">
    /// The number of knots, at least 3 and no more than distinct values: enough not to limit the curve (ten often are), since the
    /// penalty holds it back.
    /// </param>
    /// <returns>The penalised functions, two fewer than knots.</returns>
    /// <exception cref="ArgumentException">Too few knots, or too few distinct values for them.</exception>
    public static PenalisedSpline Of(NumericColumn covariate, int knots = 10) =>
        new(covariate, CardinalSpline.EvenKnots(covariate, knots, nameof(knots)));

    /// <summary>A spline with knots that the caller gives.</summary>
    /// <param name="covariate">The covariate; its name is the spline's.</param>
    /// <param name="knots">At least three numbers, rising, in the covariate's unit.</param>
    /// <returns>The penalised functions, two fewer than knots.</returns>
    /// <exception cref="ArgumentException">Fewer than three knots, or knots that are not finite and rising.</exception>
    public static PenalisedSpline At(NumericColumn covariate, params ReadOnlySpan<double> knots)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        return new PenalisedSpline(covariate, CardinalSpline.CheckedKnots(knots, nameof(knots)));
    }

    /// <inheritdoc/>
    public override void Evaluate(double covariate, Span<double> functions)
    {
        Span<double> cardinal = _knots.Length <= MostOnStack ? stackalloc double[_knots.Length] : new double[_knots.Length];
        _spline.Evaluate(covariate, cardinal);
        Combine(cardinal, functions);
    }

    /// <summary>The slopes of the functions at one value of the covariate, for where a curve rises and falls.</summary>
    /// <param name="covariate">A value in the covariate's unit.</param>
    /// <param name="slopes">Receives as many numbers as the basis is wide, per unit of the covariate.</param>
    public void EvaluateSlope(double covariate, Span<double> slopes)
    {
        Span<double> cardinal = _knots.Length <= MostOnStack ? stackalloc double[_knots.Length] : new double[_knots.Length];
        _spline.EvaluateSlope(covariate, cardinal);
        Combine(cardinal, slopes);
    }

    private void Combine(ReadOnlySpan<double> cardinal, Span<double> functions)
    {
        for (int j = 0; j < Width; j++)
        {
            double sum = 0.0;
            for (int k = 0; k < cardinal.Length; k++)
            {
                sum += cardinal[k] * _values[k, j];
            }

            functions[j] = sum;
        }
    }

    /// <summary>
    /// D′(DD′)⁻¹L with B = LL′: coefficients b give second derivatives γ = L′⁻¹b, hence the penalty γ′Bγ = b′b, and
    /// among the curves with these the one whose values at the knots are orthogonal to every line.
    /// </summary>
    private static double[,] PenalisedValues(CardinalSpline spline)
    {
        double[,] d = spline.Differences;
        int width = d.GetLength(0);
        int knots = d.GetLength(1);
        var gram = new double[width, width];
        for (int i = 0; i < width; i++)
        {
            for (int j = 0; j < width; j++)
            {
                for (int k = 0; k < knots; k++)
                {
                    gram[i, j] += d[i, k] * d[j, k];
                }
            }
        }

        double[,] inner = SmallCholesky.Factor(gram).Solve(SmallCholesky.Factor(spline.CurvatureProducts).Lower);
        var values = new double[knots, width];
        for (int k = 0; k < knots; k++)
        {
            for (int j = 0; j < width; j++)
            {
                for (int i = 0; i < width; i++)
                {
                    values[k, j] += d[i, k] * inner[i, j];
                }
            }
        }

        return values;
    }

    private void Rescale(NumericColumn covariate)
    {
        Span<double> functions = new double[Width];
        double sum = 0.0;
        foreach (double x in covariate.Values)
        {
            Evaluate(x, functions);
            foreach (double f in functions)
            {
                sum += f * f;
            }
        }

        double scale = Math.Sqrt(covariate.Count / sum);
        for (int k = 0; k < _values.GetLength(0); k++)
        {
            for (int j = 0; j < Width; j++)
            {
                _values[k, j] *= scale;
            }
        }
    }
}
