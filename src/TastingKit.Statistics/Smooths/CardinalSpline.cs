namespace TastingKit.Statistics;

/// <summary>
/// Natural cubic splines through given values at the knots: cubic between them, linear outside, with continuous
/// second derivatives. One function a knot, which is one there and zero at the others; together they sum to one.
/// </summary>
/// <remarks>Wood (2017), Generalized Additive Models, second edition, section 5.3.1.</remarks>
internal sealed class CardinalSpline
{
    private readonly double[] _knots;

    // Second derivatives at the interior knots, one row a knot, of each function.
    private readonly double[,] _curvatures;

    public CardinalSpline(double[] knots)
    {
        _knots = knots;
        int interior = knots.Length - 2;
        Differences = new double[interior, knots.Length];
        CurvatureProducts = new double[interior, interior];
        for (int i = 0; i < interior; i++)
        {
            double left = knots[i + 1] - knots[i];
            double right = knots[i + 2] - knots[i + 1];
            Differences[i, i] = 1.0 / left;
            Differences[i, i + 1] = -1.0 / left - 1.0 / right;
            Differences[i, i + 2] = 1.0 / right;
            CurvatureProducts[i, i] = (left + right) / 3.0;
            if (i + 1 < interior)
            {
                CurvatureProducts[i, i + 1] = CurvatureProducts[i + 1, i] = right / 6.0;
            }
        }

        _curvatures = SmallCholesky.Factor(CurvatureProducts).Solve(Differences);
    }

    public int KnotCount => _knots.Length;

    /// <summary>D: the jump of the slope of the polygon through the values at each interior knot.</summary>
    public double[,] Differences { get; }

    /// <summary>B: D times the values is B times the second derivatives γ, and ∫ f″² is γ′Bγ.</summary>
    public double[,] CurvatureProducts { get; }

    /// <summary>All functions at <paramref name="x"/>.</summary>
    public void Evaluate(double x, Span<double> functions)
    {
        functions.Clear();
        int last = _knots.Length - 1;
        if (x <= _knots[0] || x >= _knots[last])
        {
            int end = x <= _knots[0] ? 0 : last;
            EvaluateSlope(_knots[end], functions);
            for (int k = 0; k <= last; k++)
            {
                functions[k] *= x - _knots[end];
            }

            functions[end] += 1.0;
            return;
        }

        int j = Interval(x);
        double width = _knots[j + 1] - _knots[j];
        double toRight = _knots[j + 1] - x;
        double fromLeft = x - _knots[j];
        functions[j] += toRight / width;
        functions[j + 1] += fromLeft / width;
        AddCurvatures(j, (toRight * toRight * toRight / width - width * toRight) / 6.0, (fromLeft * fromLeft * fromLeft / width - width * fromLeft) / 6.0, functions);
    }

    /// <summary>The first derivatives of all functions at <paramref name="x"/>.</summary>
    public void EvaluateSlope(double x, Span<double> slopes)
    {
        slopes.Clear();
        x = Math.Clamp(x, _knots[0], _knots[^1]);
        int j = Interval(x);
        double width = _knots[j + 1] - _knots[j];
        double toRight = _knots[j + 1] - x;
        double fromLeft = x - _knots[j];
        slopes[j] -= 1.0 / width;
        slopes[j + 1] += 1.0 / width;
        AddCurvatures(j, (width - 3.0 * toRight * toRight / width) / 6.0, (3.0 * fromLeft * fromLeft / width - width) / 6.0, slopes);
    }

    /// <summary>Checks knots that the caller gives.</summary>
    /// <exception cref="ArgumentException">There are fewer than three, or they are not finite and rising.</exception>
    public static double[] CheckedKnots(ReadOnlySpan<double> knots, string name)
    {
        if (knots.Length < 3)
        {
            throw new ArgumentException($"A spline needs at least three knots; {knots.Length} were given. With two it is a straight line.", name);
        }

        for (int i = 0; i < knots.Length; i++)
        {
            if (!double.IsFinite(knots[i]) || (i > 0 && knots[i] <= knots[i - 1]))
            {
                throw new ArgumentException($"Knots must be finite and rising; knot {i} is {FormattableString.Invariant($"{knots[i]}")}.", name);
            }
        }

        return knots.ToArray();
    }

    /// <summary>Knots from the smallest to the largest value of a covariate, at even shares of its distinct values.</summary>
    /// <exception cref="ArgumentException">The covariate has fewer distinct values than there shall be knots.</exception>
    public static double[] EvenKnots(NumericColumn covariate, int count, string name)
    {
        ArgumentNullException.ThrowIfNull(covariate);
        if (count < 3)
        {
            throw new ArgumentException($"A spline needs at least three knots; {count} were asked for. With two it is a straight line.", name);
        }

        double[] distinct = [.. covariate.Values.ToArray().Distinct().Order()];
        if (distinct.Length < count)
        {
            throw new ArgumentException($"'{covariate.Name}' has {distinct.Length} distinct values, too few for {count} knots.", name);
        }

        var knots = new double[count];
        for (int i = 0; i < count; i++)
        {
            double position = (double)i * (distinct.Length - 1) / (count - 1);
            int below = Math.Min((int)position, distinct.Length - 2);
            knots[i] = distinct[below] + (position - below) * (distinct[below + 1] - distinct[below]);
        }

        return knots;
    }

    private int Interval(double x)
    {
        int i = Array.BinarySearch(_knots, x);
        return Math.Clamp(i >= 0 ? i : ~i - 1, 0, _knots.Length - 2);
    }

    private void AddCurvatures(int interval, double left, double right, Span<double> target)
    {
        for (int k = 0; k < _knots.Length; k++)
        {
            // The second derivative is zero at both end knots.
            double value = 0.0;
            if (interval > 0)
            {
                value += left * _curvatures[interval - 1, k];
            }

            if (interval < _knots.Length - 2)
            {
                value += right * _curvatures[interval, k];
            }

            target[k] += value;
        }
    }
}
