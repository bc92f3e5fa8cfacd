namespace TastingKit.Statistics;

/// <summary>
/// Nodes and weights for an expectation over s = √(χ²/ν), the ratio of an estimated to a true standard deviation.
/// </summary>
/// <remarks>
/// The trapezoidal rule in log s, where the density exp(ν(x − e^{2x}/2)) is analytic and decays at both ends, so that
/// its error falls faster than any power of the step. The weights are normalised by their own sum, which needs no
/// gamma function and stays exact at very many degrees of freedom.
/// </remarks>
internal sealed class RootMeanSquareRule
{
    private const double StepInStandardDeviations = 0.35;
    // With one or two degrees of freedom the density is widest, and analytic in no wider a strip of the complex plane.
    private const double WidestStep = 0.14;

    // Far below rounding, since small values of s make most of a very small upper tail.
    private const double NegligibleLogDensity = -60.0;

    private RootMeanSquareRule(double[] nodes, double[] weights)
    {
        Nodes = nodes;
        Weights = weights;
    }

    public double[] Nodes { get; }

    public double[] Weights { get; }

    /// <summary>The rule for <paramref name="degreesOfFreedom"/> ν; infinity gives the single node 1.</summary>
    public static RootMeanSquareRule For(double degreesOfFreedom)
    {
        if (double.IsPositiveInfinity(degreesOfFreedom))
        {
            return new RootMeanSquareRule([1.0], [1.0]);
        }

        double step = Math.Min(WidestStep, StepInStandardDeviations / Math.Sqrt(2.0 * degreesOfFreedom));
        int below = Extent(degreesOfFreedom, -step);
        int above = Extent(degreesOfFreedom, step);
        var nodes = new double[below + above + 1];
        var weights = new double[nodes.Length];
        double sum = 0.0;
        for (int i = 0; i < nodes.Length; i++)
        {
            double x = (i - below) * step;
            nodes[i] = PortableMath.Exp(x);
            weights[i] = PortableMath.Exp(LogDensity(degreesOfFreedom, x));
            sum += weights[i];
        }

        for (int i = 0; i < weights.Length; i++)
        {
            weights[i] /= sum;
        }

        return new RootMeanSquareRule(nodes, weights);
    }

    /// <summary>Logarithm of the density of log s at <paramref name="x"/>, relative to its mode at zero.</summary>
    public static double LogDensity(double degreesOfFreedom, double x)
    {
        if (Math.Abs(x) > 0.05)
        {
            return degreesOfFreedom * (x - 0.5 * (PortableMath.Exp(2.0 * x) - 1.0));
        }

        // The difference above loses all digits near the mode, which is all there is at many degrees of freedom.
        double term = 2.0 * x;
        double sum = 0.0;
        for (int j = 2; j <= 12; j++)
        {
            term *= 2.0 * x / j;
            sum += term;
        }

        return -0.5 * degreesOfFreedom * sum;
    }

    private static int Extent(double degreesOfFreedom, double step)
    {
        int i = 1;
        while (LogDensity(degreesOfFreedom, i * step) > NegligibleLogDensity)
        {
            i++;
        }

        return i;
    }
}
