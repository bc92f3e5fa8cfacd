namespace TastingKit.Statistics;

/// <summary>
/// The quantile function of s = √(χ²_ν/ν), tabulated once and interpolated by cubic Hermite polynomials: a lattice
/// rule asks for it at every point, and inverting the incomplete gamma function each time would take most of the time.
/// </summary>
internal sealed class RootMeanSquareQuantile
{
    private const int Cells = 4096;
    private readonly double[] _logs = new double[Cells + 1];
    private readonly double[] _cumulative = new double[Cells + 1];
    private readonly double[] _slopes = new double[Cells + 1];

    public RootMeanSquareQuantile(double degreesOfFreedom)
    {
        double spread = 1.0 / Math.Sqrt(2.0 * degreesOfFreedom);
        double low = -spread;
        double high = spread;
        while (RootMeanSquareRule.LogDensity(degreesOfFreedom, low) > -36.0)
        {
            low *= 1.05;
        }

        while (RootMeanSquareRule.LogDensity(degreesOfFreedom, high) > -36.0)
        {
            high *= 1.05;
        }

        double step = (high - low) / Cells;
        double left = Density(degreesOfFreedom, low);
        _logs[0] = low;
        _slopes[0] = left;
        for (int i = 1; i <= Cells; i++)
        {
            double x = low + i * step;
            double middle = Density(degreesOfFreedom, x - 0.5 * step);
            double right = Density(degreesOfFreedom, x);
            _logs[i] = x;
            _cumulative[i] = _cumulative[i - 1] + step / 6.0 * (left + 4.0 * middle + right);
            _slopes[i] = right;
            left = right;
        }

        double total = _cumulative[Cells];
        for (int i = 0; i <= Cells; i++)
        {
            _cumulative[i] /= total;
            _slopes[i] = total / _slopes[i];
        }
    }

    /// <summary>The value of s below which lies the share <paramref name="probability"/>, in [0, 1].</summary>
    public double At(double probability)
    {
        int low = 0;
        int high = Cells;
        while (high - low > 1)
        {
            int middle = (low + high) >>> 1;
            if (_cumulative[middle] <= probability)
            {
                low = middle;
            }
            else
            {
                high = middle;
            }
        }

        double width = _cumulative[high] - _cumulative[low];
        double t = (probability - _cumulative[low]) / width;
        double rest = 1.0 - t;
        double log = _logs[low] * rest * rest * (1.0 + 2.0 * t) + _logs[high] * t * t * (3.0 - 2.0 * t)
            + width * t * rest * (_slopes[low] * rest - _slopes[high] * t);
        return PortableMath.Exp(log);
    }

    private static double Density(double degreesOfFreedom, double x) =>
        PortableMath.Exp(RootMeanSquareRule.LogDensity(degreesOfFreedom, x));
}
