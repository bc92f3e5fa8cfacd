using MathNet.Numerics;

namespace TastingKit.Statistics;

/// <summary>The likelihood ratio test of an ordinal model against one that it is a special case of, by the chi-square distribution (Wilks 1938).</summary>
/// <param name="Statistic">Twice the difference of the log-likelihoods; not negative.</param>
/// <param name="DegreesOfFreedom">Parameters that the larger model has more; positive.</param>
/// <param name="P">P-value of the smaller model.</param>
public sealed record LikelihoodRatio(double Statistic, int DegreesOfFreedom, double P)
{
    /// <summary>
    /// The same by the F distribution, as among linear models: the chi-square takes the chance variation as known, and finds too much where few rows are
    /// left to know it from.
    /// </summary>
    /// <param name="residualDegreesOfFreedom">Rows less what the larger model takes up, its random effects included; positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">Not positive.</exception>
    public LikelihoodRatio Against(double residualDegreesOfFreedom)
    {
        ArgumentOutOfRangeException.ThrowIfNegativeOrZero(residualDegreesOfFreedom);
        return this with { P = Statistic > 0.0 ? SamplingDistributions.FUpperTail(Statistic / DegreesOfFreedom, DegreesOfFreedom, residualDegreesOfFreedom) : 1.0 };
    }

    /// <summary>Tests.</summary>
    /// <param name="restricted">The smaller model, nested in the other.</param>
    /// <param name="full">The larger model, of the same rows and with the same link and integration.</param>
    /// <exception cref="ArgumentException">The models have other numbers of rows, or the larger one has no more parameters.</exception>
    public static LikelihoodRatio Of(OrdinalMixedModelFit restricted, OrdinalMixedModelFit full)
    {
        ArgumentNullException.ThrowIfNull(restricted);
        ArgumentNullException.ThrowIfNull(full);
        if (restricted.ObservationCount != full.ObservationCount)
        {
            throw new ArgumentException($"The models have {restricted.ObservationCount} and {full.ObservationCount} rows; only models of the same rows can be compared.", nameof(full));
        }

        int freedom = full.ParameterCount - restricted.ParameterCount;
        if (freedom < 1)
        {
            throw new ArgumentException($"The larger model has {full.ParameterCount} parameters and the smaller {restricted.ParameterCount}; it needs more.", nameof(full));
        }

        double statistic = Math.Max(0.0, restricted.Deviance - full.Deviance);
        return new LikelihoodRatio(statistic, freedom, statistic > 0.0 ? SpecialFunctions.GammaUpperRegularized(0.5 * freedom, 0.5 * statistic) : 1.0);
    }
}
