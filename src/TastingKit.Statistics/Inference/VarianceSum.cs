namespace TastingKit.Statistics;

/// <summary>A sum of a model's variances, with an interval from the scaled chi-square distribution that has its mean and variance (Satterthwaite 1946).</summary>
/// <param name="Variance">The sum, in the square of the response's unit.</param>
/// <param name="DegreesOfFreedom">Satterthwaite's degrees of freedom; those of the residual where it stands alone in a model without random effects.</param>
public sealed record VarianceSum(double Variance, double DegreesOfFreedom)
{
    /// <summary>The root of the sum.</summary>
    public double StandardDeviation => Math.Sqrt(Variance);

    /// <summary>The interval of the standard deviation.</summary>
    /// <param name="level">Coverage that it aims at, between 0 and 1.</param>
    public Interval Interval(double level = 0.95)
    {
        Proportion.CheckLevel(level);
        double tail = 0.5 * (1 - level), sum = DegreesOfFreedom * Variance;
        return new Interval(
            Math.Sqrt(sum / SamplingDistributions.ChiSquareQuantile(1 - tail, DegreesOfFreedom)), Math.Sqrt(sum / SamplingDistributions.ChiSquareQuantile(tail, DegreesOfFreedom)), level);
    }
}
