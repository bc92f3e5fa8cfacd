namespace TastingKit.Statistics;

/// <summary>
/// The standard deviation of repeats that were rounded to the steps of a scale: what it was before rounding, with an interval.
/// </summary>
/// <remarks>
/// Each value stands for the step's width about it, each set's own mean is integrated out with a flat prior, and the standard deviation s has
/// the prior s / (s² + step²/12), which is 1/s where the step is small against it: without steps the interval is the chi-square one of ISO 5725-2.
/// </remarks>
public sealed class RoundedSpread
{
    // Even spacing of log s; the grid runs so far that what lies beyond has no weight even where one repeat is all there is.
    private const double Spacing = 0.04;
    private const double LowestOfStep = 0.04;
    private const double HighestOfSpread = 1e5;

    private readonly double _logLowest;
    private readonly double[] _cumulative;
    private readonly bool _isZeroPossible;

    private RoundedSpread(int sets, int freedom, double step, double estimate, double logLowest, double[] cumulative, bool isZeroPossible)
    {
        Sets = sets;
        DegreesOfFreedom = freedom;
        Step = step;
        Estimate = estimate;
        _logLowest = logLowest;
        _cumulative = cumulative;
        _isZeroPossible = isZeroPossible;
    }

    /// <summary>Number of sets of repeats.</summary>
    public int Sets { get; }

    /// <summary>Values less sets: what the standard deviation rests on.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>The step that the values were rounded to; 0 where they were not.</summary>
    public double Step { get; }

    /// <summary>The standard deviation before rounding, by maximum likelihood with the sets' means integrated out; 0 where no repeat differs by a step.</summary>
    public double Estimate { get; }

    /// <summary>Estimates the standard deviation.</summary>
    /// <param name="sets">Repeats by set: at least one set, each of two or more finite values.</param>
    /// <param name="step">The step that the values were rounded to, not negative; 0 for values that were not rounded.</param>
    /// <exception cref="ArgumentException">There is no set, a set holds one value or one that is not finite, or values that were not rounded do not differ at all.</exception>
    public static RoundedSpread Of(IReadOnlyList<IReadOnlyList<double>> sets, double step)
    {
        ArgumentNullException.ThrowIfNull(sets);
        if (!double.IsFinite(step) || step < 0) throw new ArgumentException(FormattableString.Invariant($"A step is a finite number and not negative; found {step}."), nameof(step));
        if (sets.Count == 0 || sets.Any(set => set.Count < 2 || set.Any(value => !double.IsFinite(value))))
            throw new ArgumentException("A spread needs sets of two or more finite values each.", nameof(sets));
        int freedom = sets.Sum(set => set.Count - 1);
        double squares = sets.Sum(set => set.Sum(value => (value - set.Average()) * (value - set.Average())));
        if (step == 0 && squares == 0) throw new ArgumentException("Values that were not rounded do not differ at all; their step must be given.", nameof(sets));
        double spread = Math.Sqrt(squares / freedom);
        double logLowest = PortableMath.Log(step > 0 ? LowestOfStep * step : spread / 100);
        int count = (int)((PortableMath.Log(HighestOfSpread * (spread + step)) - logLowest) / Spacing) + 1;
        var patterns = step > 0 ? Patterns(sets, step) : [];
        var log = new double[count];
        for (int i = 0; i < count; i++)
        {
            double s = PortableMath.Exp(logLowest + i * Spacing);
            log[i] = step > 0 ? patterns.Sum(pattern => pattern.Times * LogLikelihood(pattern.Places, s / step)) : -freedom * PortableMath.Log(s) - squares / (2 * s * s);
        }

        bool isZeroPossible = squares == 0;
        return new RoundedSpread(sets.Count, freedom, step, isZeroPossible ? 0 : step == 0 ? spread : PortableMath.Exp(logLowest + Spacing * Top(log)), logLowest, Cumulative(log, logLowest, step), isZeroPossible);
    }

    /// <summary>The interval of the standard deviation, with equal tails; it begins at 0 where no repeat differs by a step.</summary>
    /// <param name="level">Coverage, between 0 and 1.</param>
    public Interval Interval(double level = 0.95)
    {
        Proportion.CheckLevel(level);
        double tail = 0.5 * (1 - level);
        return new Interval(_isZeroPossible ? 0 : PortableMath.Exp(_logLowest + Spacing * Place(_cumulative, tail)), PortableMath.Exp(_logLowest + Spacing * Place(_cumulative, 1 - tail)), level);
    }

