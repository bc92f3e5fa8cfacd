using MathNet.Numerics;

namespace TastingKit.Statistics;

/// <summary>Student's t distribution with real degrees of freedom, infinity included.</summary>
public static class StudentsT
{
    /// <summary>P(|T| &gt; |t|), with its relative accuracy kept however small it is.</summary>
    /// <param name="t">A value of the distribution.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom, positive.</param>
    public static double TwoSidedTail(double t, double degreesOfFreedom)
    {
        double square = t * t;
        if (double.IsPositiveInfinity(square))
        {
            return 0.0;
        }

        if (degreesOfFreedom > 1e8)
        {
            // The incomplete beta function needs ever more terms; what it differs from the limit is below 1e-8 here.
            return 2.0 * StandardNormal.CumulativeProbability(-Math.Abs(t));
        }

        // Near zero the complement is the small one of the two.
        return square < 0.5
            ? 1.0 - SpecialFunctions.BetaRegularized(0.5, 0.5 * degreesOfFreedom, square / (degreesOfFreedom + square))
            : SpecialFunctions.BetaRegularized(0.5 * degreesOfFreedom, 0.5, degreesOfFreedom / (degreesOfFreedom + square));
    }

    /// <summary>The value t with P(|T| &gt; t) = <paramref name="tail"/>, a probability in (0, 1].</summary>
    /// <param name="tail">The probability in both tails together.</param>
    /// <param name="degreesOfFreedom">Degrees of freedom, positive.</param>
    public static double TwoSidedQuantile(double tail, double degreesOfFreedom)
    {
        if (double.IsPositiveInfinity(degreesOfFreedom))
        {
            return -StandardNormal.Quantile(0.5 * tail);
        }

        double high = 2.0;
        while (TwoSidedTail(high, degreesOfFreedom) > tail)
        {
            high *= 2.0;
        }

        return BrentRoot.Find(t => TwoSidedTail(t, degreesOfFreedom) - tail, 0.0, high);
    }
}
