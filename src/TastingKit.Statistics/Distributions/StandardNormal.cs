namespace TastingKit.Statistics;

/// <summary>
/// The standard normal distribution, the same to the bit on every machine and accurate to about 1e-15 relative,
/// in both tails.
/// </summary>
/// <remarks>
/// Distribution function after Cody (1969), "Rational Chebyshev approximations for the error function"; quantile
/// after Wichura (1988), algorithm AS 241 (PPND16).
/// </remarks>
public static class StandardNormal
{
    internal const double InverseRootTwoPi = 0.39894228040143267794;
    internal const double HalfLogTwoPi = 0.91893853320467274178;

    /// <summary>The density at <paramref name="x"/>.</summary>
    /// <param name="x">Any number.</param>
    /// <returns>exp(−x²/2)/√(2π).</returns>
    public static double Density(double x) => InverseRootTwoPi * PortableMath.Exp(-0.5 * x * x);

    /// <summary>The probability of a value up to <paramref name="x"/>.</summary>
    /// <param name="x">Any number; the infinities give 0 and 1.</param>
    /// <returns>A probability; small ones in the lower tail keep their relative accuracy.</returns>
    public static double CumulativeProbability(double x)
    {
        double y = Math.Abs(x);
        if (!(y > 0.67448975))
        {
            // Small arguments, and NaN, which the arithmetic carries through.
            double square = y > 1.11e-16 ? x * x : 0.0;
            double numerator = 0.065682337918207449113 * square;
            double denominator = square;
            ReadOnlySpan<double> a = [2.2352520354606839287, 161.02823106855587881, 1067.6894854603709582];
            ReadOnlySpan<double> b = [47.20258190468824187, 976.09855173777669322, 10260.932208618978205];
            for (int i = 0; i < 3; i++)
            {
                numerator = (numerator + a[i]) * square;
                denominator = (denominator + b[i]) * square;
            }

            return 0.5 + x * (numerator + 18154.981253343561249) / (denominator + 45507.789335026729956);
        }

        double tail;
        if (y <= 5.656854249492380195)
        {
            double numerator = 1.0765576773720192317e-8 * y;
            double denominator = y;
            ReadOnlySpan<double> c =
            [
                0.39894151208813466764, 8.8831497943883759412, 93.506656132177855979, 597.27027639480026226,
                2494.5375852903726711, 6848.1904505362823326, 11602.651437647350124,
            ];
            ReadOnlySpan<double> d =
            [
                22.266688044328115691, 235.38790178262499861, 1519.377599407554805, 6485.558298266760755,
                18615.571640885098091, 34900.952721145977266, 38912.003286093271411,
            ];
            for (int i = 0; i < 7; i++)
            {
                numerator = (numerator + c[i]) * y;
                denominator = (denominator + d[i]) * y;
            }

            tail = (numerator + 9842.7148383839780218) / (denominator + 19685.429676859990727);
        }
        else
        {
            double inverseSquare = 1.0 / (x * x);
            double numerator = 0.02307344176494017303 * inverseSquare;
            double denominator = inverseSquare;
            ReadOnlySpan<double> p =
            [
                0.21589853405795699, 0.1274011611602473639, 0.022235277870649807, 0.001421619193227893466,
            ];
            ReadOnlySpan<double> q =
            [
                1.28426009614491121, 0.468238212480865118, 0.0659881378689285515, 0.00378239633202758244,
            ];
            for (int i = 0; i < 4; i++)
            {
                numerator = (numerator + p[i]) * inverseSquare;
                denominator = (denominator + q[i]) * inverseSquare;
            }

            double fraction = inverseSquare * (numerator + 2.9112874951168792e-5) / (denominator + 7.29751555083966205e-5);
            tail = (InverseRootTwoPi - fraction) / y;
        }

        // exp(−y²/2) in two factors, since y² itself is rounded.
        double rounded = Math.Truncate(y * 16.0) / 16.0;
        double remainder = (y - rounded) * (y + rounded);
        double lower = y > 38.6 ? 0.0 : PortableMath.Exp(-0.5 * rounded * rounded) * PortableMath.Exp(-0.5 * remainder) * tail;
        return x > 0.0 ? 1.0 - lower : lower;
    }

    /// <summary>The value that is not exceeded with probability <paramref name="probability"/>.</summary>
    /// <param name="probability">A number in [0, 1].</param>
    /// <returns>The quantile; minus and plus infinity at 0 and 1.</returns>
    /// <exception cref="ArgumentOutOfRangeException">The probability lies outside [0, 1] or is NaN.</exception>
    public static double Quantile(double probability)
    {
        if (!(probability >= 0.0 && probability <= 1.0))
        {
            throw new ArgumentOutOfRangeException(nameof(probability), probability, "A probability lies in [0, 1].");
        }

        double q = probability - 0.5;
        if (Math.Abs(q) <= 0.425)
        {
            double r = 0.180625 - q * q;
            return q * (((((((2509.0809287301226727 * r + 33430.575583588128105) * r + 67265.770927008700853) * r
                + 45921.953931549871457) * r + 13731.693765509461125) * r + 1971.5909503065514427) * r
                + 133.14166789178437745) * r + 3.387132872796366608)
                / (((((((5226.495278852545925 * r + 28729.085735721942674) * r + 39307.89580009271061) * r
                + 21213.794301586595867) * r + 5394.1960214247511077) * r + 687.1870074920579083) * r
                + 42.313330701600911252) * r + 1.0);
        }

        double tail = q < 0.0 ? probability : 1.0 - probability;
        if (tail == 0.0)
        {
            return q < 0.0 ? double.NegativeInfinity : double.PositiveInfinity;
        }

        double s = Math.Sqrt(-PortableMath.Log(tail));
        double value;
        if (s <= 5.0)
        {
            s -= 1.6;
            value = (((((((7.7454501427834140764e-4 * s + 0.0227238449892691845833) * s + 0.24178072517745061177) * s
                + 1.27045825245236838258) * s + 3.64784832476320460504) * s + 5.7694972214606914055) * s
                + 4.6303378461565452959) * s + 1.42343711074968357734)
                / (((((((1.05075007164441684324e-9 * s + 5.475938084995344946e-4) * s + 0.0151986665636164571966) * s
                + 0.14810397642748007459) * s + 0.68976733498510000455) * s + 1.6763848301838038494) * s
                + 2.05319162663775882187) * s + 1.0);
        }
        else
        {
            s -= 5.0;
            value = (((((((2.01033439929228813265e-7 * s + 2.71155556874348757815e-5) * s + 0.0012426609473880784386) * s
                + 0.026532189526576123093) * s + 0.29656057182850489123) * s + 1.7848265399172913358) * s
                + 5.4637849111641143699) * s + 6.6579046435011037772)
                / (((((((2.04426310338993978564e-15 * s + 1.4215117583164458887e-7) * s + 1.8463183175100546818e-5) * s
                + 7.868691311456132591e-4) * s + 0.0148753612908506148525) * s + 0.13692988092273580531) * s
                + 0.59983220655588793769) * s + 1.0);
        }

        return q < 0.0 ? -value : value;
    }
}