    /// <summary>The interval of this standard deviation over another's; without steps that of the F distribution.</summary>
    /// <param name="other">The spread of other sets.</param>
    /// <param name="level">Coverage, between 0 and 1.</param>
    public Interval RatioTo(RoundedSpread other, double level = 0.95)
    {
        ArgumentNullException.ThrowIfNull(other);
        Proportion.CheckLevel(level);
        // On the common spacing a difference of logarithms is a difference of places.
        int shift = other._cumulative.Length - 1;
        var sum = new double[_cumulative.Length + shift];
        for (int i = 0; i < _cumulative.Length; i++)
        {
            double own = _cumulative[i] - (i == 0 ? 0 : _cumulative[i - 1]);
            if (own < 1e-14) continue;
            for (int j = 0; j < other._cumulative.Length; j++) sum[i - j + shift] += own * (other._cumulative[j] - (j == 0 ? 0 : other._cumulative[j - 1]));
        }

        for (int k = 1; k < sum.Length; k++) sum[k] += sum[k - 1];
        double first = _logLowest - other._logLowest - shift * Spacing, tail = 0.5 * (1 - level);
        return new Interval(
            _isZeroPossible ? 0 : PortableMath.Exp(first + Spacing * Place(sum, tail)), PortableMath.Exp(first + Spacing * Place(sum, 1 - tail)), level);
    }

    /// <summary>The smallest difference on the scale's steps that two repeats reach with less than a probability.</summary>
    /// <param name="deviation">Standard deviation of one value before rounding, not negative.</param>
    /// <param name="step">The step, positive.</param>
    /// <param name="probability">The probability, between 0 and 1.</param>
    public static double RareDifference(double deviation, double step, double probability)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(deviation);
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(step);
        Proportion.CheckLevel(probability);
        double s = Math.Sqrt(2) * deviation / step;
        int steps = 1;
        while (2 * (1 - Mean(steps, s) + Mean(steps - 1, s)) >= probability) steps++;
        return steps * step;

        // Mean of how far a normal difference falls short of x.
        static double Mean(double x, double s) => s == 0 ? Math.Max(x, 0) : x * StandardNormal.CumulativeProbability(x / s) + s * StandardNormal.Density(x / s);
    }

    /// <summary>Like sets are weighed once; a set is known by its values' places above its lowest, in steps.</summary>
    private static List<(double[] Places, int Times)> Patterns(IReadOnlyList<IReadOnlyList<double>> sets, double step) =>
        [.. sets.Select(set => set.Select(value => Math.Round((value - set.Min()) / step, 6)).Order().ToArray())
            .GroupBy(places => string.Join(' ', places.Select(place => place.ToString(System.Globalization.CultureInfo.InvariantCulture))))
            .Select(like => (like.First(), like.Count()))];

    /// <summary>Logarithm of the probability of a set's places, integrated over where its mean lies, in units of the step.</summary>
    private static double LogLikelihood(double[] places, double s)
    {
        double reach = 7 * s, step = s / (3 * Math.Sqrt(places.Length)), sum = 0;
        int points = (int)Math.Ceiling((places[^1] + 1 + 2 * reach) / step);
        for (int i = 0; i <= points; i++)
        {
            double mean = -0.5 - reach + i * step, product = 1;
            foreach (double place in places)
            {
                double centre = place - mean;
                product *= StandardNormal.CumulativeProbability((0.5 - Math.Abs(centre)) / s) - StandardNormal.CumulativeProbability((-0.5 - Math.Abs(centre)) / s);
            }

            sum += product;
        }

        return PortableMath.Log(Math.Max(sum * step, double.Epsilon));
    }

    private static double Top(double[] log)
    {
        int top = Array.IndexOf(log, log.Max());
        if (top == 0 || top == log.Length - 1) return top;
        double before = log[top] - log[top - 1], after = log[top] - log[top + 1];
        return top + (before + after > 0 ? 0.5 * (before - after) / (before + after) : 0);
    }

    private static double[] Cumulative(double[] log, double logLowest, double step)
    {
        double top = log.Max();
        var sums = new double[log.Length];
        for (int i = 0; i < log.Length; i++)
        {
            double s = PortableMath.Exp(logLowest + i * Spacing);
            double weight = PortableMath.Exp(log[i] - top) * s * s / (s * s + step * step / 12);
            sums[i] = weight + (i == 0 ? 0 : sums[i - 1]);
        }

        double total = sums[^1];
        for (int i = 0; i < sums.Length; i++) sums[i] /= total;
        return sums;
    }

    /// <summary>The place between two of the grid at which a cumulative weight is reached; a weight counts half before its place and half after.</summary>
    private static double Place(double[] cumulative, double share)
    {
        int i = Array.FindIndex(cumulative, weight => weight >= share);
        double before = i == 0 ? 0 : cumulative[i - 1];
        return i - 0.5 + (share - before) / (cumulative[i] - before);
    }
}
