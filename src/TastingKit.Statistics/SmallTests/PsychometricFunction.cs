using MathNet.Numerics.Integration;

namespace TastingKit.Statistics;

/// <summary>How a discrimination trial is served and what is asked.</summary>
public enum DiscriminationProtocol
{
    /// <summary>Three samples, two alike: which is the odd one?</summary>
    Triangle,

    /// <summary>A reference and two samples: which is the reference?</summary>
    DuoTrio,

    /// <summary>Two samples: which has more of a stated attribute?</summary>
    Paired,

    /// <summary>Three samples, two alike: which has more of a stated attribute?</summary>
    ThreeAlternative,

    /// <summary>Four samples, two of each: which two belong together?</summary>
    Tetrad,
}

/// <summary>
/// Thurstonian psychometric functions: the probability of a correct answer when two products lie d′ apart, in standard
/// deviations of perception.
/// </summary>
/// <remarks>Ennis (1993), The power of sensory discrimination methods; for the tetrad Ennis and Jesionka (2011).</remarks>
public static class PsychometricFunction
{
    private static readonly double RootTwo = Math.Sqrt(2.0);
    private static readonly double RootThree = Math.Sqrt(3.0);
    private static readonly double RootSix = Math.Sqrt(6.0);

    /// <summary>The probability of a correct answer by guessing.</summary>
    /// <param name="protocol">The protocol.</param>
    public static double Chance(DiscriminationProtocol protocol) =>
        protocol is DiscriminationProtocol.DuoTrio or DiscriminationProtocol.Paired ? 0.5 : 1.0 / 3.0;

    /// <summary>The probability of a correct answer.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="dPrime">The distance d′, not negative.</param>
    /// <returns>A probability from chance to one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or NaN.</exception>
    public static double ProportionCorrect(DiscriminationProtocol protocol, double dPrime)
    {
        if (!(dPrime >= 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(dPrime), dPrime, "A distance d′ is not negative.");
        }

        if (dPrime > 60.0)
        {
            return 1.0;
        }

        double a = StandardNormal.CumulativeProbability(dPrime / RootTwo);
        double b = StandardNormal.CumulativeProbability(dPrime / RootSix);
        return protocol switch
        {
            DiscriminationProtocol.Triangle => Triangle(dPrime),
            DiscriminationProtocol.DuoTrio => 1.0 - a - b + 2.0 * a * b,
            DiscriminationProtocol.Paired => a,
            DiscriminationProtocol.ThreeAlternative => OverLine(dPrime, z =>
            {
                double below = StandardNormal.CumulativeProbability(z + dPrime);
                return StandardNormal.Density(z) * below * below;
            }),
            DiscriminationProtocol.Tetrad => 1.0 - 2.0 * OverLine(0.0, z =>
            {
                double shifted = StandardNormal.CumulativeProbability(z - dPrime);
                return StandardNormal.Density(z) * shifted * (2.0 * StandardNormal.CumulativeProbability(z) - shifted);
            }),
            _ => throw new ArgumentOutOfRangeException(nameof(protocol), protocol, "An unknown protocol."),
        };
    }

    /// <summary>How fast the probability of a correct answer rises with d′.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="dPrime">The distance d′, not negative.</param>
    /// <exception cref="ArgumentOutOfRangeException">The distance is negative or NaN.</exception>
    public static double Slope(DiscriminationProtocol protocol, double dPrime)
    {
        if (!(dPrime >= 0.0))
        {
            throw new ArgumentOutOfRangeException(nameof(dPrime), dPrime, "A distance d′ is not negative.");
        }

        double a = StandardNormal.CumulativeProbability(dPrime / RootTwo);
        double b = StandardNormal.CumulativeProbability(dPrime / RootSix);
        double da = StandardNormal.Density(dPrime / RootTwo) / RootTwo;
        double db = StandardNormal.Density(dPrime / RootSix) / RootSix;
        return protocol switch
        {
            DiscriminationProtocol.Triangle => 2.0 / RootSix * StandardNormal.Density(dPrime / RootSix) * (2.0 * a - 1.0),
            DiscriminationProtocol.DuoTrio => -da - db + 2.0 * (da * b + a * db),
            DiscriminationProtocol.Paired => da,
            DiscriminationProtocol.ThreeAlternative => OverLine(dPrime, z =>
                2.0 * StandardNormal.Density(z) * StandardNormal.CumulativeProbability(z + dPrime) * StandardNormal.Density(z + dPrime)),
            DiscriminationProtocol.Tetrad => 4.0 * OverLine(0.0, z => StandardNormal.Density(z) * StandardNormal.Density(z - dPrime)
                * (StandardNormal.CumulativeProbability(z) - StandardNormal.CumulativeProbability(z - dPrime))),
            _ => throw new ArgumentOutOfRangeException(nameof(protocol), protocol, "An unknown protocol."),
        };
    }

    /// <summary>The distance at which a proportion of answers is correct.</summary>
    /// <param name="protocol">The protocol.</param>
    /// <param name="proportionCorrect">A proportion in [0, 1].</param>
    /// <returns>d′; zero at chance and below, infinity at one.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The proportion lies outside [0, 1].</exception>
    public static double DPrime(DiscriminationProtocol protocol, double proportionCorrect)
    {
        Proportion.CheckProbability(proportionCorrect, nameof(proportionCorrect));
        if (proportionCorrect <= Chance(protocol))
        {
            return 0.0;
        }

        if (proportionCorrect >= 1.0)
        {
            return double.PositiveInfinity;
        }

        double high = 1.0;
        while (ProportionCorrect(protocol, high) < proportionCorrect)
        {
            high *= 2.0;
        }

        return BrentRoot.Find(d => ProportionCorrect(protocol, d) - proportionCorrect, 0.0, high, 1e-15);
    }

    private static double Triangle(double dPrime)
    {
        double shift = dPrime * 2.0 / RootSix;
        double Integrand(double z) => StandardNormal.Density(z)
            * (StandardNormal.CumulativeProbability(shift - z * RootThree) + StandardNormal.CumulativeProbability(-shift - z * RootThree));

        // Four panels: the integrand's bend lies near z = d′√2/3 and is about as wide as one.
        double sum = 0.0;
        for (int panel = 0; panel < 4; panel++)
        {
            sum += GaussLegendreRule.Integrate(Integrand, 3.0 * panel, 3.0 * (panel + 1), 32);
        }

        return Math.Min(1.0, 2.0 * sum);
    }

    // The trapezoidal rule, whose error on such integrands is far below rounding; z is counted from the density's centre.
    private static double OverLine(double reach, Func<double, double> integrand)
    {
        const double step = 0.125;
        double sum = 0.0;
        for (double z = -9.0 - reach; z <= 9.0; z += step)
        {
            sum += integrand(z);
        }

        return sum * step;
    }
}
