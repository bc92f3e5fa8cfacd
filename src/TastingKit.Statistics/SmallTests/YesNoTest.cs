namespace TastingKit.Statistics;

/// <summary>
/// A yes–no (A, not-A) test: one sample a trial, with or without a quality, and the answer whether it has it.
/// </summary>
/// <remarks>Signal detection for two normal distributions of equal spread (Macmillan and Creelman 2005); the interval is by the delta method.</remarks>
/// <param name="Hits">Answers "yes" to samples that have the quality.</param>
/// <param name="SignalTrials">Samples that have it.</param>
/// <param name="FalseAlarms">Answers "yes" to samples that lack it.</param>
/// <param name="NoiseTrials">Samples that lack it.</param>
/// <param name="DPrime">z(hit rate) − z(false-alarm rate): infinite where one rate is 0 or 1, null where both are the same of these.</param>
/// <param name="StandardError">Its standard error, or null where a rate is 0 or 1.</param>
/// <param name="Interval">Its interval, or null where a rate is 0 or 1.</param>
/// <param name="Criterion">Where the taster draws the line: positive if "no" is said too readily; null where d′ is.</param>
/// <param name="LogLinearDPrime">d′ with half an answer added to each kind and one trial to each sample (Hautus 1995): always finite.</param>
/// <param name="P">Fisher's exact one-sided p-value: at least as many hits if "yes" had nothing to do with the sample.</param>
public sealed record YesNoTest(int Hits, int SignalTrials, int FalseAlarms, int NoiseTrials, double? DPrime, double? StandardError, Interval? Interval,
    double? Criterion, double LogLinearDPrime, double P)
{
    /// <summary>Evaluates a test.</summary>
    /// <param name="hits">Answers "yes" to samples that have the quality.</param>
    /// <param name="signalTrials">Samples that have it, at least one.</param>
    /// <param name="falseAlarms">Answers "yes" to samples that lack it.</param>
    /// <param name="noiseTrials">Samples that lack it, at least one.</param>
    /// <param name="level">Coverage of the interval.</param>
    /// <exception cref="ArgumentOutOfRangeException">A count lies outside its range.</exception>
    public static YesNoTest Of(int hits, int signalTrials, int falseAlarms, int noiseTrials, double level = 0.95)
    {
        Proportion.Check(hits, signalTrials);
        Proportion.Check(falseAlarms, noiseTrials);
        Proportion.CheckLevel(level);
        double h = StandardNormal.Quantile((double)hits / signalTrials);
        double f = StandardNormal.Quantile((double)falseAlarms / noiseTrials);
        bool isDefined = !(double.IsInfinity(h) && h == f);
        double? error = double.IsFinite(h) && double.IsFinite(f) ? Math.Sqrt(Variance(hits, signalTrials, h) + Variance(falseAlarms, noiseTrials, f)) : null;
        double half = StandardNormal.Quantile(0.5 + 0.5 * level) * (error ?? 0.0);
        return new YesNoTest(
            hits,
            signalTrials,
            falseAlarms,
            noiseTrials,
            isDefined ? h - f : null,
            error,
            error is null ? null : new Interval(h - f - half, h - f + half, level),
            isDefined && !double.IsNaN(h + f) ? -0.5 * (h + f) : null,
            StandardNormal.Quantile((hits + 0.5) / (signalTrials + 1.0)) - StandardNormal.Quantile((falseAlarms + 0.5) / (noiseTrials + 1.0)),
            Fisher(hits, signalTrials, falseAlarms, noiseTrials));
    }

    private static double Variance(int yes, int trials, double z)
    {
        double rate = (double)yes / trials;
        double density = StandardNormal.Density(z);
        return rate * (1.0 - rate) / (trials * density * density);
    }

    private static double Fisher(int hits, int signalTrials, int falseAlarms, int noiseTrials)
    {
        int yes = hits + falseAlarms;
        double Log(int n, int k) => MathNet.Numerics.SpecialFunctions.BinomialLn(n, k);
        double sum = 0.0;
        for (int x = hits; x <= Math.Min(yes, signalTrials); x++)
        {
            sum += PortableMath.Exp(Log(signalTrials, x) + Log(noiseTrials, yes - x) - Log(signalTrials + noiseTrials, yes));
        }

        return Math.Min(1.0, sum);
    }
}
