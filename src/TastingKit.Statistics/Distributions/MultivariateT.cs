namespace TastingKit.Statistics;

/// <summary>
/// The multivariate t distribution, for simultaneous tests and intervals of several contrasts: m variables that are
/// jointly normal with a given correlation, over one common √(χ²_ν/ν). With infinite degrees of freedom it is the
/// multivariate normal distribution.
/// </summary>
/// <remarks>
/// Rectangles by sequential conditioning (Genz 1992; Genz and Bretz 2002); the largest value by integrating the radius
/// out (Deák 1980; Somerville 1998), which serves all bounds from one set of directions, exact to about 1e-8 for all
/// pairs of three means. Both use randomly shifted lattices that grow until the error is below the tolerance or the
/// points are used up. The matrix may be singular. The same seed gives the same points on any machine. An instance can
/// be used by several threads.
/// </remarks>
public sealed class MultivariateT
{
    private const int Shifts = 8;

    private readonly Lazy<double[,]> _correlation;
    private readonly MultivariateTOptions _options;
    private readonly Lazy<RootMeanSquareQuantile>? _scale;
    private readonly Lazy<RadialTail> _maximum;

    private MultivariateT(int dimension, Lazy<double[,]> correlation, IDirectionalMaximum statistics, double degreesOfFreedom, MultivariateTOptions? options)
    {
        if (!(degreesOfFreedom > 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(degreesOfFreedom), degreesOfFreedom, "Degrees of freedom are positive, or infinite where the variance is known.");
        }

        _correlation = correlation;
        _options = options ?? new MultivariateTOptions();
        _scale = double.IsPositiveInfinity(degreesOfFreedom) ? null : new Lazy<RootMeanSquareQuantile>(() => new RootMeanSquareQuantile(degreesOfFreedom));
        _maximum = new Lazy<RadialTail>(() => RadialTail.Create(statistics, degreesOfFreedom, _options));
        Dimension = dimension;
        Rank = statistics.Rank;
        DegreesOfFreedom = degreesOfFreedom;
    }

    /// <summary>Describes the distribution of several t-statistics with one common estimate of the variance.</summary>
    /// <param name="covariance">
    /// The covariance or correlation matrix of the estimates, m × m, symmetric and positive semidefinite, with a
    /// positive diagonal; only its correlations matter.
    /// </param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν, positive; infinity gives the normal distribution.</param>
    /// <param name="options">Seed and accuracy; the defaults reach 1e-8 at rank 2, about 1e-6 at rank 3 and 1e-4 at rank 10.</param>
    /// <returns>The distribution.</returns>
    /// <exception cref="ArgumentException">The matrix is empty, not square, not symmetric or not positive semidefinite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The degrees of freedom are not positive.</exception>
    public static MultivariateT ForEstimates(double[,] covariance, double degreesOfFreedom, MultivariateTOptions? options = null)
    {
        double[,] correlation = Correlations.FromCovariance(covariance);
        return new MultivariateT(
            correlation.GetLength(0),
            new Lazy<double[,]>(correlation),
            new FactoredStatistics(OrthantFactor.Create(correlation)),
            degreesOfFreedom,
            options);
    }

    /// <summary>
    /// Describes the distribution of the t-statistics of many contrasts of a few means, without forming their m × m
    /// covariance: all 2,415 pairs of 70 means take a second or two.
    /// </summary>
    /// <param name="contrasts">Weights, one row a contrast, one column a mean, m × k.</param>
    /// <param name="meanCovariance">The covariance matrix of the means, k × k, symmetric and positive semidefinite.</param>
    /// <param name="degreesOfFreedom">The degrees of freedom ν, positive; infinity gives the normal distribution.</param>
    /// <param name="options">Seed and accuracy.</param>
    /// <returns>The distribution; variable j is contrast j over its standard error.</returns>
    /// <exception cref="ArgumentException">The sizes don't match, a contrast has no variance, or the matrix is not positive semidefinite.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The degrees of freedom are not positive.</exception>
    public static MultivariateT ForContrasts(double[,] contrasts, double[,] meanCovariance, double degreesOfFreedom, MultivariateTOptions? options = null)
    {
        var statistics = ContrastStatistics.Create(contrasts, meanCovariance);
        return new MultivariateT(
            contrasts.GetLength(0),
            new Lazy<double[,]>(() => Correlations.FromCovariance(Correlations.OfContrasts(contrasts, meanCovariance))),
            statistics,
            degreesOfFreedom,
            options);
    }

