namespace TastingKit.Statistics;

/// <summary>The values of a ratio that data do not contradict: an interval, all but an interval, or every number.</summary>
public abstract record FiellerSet
{
    private FiellerSet()
    {
    }

    /// <summary>Calls the function of the outcome.</summary>
    /// <typeparam name="T">What the functions give.</typeparam>
    /// <param name="bounded">Takes the ends of an interval.</param>
    /// <param name="outside">Takes the ends of the interval that is ruled out.</param>
    /// <param name="everything">Called where no number is ruled out.</param>
    public abstract T Match<T>(Func<double, double, T> bounded, Func<double, double, T> outside, Func<T> everything);

    /// <summary>From <paramref name="Low"/> to <paramref name="High"/>.</summary>
    /// <param name="Low">The lower end.</param>
    /// <param name="High">The upper end.</param>
    public sealed record Bounded(double Low, double High) : FiellerSet
    {
        /// <inheritdoc/>
        public override T Match<T>(Func<double, double, T> bounded, Func<double, double, T> outside, Func<T> everything) => bounded(Low, High);
    }

    /// <summary>Up to <paramref name="Low"/> and from <paramref name="High"/> on: the denominator may have either sign.</summary>
    /// <param name="Low">Where the numbers ruled out begin.</param>
    /// <param name="High">Where they end.</param>
    public sealed record Outside(double Low, double High) : FiellerSet
    {
        /// <inheritdoc/>
        public override T Match<T>(Func<double, double, T> bounded, Func<double, double, T> outside, Func<T> everything) => outside(Low, High);
    }

    /// <summary>Every number: the data say nothing of the ratio.</summary>
    public sealed record Everything : FiellerSet
    {
        /// <inheritdoc/>
        public override T Match<T>(Func<double, double, T> bounded, Func<double, double, T> outside, Func<T> everything) => everything();
    }
}

/// <summary>Where a fitted parabola a + bx + cx² turns.</summary>
/// <param name="Location">−b/(2c).</param>
/// <param name="StandardError">Its standard error by the delta method, which is too sure of itself where c is poorly known.</param>
/// <param name="IsMaximum">Whether the parabola is highest there.</param>
/// <param name="Set">The locations that the data don't contradict, by Fieller (1954): exact where the estimates are normal.</param>
public sealed record QuadraticPeak(double Location, double StandardError, bool IsMaximum, FiellerSet Set)
{
    /// <summary>Finds the turning point.</summary>
    /// <param name="slope">The estimate of b.</param>
    /// <param name="curvature">The estimate of c, not zero.</param>
    /// <param name="slopeVariance">The variance of the estimate of b.</param>
    /// <param name="covariance">The covariance of the two estimates.</param>
    /// <param name="curvatureVariance">The variance of the estimate of c.</param>
    /// <param name="quantile">The quantile of t or of the normal distribution for the wanted coverage, as 1.96.</param>
    /// <exception cref="ArgumentException">The curvature is zero, an argument is not finite, or the variances and covariance are not those of two estimates.</exception>
    public static QuadraticPeak Of(double slope, double curvature, double slopeVariance, double covariance, double curvatureVariance, double quantile)
    {
        if (curvature == 0.0 || !double.IsFinite(slope) || !double.IsFinite(curvature) || !(quantile > 0.0))
        {
            throw new ArgumentException(FormattableString.Invariant($"A parabola with slope {slope} and curvature {curvature} at quantile {quantile} has no turning point with an interval."), nameof(curvature));
        }

        if (!(slopeVariance >= 0.0) || !(curvatureVariance >= 0.0) || !(covariance * covariance <= slopeVariance * curvatureVariance * (1.0 + 1e-9)))
        {
            throw new ArgumentException(FormattableString.Invariant($"Variances {slopeVariance} and {curvatureVariance} with covariance {covariance} are not those of two estimates."), nameof(covariance));
        }

        double location = -slope / (2.0 * curvature);
        double variance = (slopeVariance + 4.0 * location * (covariance + location * curvatureVariance)) / (4.0 * curvature * curvature);
        return new QuadraticPeak(location, Math.Sqrt(Math.Max(0.0, variance)), curvature < 0.0, SetOf(slope, curvature, slopeVariance, covariance, curvatureVariance, quantile * quantile));
    }

    // The x at which the slope b + 2cx is not different from zero: a quadratic inequality in x.
    private static FiellerSet SetOf(double b, double c, double vb, double vbc, double vc, double square)
    {
        double quadratic = 4.0 * (c * c - square * vc);
        double linear = 4.0 * (b * c - square * vbc);
        double constant = b * b - square * vb;
        double discriminant = linear * linear - 4.0 * quadratic * constant;
        if (discriminant < 0.0 || quadratic == 0.0)
        {
            return new FiellerSet.Everything();
        }

        double first = (-linear - Math.Sqrt(discriminant)) / (2.0 * quadratic);
        double second = (-linear + Math.Sqrt(discriminant)) / (2.0 * quadratic);
        return quadratic > 0.0 ? new FiellerSet.Bounded(first, second) : new FiellerSet.Outside(second, first);
    }
}
