namespace TastingKit.Statistics;

/// <summary>Gauss–Hermite quadrature for integrals of e^(−x²) f(x).</summary>
internal sealed class GaussHermite
{
    private GaussHermite(double[] nodes, double[] logWeights)
    {
        Nodes = nodes;
        LogWeights = logWeights;
    }

    public double[] Nodes { get; }

    public double[] LogWeights { get; }

    /// <summary>The rule of <paramref name="count"/> nodes: eigenvalues of the Jacobi matrix (Golub and Welsch 1969), polished by Newton's method.</summary>
    public static GaussHermite Of(int count)
    {
        var jacobi = new double[count, count];
        for (int i = 1; i < count; i++)
        {
            jacobi[i, i - 1] = jacobi[i - 1, i] = Math.Sqrt(0.5 * i);
        }

        double[] nodes = SmallMatrix.Eigen(jacobi).Values;
        Array.Sort(nodes);
        var logWeights = new double[count];
        for (int k = 0; k < count; k++)
        {
            for (int step = 0; step < 3; step++)
            {
                var (value, derivative, _) = Orthonormal(nodes[k], count);
                nodes[k] -= value / derivative;
            }

            logWeights[k] = -PortableMath.Log(Orthonormal(nodes[k], count).SumOfSquares);
        }

        return new GaussHermite(nodes, logWeights);
    }

    // The orthonormal polynomial of degree n, its derivative, and the sum of squares of those below, whose inverse is the weight.
    private static (double Value, double Derivative, double SumOfSquares) Orthonormal(double x, int n)
    {
        double previous = 0.0;
        double current = 0.75112554446494248286;
        double sum = current * current;
        for (int j = 0; j < n; j++)
        {
            double next = x * Math.Sqrt(2.0 / (j + 1.0)) * current - Math.Sqrt(j / (j + 1.0)) * previous;
            previous = current;
            current = next;
            sum += j < n - 1 ? current * current : 0.0;
        }

        return (current, Math.Sqrt(2.0 * n) * previous, sum);
    }
}
