using MathNet.Numerics;

namespace TastingKit.Statistics;

/// <summary>An interval with the coverage it aims at.</summary>
/// <param name="Low">The lower end.</param>
/// <param name="High">The upper end.</param>
/// <param name="Level">The coverage, as 0.95.</param>
public sealed record Interval(double Low, double High, double Level);

/// <summary>Exact tests and intervals of one proportion.</summary>
public static class Proportion
{
    // Outcomes this close to equally likely count as such: their probabilities are rounded.
    private const double Tie = 1e-7;

    /// <summary>The exact one-sided p-value: the probability of at least as many successes.</summary>
    /// <param name="successes">Number of successes, from 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="probability">The probability of a success under the hypothesis, in [0, 1].</param>
    /// <returns>P(X ≥ successes).</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double UpperTail(int successes, int trials, double probability)
    {
        Check(successes, trials);
        CheckProbability(probability, nameof(probability));
        return successes == 0 ? 1.0 : probability is 0.0 or 1.0 ? probability : SpecialFunctions.BetaRegularized(successes, trials - successes + 1.0, probability);
    }

    /// <summary>The exact two-sided p-value: the probability of all outcomes no more likely than the one seen.</summary>
    /// <param name="successes">Number of successes, from 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="probability">The probability of a success under the hypothesis, in [0, 1].</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double TwoSided(int successes, int trials, double probability)
    {
        Check(successes, trials);
        CheckProbability(probability, nameof(probability));
        if (probability is 0.0 or 1.0)
        {
            return successes == (probability == 0.0 ? 0 : trials) ? 1.0 : 0.0;
        }

        double seen = SamplingDistributions.LogBinomial(successes, trials, probability);
        double sum = 0.0;
        for (int x = 0; x <= trials; x++)
        {
            double log = SamplingDistributions.LogBinomial(x, trials, probability);
            sum += log <= seen + Tie ? PortableMath.Exp(log) : 0.0;
        }

        return Math.Min(1.0, sum);
    }

    /// <summary>Wilson's score interval (1927): close to its coverage at every size, never outside [0, 1].</summary>
    /// <param name="successes">Number of successes, from 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="level">The coverage, between 0 and 1.</param>
    /// <param name="continuityCorrection">Whether to widen by half a success (Newcombe 1998), which makes it conservative.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static Interval Wilson(int successes, int trials, double level = 0.95, bool continuityCorrection = false)
    {
        Check(successes, trials);
        CheckLevel(level);
        double z = StandardNormal.Quantile(0.5 + 0.5 * level);
        double correction = continuityCorrection ? 0.5 / trials : 0.0;
        double share = (double)successes / trials;
        double low = successes == 0 ? 0.0 : End(share - correction, -z);
        double high = successes == trials ? 1.0 : End(share + correction, z);
        return new Interval(Math.Max(0.0, low), Math.Min(1.0, high), level);

        double End(double p, double signed)
        {
            double half = z * z / (2.0 * trials);
            return (p + half + signed * Math.Sqrt(p * (1.0 - p) / trials + half / (2.0 * trials))) / (1.0 + 2.0 * half);
        }
    }

    /// <summary>The exact interval of Clopper and Pearson (1934): covers at least as often as it says, often more.</summary>
    /// <param name="successes">Number of successes, from 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="level">The coverage, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static Interval ClopperPearson(int successes, int trials, double level = 0.95)
    {
        Check(successes, trials);
        CheckLevel(level);
        double tail = 0.5 * (1.0 - level);
        double low = successes == 0 ? 0.0 : SamplingDistributions.BetaQuantile(tail, successes, trials - successes + 1.0);
        double high = successes == trials ? 1.0 : SamplingDistributions.BetaQuantile(1.0 - tail, successes + 1.0, trials - successes);
        return new Interval(low, high, level);
    }

    internal static void Check(int successes, int trials)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(trials, 1);
        if (successes < 0 || successes > trials)
        {
            throw new ArgumentOutOfRangeException(nameof(successes), successes, $"Of {trials} trials, 0 to {trials} can be successes.");
        }
    }

    internal static void CheckLevel(double level)
    {
        if (!(level > 0.0 && level < 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(level), level, "A coverage lies between 0 and 1.");
        }
    }

    internal static void CheckProbability(double probability, string name)
    {
        if (!(probability >= 0.0 && probability <= 1.0))
        {
            throw new ArgumentOutOfRangeException(name, probability, "A probability lies in [0, 1].");
        }
    }
}
