namespace TastingKit.Statistics;

/// <summary>
/// The distribution of the studentised range: the range of k independent normal means of equal variance, divided by
/// an independent estimate of their standard error with ν degrees of freedom. Tukey's procedure for all pairs of
/// means refers √2·|t| to it.
/// </summary>
/// <remarks>
/// P(Q &gt; q) = E_s ∫ k φ(z) { Φ(z)^(k−1) − [Φ(z) − Φ(z − qs)]^(k−1) } dz with s = √(χ²_ν/ν), both integrals by the
/// trapezoidal rule on analytic, rapidly decaying integrands, and the difference of powers formed without
/// cancellation: the upper tail keeps about nine significant digits down to 1e-15.
/// </remarks>
public static class StudentizedRange
{
    private const double LowestZ = -8.5;
    private const double HalfWidth = 9.0;

    /// <summary>The probability of a range above <paramref name="q"/>: the adjusted p-value of a pair.</summary>
    /// <param name="q">The studentised range, not negative; √2 times the absolute t-statistic of a pair.</param>
    /// <param name="means">The number k of means, at least 2.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν, positive; infinity for a known variance.</param>
    /// <returns>A probability in [0, 1].</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double UpperTail(double q, int means, double degreesOfFreedom)
    {
        CheckArguments(means, degreesOfFreedom);
        if (!(q >= 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(q), q, "A studentised range is not negative.");
        }

        return double.IsPositiveInfinity(q) ? 0.0 : UpperTail(q, means, RootMeanSquareRule.For(degreesOfFreedom));
    }

    /// <summary>The probability of a range up to <paramref name="q"/>.</summary>
    /// <param name="q">The studentised range, not negative.</param>
    /// <param name="means">The number k of means, at least 2.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν, positive; infinity for a known variance.</param>
    /// <returns>One minus <see cref="UpperTail(double, int, double)"/>.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double CumulativeProbability(double q, int means, double degreesOfFreedom) =>
        1.0 - UpperTail(q, means, degreesOfFreedom);

    /// <summary>The range that is not exceeded with a given probability.</summary>
    /// <param name="probability">A probability in [0, 1); 0.95 gives the half-width factor of 95 % intervals, times √2.</param>
    /// <param name="means">The number k of means, at least 2.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν, positive; infinity for a known variance.</param>
    /// <returns>The quantile, to about 1e-10 relative.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double Quantile(double probability, int means, double degreesOfFreedom)
    {
        CheckArguments(means, degreesOfFreedom);
        if (!(probability >= 0.0 && probability < 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "The probability of a quantile of the studentised range lies in [0, 1).");
        }

        if (probability == 0.0)
        {
            return 0.0;
        }

        var rule = RootMeanSquareRule.For(degreesOfFreedom);
        double tail = 1.0 - probability;
        double logTail = PortableMath.Log(tail);
        double high = 4.0;
        while (UpperTail(high, means, rule) > tail)
        {
            high *= 2.0;
        }

        return BrentRoot.Find(q => PortableMath.Log(UpperTail(q, means, rule)) - logTail, 0.0, high, 1e-12 * high);
    }

    private static double UpperTail(double q, int means, RootMeanSquareRule rule)
    {
        double sum = 0.0;
        for (int i = 0; i < rule.Nodes.Length; i++)
        {
            sum += rule.Weights[i] * RangeUpperTail(q * rule.Nodes[i], means);
        }

        return Math.Min(1.0, sum);
    }

    /// <summary>P(range of k standard normals &gt; w).</summary>
    private static double RangeUpperTail(double w, int means)
    {
        // Φ^(k−1) steepens with k, and the rule's error with it. The integrand peaks near w/2, no wider than φ.
        double step = means <= 10 ? 0.25 : 0.25 / Math.Sqrt(Math.Log10(means));
        double low = Math.Max(LowestZ, 0.5 * w - HalfWidth);
        double high = 0.5 * w + HalfWidth;
        double sum = 0.0;
        for (double z = low; z <= high; z += step)
        {
            double cumulative = StandardNormal.CumulativeProbability(z);
            double ratio = StandardNormal.CumulativeProbability(z - w) / cumulative;
            sum += StandardNormal.Density(z) * Power(cumulative, means - 1) * OneMinusPowerOfComplement(Math.Min(1.0, ratio), means - 1);
        }

        return Math.Min(1.0, means * step * sum);
    }

    private static double Power(double x, int exponent)
    {
        double result = 1.0;
        for (; exponent > 0; exponent >>= 1, x *= x)
        {
            if ((exponent & 1) != 0)
            {
                result *= x;
            }
        }

        return result;
    }

    /// <summary>1 − (1 − r)^n from products and sums of positive terms only, by binary powering.</summary>
    private static double OneMinusPowerOfComplement(double r, int n)
    {
        double result = 0.0;
        for (double a = r; n > 0; n >>= 1, a *= 2.0 - a)
        {
            if ((n & 1) != 0)
            {
                result += a * (1.0 - result);
            }
        }

        return result;
    }

    private static void CheckArguments(int means, double degreesOfFreedom)
    {
        if (means < 2)
        {
            throw new ArgumentOutOfRangeException(nameof(means), means, "A range needs at least two means.");
        }

        if (!(degreesOfFreedom > 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom are positive, or infinite where the variance is known.");
        }
    }
}
