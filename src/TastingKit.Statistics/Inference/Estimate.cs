namespace TastingKit.Statistics;

/// <summary>An estimated quantity with its uncertainty.</summary>
/// <param name="Value">The estimate, in the response's unit.</param>
/// <param name="StandardError">Standard error; for quantities with random effects the root of the prediction error variance (Henderson), which counts the fixed effects' uncertainty.</param>
/// <param name="DegreesOfFreedom">Satterthwaite's degrees of freedom; infinite where the standard error is zero.</param>
/// <param name="Low">Lower end of the interval.</param>
/// <param name="High">Upper end of the interval.</param>
/// <param name="Level">Coverage that the interval aims at, as 0.95.</param>
public sealed record Estimate(double Value, double StandardError, double DegreesOfFreedom, double Low, double High, double Level)
{
    /// <summary>The two-sided p-value of the hypothesis that the quantity equals a number.</summary>
    /// <param name="hypothesis">The number, zero unless stated.</param>
    public double PValue(double hypothesis = 0)
        => Value == hypothesis ? 1 : StandardError == 0 ? 0 : StudentsT.TwoSidedTail((Value - hypothesis) / StandardError, DegreesOfFreedom);
}
