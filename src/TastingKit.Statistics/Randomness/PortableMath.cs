namespace TastingKit.Statistics;

/// <summary>
/// Logarithm and exponential built from IEEE 754 additions, multiplications and divisions only, so that they give
/// the same bits on every machine. <see cref="Math.Log(double)"/> and <see cref="Math.Exp(double)"/> call the
/// platform's C library, whose last digit differs from one system to the next.
/// </summary>
/// <remarks>
/// Algorithms of fdlibm (Sun Microsystems, 1993): argument reduction by powers of two and a minimax polynomial;
/// the error is below one unit in the last place.
/// </remarks>
public static class PortableMath
{
    private const double LnTwoHigh = 6.93147180369123816490e-01;
    private const double LnTwoLow = 1.90821492927058770002e-10;
    private const double TwoTo54 = 18014398509481984.0;

    /// <summary>Natural logarithm of <paramref name="x"/>.</summary>
    /// <param name="x">The argument.</param>
    /// <returns>
    /// Minus infinity at zero, NaN below zero and at NaN, plus infinity at plus infinity, as <see cref="Math.Log(double)"/>.
    /// </returns>
    public static double Log(double x)
    {
        if (double.IsNaN(x) || x < 0.0)
        {
            return double.NaN;
        }

        if (x == 0.0)
        {
            return double.NegativeInfinity;
        }

        if (double.IsPositiveInfinity(x))
        {
            return x;
        }

        int k = 0;
        if (x < 2.2250738585072014e-308)
        {
            k = -54;
            x *= TwoTo54;
        }

        long bits = BitConverter.DoubleToInt64Bits(x);
        int high = (int)(bits >> 32);
        k += (high >> 20) - 1023;
        high &= 0x000fffff;

        // Scale the significand into [sqrt(2)/2, sqrt(2)).
        int carry = (high + 0x95f64) & 0x100000;
        x = BitConverter.Int64BitsToDouble(((long)(high | (carry ^ 0x3ff00000)) << 32) | (bits & 0xffffffffL));
        k += carry >> 20;

        double f = x - 1.0;
        double s = f / (2.0 + f);
        double z = s * s;
        double w = z * z;
        double even = w * (3.999999999940941908e-01 + w * (2.222219843214978396e-01 + w * 1.531383769920937332e-01));
        double odd = z * (6.666666666666735130e-01 + w * (2.857142874366239149e-01
            + w * (1.818357216161805012e-01 + w * 1.479819860511658591e-01)));
        double r = even + odd;
        double halfSquare = 0.5 * f * f;
        return k * LnTwoHigh - ((halfSquare - (s * (halfSquare + r) + k * LnTwoLow)) - f);
    }

    /// <summary>The number e to the power <paramref name="x"/>.</summary>
    /// <param name="x">The exponent.</param>
    /// <returns>Plus infinity above 709.78, zero below −745.13, NaN at NaN, as <see cref="Math.Exp(double)"/>.</returns>
    public static double Exp(double x)
    {
        if (double.IsNaN(x))
        {
            return x;
        }

        if (x > 7.09782712893383973096e+02)
        {
            return double.PositiveInfinity;
        }

        if (x < -7.45133219101941108420e+02)
        {
            return 0.0;
        }

        double high = x;
        double low = 0.0;
        int k = 0;
        if (Math.Abs(x) > 0.34657359027997264)
        {
            k = (int)(1.44269504088896338700e+00 * x + (x < 0.0 ? -0.5 : 0.5));
            high = x - k * LnTwoHigh;
            low = k * LnTwoLow;
            x = high - low;
        }

        double t = x * x;
        double c = x - t * (1.66666666666666019037e-01 + t * (-2.77777777770155933842e-03
            + t * (6.61375632143793436117e-05 + t * (-1.65339022054652515390e-06 + t * 4.13813679705723846039e-08))));
        double y = 1.0 - ((low - x * c / (2.0 - c)) - high);
        if (k >= -1021)
        {
            // Two steps at the top, since 2^1024 itself can't be represented.
            return k == 1024 ? y * 2.0 * PowerOfTwo(1023) : y * PowerOfTwo(k);
        }

        return y * PowerOfTwo(k + 1000) * 9.33263618503218878990e-302;
    }

    /// <summary>Cosine and sine of an angle in [0, 2π], to about 1e-15, by their power series within an eighth of a turn.</summary>
    internal static double[] PointOnCircle(double angle)
    {
        double quarter = Math.Round(angle / (0.5 * Math.PI));
        double x = angle - quarter * (0.5 * Math.PI);
        double square = x * x;
        double cosine = 0.0;
        double sine = 0.0;
        for (int i = 18; i >= 2; i -= 2)
        {
            cosine = 1.0 - cosine * square / (i * (i - 1));
            sine = 1.0 - sine * square / (i * (i + 1));
        }

        sine *= x;
        return ((int)quarter & 3) switch
        {
            0 => [cosine, sine],
            1 => [-sine, cosine],
            2 => [-cosine, -sine],
            _ => [sine, -cosine],
        };
    }

    private static double PowerOfTwo(int exponent) => BitConverter.Int64BitsToDouble((long)(exponent + 1023) << 52);
}