    /// <summary>The number m of variables.</summary>
    public int Dimension { get; }

    /// <summary>The rank of the correlation matrix; k − 1 for all pairwise differences of k means.</summary>
    public int Rank { get; }

    /// <summary>The degrees of freedom ν.</summary>
    public double DegreesOfFreedom { get; }

    /// <summary>The probability that every variable lies between its bounds.</summary>
    /// <param name="lower">Lower bounds, one a variable; minus infinity for none.</param>
    /// <param name="upper">Upper bounds, one a variable; plus infinity for none.</param>
    /// <returns>The probability with its error.</returns>
    /// <exception cref="ArgumentException">There are not as many bounds as variables, or one is NaN.</exception>
    public IntegratedProbability Probability(ReadOnlySpan<double> lower, ReadOnlySpan<double> upper)
    {
        double[] low = CheckedBounds(lower, nameof(lower));
        double[] high = CheckedBounds(upper, nameof(upper));
        for (int j = 0; j < low.Length; j++)
        {
            if (!(low[j] < high[j]))
            {
                return new IntegratedProbability(0.0, 0.0, 0);
            }
        }

        return Integrate(OrthantFactor.Create(_correlation.Value, low, high), low, high);
    }

    /// <summary>
    /// The probability that the largest absolute value exceeds <paramref name="bound"/>: the single-step adjusted
    /// p-value of a two-sided test with that absolute t-statistic.
    /// </summary>
    /// <param name="bound">The bound, not negative.</param>
    /// <returns>
    /// The probability with its error, never outside what the inequalities of Šidák and Bonferroni leave, so that a
    /// very small p-value keeps its order of magnitude.
    /// </returns>
    /// <exception cref="ArgumentOutOfRangeException">The bound is negative or NaN.</exception>
    public IntegratedProbability MaximumAbsoluteTail(double bound)
    {
        if (!(bound >= 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(bound), bound, "The bound of an absolute value is not negative.");
        }

        double single = StudentsT.TwoSidedTail(bound, DegreesOfFreedom);
        if (Dimension == 1 || single is 0.0 or 1.0)
        {
            return new IntegratedProbability(single, 0.0, 0);
        }

        var tail = _maximum.Value.Absolute(bound);
        return tail with { Value = Math.Clamp(tail.Value, single, SidakBound(single)) };
    }

    /// <summary>The probability that the largest value exceeds <paramref name="bound"/>, for one-sided tests.</summary>
    /// <param name="bound">The bound, any number.</param>
    /// <returns>The probability with its error.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The bound is NaN.</exception>
    public IntegratedProbability MaximumTail(double bound)
    {
        if (double.IsNaN(bound))
        {
            throw new ArgumentOutOfRangeException(nameof(bound), bound, "The bound is not a number.");
        }

        double half = 0.5 * StudentsT.TwoSidedTail(bound, DegreesOfFreedom);
        double single = bound >= 0.0 ? half : 1.0 - half;
        if (Dimension == 1 || single is 0.0 or 1.0)
        {
            return new IntegratedProbability(single, 0.0, 0);
        }

        // Close to zero and below it the direction alone decides, by a jump that lattices take badly.
        var tail = bound >= 1.0
            ? _maximum.Value.Signed(bound)
            : Complement(Probability(Constant(double.NegativeInfinity), Constant(bound)));
        return tail with { Value = Math.Clamp(tail.Value, single, Math.Min(1.0, Dimension * single)) };
    }

    /// <summary>
    /// The bound that no variable exceeds in absolute value with a given probability: the critical value of
    /// simultaneous two-sided intervals.
    /// </summary>
    /// <param name="probability">A probability in (0, 1), as 0.95.</param>
    /// <returns>The critical value; its error is that of the integration over the density, about 1e-5.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside (0, 1).</exception>
    public double MaximumAbsoluteQuantile(double probability)
    {
        CheckProbability(probability);
        double single = StudentsT.TwoSidedQuantile(1.0 - probability, DegreesOfFreedom);
        if (Dimension == 1)
        {
            return single;
        }

        double tailOfOne = 1.0 - PortableMath.Exp(PortableMath.Log(probability) / Dimension);
        double highest = StudentsT.TwoSidedQuantile(tailOfOne, DegreesOfFreedom);
        return Quantile(c => MaximumAbsoluteTail(c).Value, 1.0 - probability, single, highest);
    }

