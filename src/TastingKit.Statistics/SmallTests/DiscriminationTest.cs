namespace TastingKit.Statistics;

/// <summary>The result of a discrimination test: can two products be told apart, and how far do they lie apart?</summary>
/// <remarks>
/// d′ is zero where the proportion correct is at chance or below, and infinite where all answers are correct. The exact
/// interval inverts the psychometric function at the ends of Clopper and Pearson's, raised to chance; the likelihood
/// interval holds the d′ whose log-likelihood lies within half a χ²₁ quantile of the highest.
/// </remarks>
/// <param name="Protocol">The protocol.</param>
/// <param name="Trials">Number of trials.</param>
/// <param name="Correct">Number of correct answers.</param>
/// <param name="ProportionCorrect">Correct answers over trials.</param>
/// <param name="Chance">The probability of a correct answer by guessing.</param>
/// <param name="P">Exact one-sided p-value: the probability of at least as many correct answers by guessing.</param>
/// <param name="TwoSidedP">Exact two-sided p-value, for a chance of one half only (a paired test may be answered the wrong way round on purpose).</param>
/// <param name="ProportionDiscriminators">The share of answers above chance, (p − chance)/(1 − chance), not below zero.</param>
/// <param name="DPrime">The estimate of d′.</param>
/// <param name="StandardError">Its standard error by the delta method, or null at chance and below and where all answers are correct.</param>
/// <param name="Exact">The exact interval of d′.</param>
/// <param name="Likelihood">The likelihood interval of d′.</param>
public sealed record DiscriminationTest(
    DiscriminationProtocol Protocol,
    int Trials,
    int Correct,
    double ProportionCorrect,
    double Chance,
    double P,
    double? TwoSidedP,
    double ProportionDiscriminators,
    double DPrime,
    double? StandardError,
    Interval Exact,
    Interval Likelihood)
{
    /// <summary>Evaluates a test.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="correct">Number of correct answers, from 0 to <paramref name="trials"/>.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <returns>The result.</returns>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static DiscriminationTest Of(DiscriminationProtocol protocol, int correct, int trials, double level = 0.95)
    {
        Proportion.Check(correct, trials);
        Proportion.CheckLevel(level);
        double chance = PsychometricFunction.Chance(protocol);
        double share = (double)correct / trials;
        double dPrime = PsychometricFunction.DPrime(protocol, share);
        double? error = share > chance && correct < trials
            ? Math.Sqrt(share * (1.0 - share) / trials) / PsychometricFunction.Slope(protocol, dPrime)
            : null;
        var exact = Proportion.ClopperPearson(correct, trials, level);
        var likelihood = LikelihoodInterval(correct, trials, chance, level);
        return new DiscriminationTest(
            protocol,
            trials,
            correct,
            share,
            chance,
            Proportion.UpperTail(correct, trials, chance),
            chance == 0.5 ? Proportion.TwoSided(correct, trials, chance) : null,
            Math.Max(0.0, (share - chance) / (1.0 - chance)),
            dPrime,
            error,
            ToDistance(protocol, exact),
            ToDistance(protocol, likelihood));
    }

    /// <summary>The exact p-value of similarity: the probability of so few correct answers if a stated share could tell the products apart.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="correct">Number of correct answers.</param>
    /// <param name="trials">Number of trials.</param>
    /// <param name="discriminators">The share of discriminators that would matter, in [0, 1].</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double SimilarityP(DiscriminationProtocol protocol, int correct, int trials, double discriminators)
    {
        Proportion.Check(correct, trials);
        Proportion.CheckProbability(discriminators, nameof(discriminators));
        double chance = PsychometricFunction.Chance(protocol);
        double probability = chance + (1.0 - chance) * discriminators;
        return correct == trials ? 1.0 : 1.0 - Proportion.UpperTail(correct + 1, trials, probability);
    }

    /// <summary>The fewest correct answers with an exact one-sided p-value at the level or below; more than the trials if none has.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="significance">The level, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static int CriticalCount(DiscriminationProtocol protocol, int trials, double significance = 0.05)
    {
        ArgumentOutOfRangeException.ThrowIfLessThan(trials, 1);
        Proportion.CheckLevel(significance);
        double chance = PsychometricFunction.Chance(protocol);
        for (int correct = 0; correct <= trials; correct++)
        {
            if (Proportion.UpperTail(correct, trials, chance) <= significance)
            {
                return correct;
            }
        }

        return trials + 1;
    }

    /// <summary>The probability that a test of so many trials finds products d′ apart to differ.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="trials">Number of trials, at least one.</param>
    /// <param name="dPrime">The distance, not negative.</param>
    /// <param name="significance">The level, between 0 and 1.</param>
    /// <exception cref="ArgumentOutOfRangeException">An argument lies outside its range.</exception>
    public static double Power(DiscriminationProtocol protocol, int trials, double dPrime, double significance = 0.05)
    {
        int critical = CriticalCount(protocol, trials, significance);
        return critical > trials ? 0.0 : Proportion.UpperTail(critical, trials, PsychometricFunction.ProportionCorrect(protocol, dPrime));
    }

    private static Interval ToDistance(DiscriminationProtocol protocol, Interval proportion) => new(
        PsychometricFunction.DPrime(protocol, proportion.Low),
        PsychometricFunction.DPrime(protocol, proportion.High),
        proportion.Level);

    private static Interval LikelihoodInterval(int correct, int trials, double chance, double level)
    {
        double best = Math.Max((double)correct / trials, chance);
        double cut = SamplingDistributions.LogBinomial(correct, trials, best) - 0.5 * SamplingDistributions.ChiSquareQuantile(level, 1.0);
        double Excess(double p) => SamplingDistributions.LogBinomial(correct, trials, p) - cut;
        double low = best == chance || Excess(chance) >= 0.0 ? chance : BrentRoot.Find(Excess, chance, best);
        double high = correct == trials ? 1.0 : BrentRoot.Find(Excess, best, 1.0 - 1e-15);
        return new Interval(low, high, level);
    }
}
