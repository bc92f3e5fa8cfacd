namespace TastingKit.Statistics;

/// <summary>The zero of a continuous function between two points of opposite sign (Brent 1973, chapter 4).</summary>
internal static class BrentRoot
{
    private const int MaximumEvaluations = 200;

    /// <summary>Finds a zero of <paramref name="function"/> in [<paramref name="low"/>, <paramref name="high"/>].</summary>
    /// <param name="function">The function; its signs at both ends must differ, or one of the ends be a zero.</param>
    /// <param name="low">The lower end.</param>
    /// <param name="high">The upper end.</param>
    /// <param name="tolerance">The wanted absolute accuracy; the spacing of floating-point numbers bounds it below.</param>
    /// <exception cref="ArgumentException">Both ends have the same sign: there is no bracketed zero.</exception>
    public static double Find(Func<double, double> function, double low, double high, double tolerance = 1e-14)
    {
        double a = low;
        double b = high;
        double fa = function(a);
        double fb = function(b);
        if (fa == 0.0)
        {
            return a;
        }

        if (fb == 0.0)
        {
            return b;
        }

        if (Math.Sign(fa) == Math.Sign(fb) || double.IsNaN(fa) || double.IsNaN(fb))
        {
            throw new ArgumentException($"The function has no change of sign between {low:R} ({fa:R}) and {high:R} ({fb:R}).", nameof(function));
        }

        double c = a;
        double fc = fa;
        double step = b - a;
        double previous = step;
        for (int i = 0; i < MaximumEvaluations; i++)
        {
            if (Math.Abs(fc) < Math.Abs(fb))
            {
                (a, b, c) = (b, c, b);
                (fa, fb, fc) = (fb, fc, fb);
            }

            double accuracy = 2.220446049250313e-16 * Math.Abs(b) + 0.5 * tolerance;
            double half = 0.5 * (c - b);
            if (Math.Abs(half) <= accuracy || fb == 0.0)
            {
                return b;
            }

            if (Math.Abs(previous) < accuracy || Math.Abs(fa) <= Math.Abs(fb))
            {
                step = half;
                previous = half;
            }
            else
            {
                double s = fb / fa;
                double p;
                double q;
                if (a == c)
                {
                    p = 2.0 * half * s;
                    q = 1.0 - s;
                }
                else
                {
                    double t = fa / fc;
                    double r = fb / fc;
                    p = s * (2.0 * half * t * (t - r) - (b - a) * (r - 1.0));
                    q = (t - 1.0) * (r - 1.0) * (s - 1.0);
                }

                q = p > 0.0 ? -q : q;
                p = Math.Abs(p);
                bool interpolates = 2.0 * p < Math.Min(3.0 * half * q - Math.Abs(accuracy * q), Math.Abs(previous * q));
                previous = interpolates ? step : half;
                step = interpolates ? p / q : half;
            }

            a = b;
            fa = fb;
            b += Math.Abs(step) > accuracy ? step : Math.CopySign(accuracy, half);
            fb = function(b);
            if (Math.Sign(fb) == Math.Sign(fc))
            {
                c = a;
                fc = fa;
                step = b - a;
                previous = step;
            }
        }

        return b;
    }
}
