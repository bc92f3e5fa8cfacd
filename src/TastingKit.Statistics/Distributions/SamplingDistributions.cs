using MathNet.Numerics;

namespace TastingKit.Statistics;

/// <summary>Tails and quantiles of the beta, F and chi-square distributions; quantiles invert the tails to rounding.</summary>
internal static class SamplingDistributions
{
    /// <summary>The quantile of the beta distribution.</summary>
    public static double BetaQuantile(double probability, double a, double b) =>
        BrentRoot.Find(x => SpecialFunctions.BetaRegularized(a, b, x) - probability, 0.0, 1.0, 1e-16);

    /// <summary>P(F &gt; f).</summary>
    public static double FUpperTail(double f, double numerator, double denominator) =>
        SpecialFunctions.BetaRegularized(0.5 * denominator, 0.5 * numerator, denominator / (denominator + numerator * f));

    /// <summary>The value that F does not exceed with a probability.</summary>
    public static double FQuantile(double probability, double numerator, double denominator)
    {
        // F is a ratio of a beta variable to its complement; the complement is inverted, since it is the small one in the upper tail.
        double complement = BetaQuantile(1.0 - probability, 0.5 * denominator, 0.5 * numerator);
        return denominator * (1.0 - complement) / (numerator * complement);
    }

    /// <summary>The value that χ² does not exceed with a probability.</summary>
    public static double ChiSquareQuantile(double probability, double degreesOfFreedom)
    {
        double high = degreesOfFreedom + 10.0;
        while (SpecialFunctions.GammaLowerRegularized(0.5 * degreesOfFreedom, 0.5 * high) < probability)
        {
            high *= 2.0;
        }

        return BrentRoot.Find(x => SpecialFunctions.GammaLowerRegularized(0.5 * degreesOfFreedom, 0.5 * x) - probability, 0.0, high);
    }

    /// <summary>log P(X = x) of the binomial distribution, minus infinity where it can't be.</summary>
    public static double LogBinomial(int successes, int trials, double probability)
    {
        double log = SpecialFunctions.GammaLn(trials + 1.0) - SpecialFunctions.GammaLn(successes + 1.0) - SpecialFunctions.GammaLn(trials - successes + 1.0);
        log += successes == 0 ? 0.0 : successes * PortableMath.Log(probability);
        return log + (successes == trials ? 0.0 : (trials - successes) * PortableMath.Log(1.0 - probability));
    }
}