    /// <summary>The bound that no variable exceeds with a given probability: the critical value of one-sided tests.</summary>
    /// <param name="probability">A probability in (0, 1), as 0.95.</param>
    /// <returns>The critical value.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside (0, 1).</exception>
    public double MaximumQuantile(double probability)
    {
        CheckProbability(probability);
        double single = OneSidedQuantile(1.0 - probability);
        return Dimension == 1
            ? single
            : Quantile(c => MaximumTail(c).Value, 1.0 - probability, single, OneSidedQuantile((1.0 - probability) / Dimension));
    }

    private static IntegratedProbability Complement(IntegratedProbability p) => p with { Value = 1.0 - p.Value };

    private double OneSidedQuantile(double tail) => tail <= 0.5
        ? StudentsT.TwoSidedQuantile(2.0 * tail, DegreesOfFreedom)
        : -StudentsT.TwoSidedQuantile(2.0 * (1.0 - tail), DegreesOfFreedom);

    private static double Quantile(Func<double, double> tail, double wanted, double lowest, double highest)
    {
        // The ends are where the inequalities put them, so the tail at them may miss the wanted one by rounding only.
        double margin = 1e-9 * (1.0 + Math.Abs(lowest) + Math.Abs(highest));
        return BrentRoot.Find(c => tail(c) - wanted, lowest - margin, highest + margin, 1e-10);
    }

    private IntegratedProbability Integrate(OrthantFactor factor, double[] lower, double[] upper)
    {
        int dimension = factor.Rank - 1 + (_scale is null ? 0 : 1);
        var integrand = new OrthantIntegrand(factor, lower, upper, _scale?.Value);
        if (dimension == 0)
        {
            return new IntegratedProbability(integrand.Value([]), 0.0, 1);
        }

        double weightedSum = 0.0;
        double weight = 0.0;
        int points = 0;
        for (int level = 0; level < LatticeRule.LevelCount; level++)
        {
            int next = LatticeRule.Size(level) * Shifts;
            if (points > 0 && points + next > _options.MaximumPoints)
            {
                break;
            }

            var stream = new RandomStream(_options.Seed).Split((ulong)level);
            double mean = 0.0;
            double squares = 0.0;
            for (int shift = 0; shift < Shifts; shift++)
            {
                double value = LatticeRule.Mean(level, dimension, stream, integrand.Value);
                double difference = value - mean;
                mean += difference / (shift + 1);
                squares += difference * (value - mean);
            }

            points += next;

            // Levels combine by their precision; the floor keeps a lucky agreement of shifts from deciding alone.
            double variance = Math.Max(squares / (Shifts * (Shifts - 1.0)), 1e-30);
            weightedSum += mean / variance;
            weight += 1.0 / variance;
            if (3.0 / Math.Sqrt(weight) < _options.Tolerance)
            {
                break;
            }
        }

        return new IntegratedProbability(Math.Clamp(weightedSum / weight, 0.0, 1.0), 3.0 / Math.Sqrt(weight), points);
    }

    private double[] Constant(double value)
    {
        var bounds = new double[Dimension];
        Array.Fill(bounds, value);
        return bounds;
    }

    private double SidakBound(double single)
    {
        double outside = 0.0;
        for (int j = 0; j < Dimension; j++)
        {
            outside += single * (1.0 - outside);
        }

        return outside;
    }

    private double[] CheckedBounds(ReadOnlySpan<double> bounds, string name)
    {
        if (bounds.Length != Dimension)
        {
            throw new ArgumentException($"{bounds.Length} bounds were given for {Dimension} variables.", name);
        }

        foreach (double bound in bounds)
        {
            if (double.IsNaN(bound))
            {
                throw new ArgumentException("A bound is not a number; infinity means none.", name);
            }
        }

        return bounds.ToArray();
    }

    private static void CheckProbability(double probability)
    {
        if (!(probability > 0.0 && probability < 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "The probability of a critical value lies in (0, 1).");
        }
    }
}
