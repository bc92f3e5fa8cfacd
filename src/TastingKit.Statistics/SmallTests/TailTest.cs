namespace TastingKit.Statistics;

/// <summary>Whether values stray far from their mean more often than normal ones do.</summary>
/// <remarks>
/// The fourth moment over the squared second, brought to a normal scale by Anscombe and Glynn (1983, Biometrika 70, 227). The values are taken
/// as independent of each other.
/// </remarks>
/// <param name="Observations">Number of values.</param>
/// <param name="Kurtosis">The fourth central moment over the squared variance: about 3 for normal values.</param>
/// <param name="Z">How far the kurtosis lies above that of normal values, in standard deviations.</param>
/// <param name="P">One-sided p-value: how probable a kurtosis as high or higher is of normal values.</param>
public sealed record TailTest(int Observations, double Kurtosis, double Z, double P)
{
    /// <summary>The fewest values that the normal scale is good for.</summary>
    public const int Fewest = 20;

    private const double Lowest = 1e-9;

    /// <summary>Tests some values.</summary>
    /// <param name="values">The values, at least <see cref="Fewest"/>, in any order.</param>
    /// <exception cref="ArgumentException">Fewer values, one that is not finite, or all the same.</exception>
    public static TailTest Of(ReadOnlySpan<double> values)
    {
        int n = values.Length;
        if (n < Fewest) throw new ArgumentException($"{n} values, where {Fewest} are the fewest.", nameof(values));
        double mean = 0;
        foreach (double value in values)
        {
            if (!double.IsFinite(value)) throw new ArgumentException($"A value is {value}; each must be finite.", nameof(values));
            mean += value / n;
        }

        double second = 0, fourth = 0;
        foreach (double value in values)
        {
            double square = (value - mean) * (value - mean);
            second += square / n;
            fourth += square * square / n;
        }

        if (!(second > 0)) throw new ArgumentException("All values are the same, so they have no spread to stray by.", nameof(values));
        double kurtosis = fourth / (second * second);
        double expected = 3.0 * (n - 1) / (n + 1);
        double variance = 24.0 * n * (n - 2) * (n - 3) / ((n + 1.0) * (n + 1) * (n + 3) * (n + 5));
        double skewness = 6.0 * ((double)n * n - 5.0 * n + 2) / ((n + 7.0) * (n + 9)) * Math.Sqrt(6.0 * (n + 3) * (n + 5) / ((double)n * (n - 2) * (n - 3)));
        double a = 6 + 8 / skewness * (2 / skewness + Math.Sqrt(1 + 4 / (skewness * skewness)));
        // A kurtosis so far below that the cube root has no value is as low as any.
        double scaled = Math.Max(Lowest, 1 + (kurtosis - expected) / Math.Sqrt(variance) * Math.Sqrt(2 / (a - 4)));
        double cubeRoot = PortableMath.Exp(PortableMath.Log((1 - 2 / a) / scaled) / 3);
        double z = (1 - 2 / (9 * a) - cubeRoot) / Math.Sqrt(2 / (9 * a));
        return new TailTest(n, kurtosis, z, StandardNormal.CumulativeProbability(-z));
    }
}
