namespace TastingKit.Statistics;

/// <summary>
/// A correlation matrix as a lower-trapezoidal factor, its variables ordered and grouped for the sequential
/// conditioning of Genz (1992).
/// </summary>
/// <remarks>
/// A singular matrix (all pairwise differences of k means have rank k − 1) is no special case: every row is kept in
/// the group of the last independent variable it depends on, where its bounds are intersected with those of the
/// other rows of the group (Genz and Kwong 2000).
/// </remarks>
internal sealed class OrthantFactor
{
    private const double SingularityTolerance = 1e-10;

    private OrthantFactor(int[] rows, double[][] coefficients, int[] groupStarts)
    {
        Rows = rows;
        Coefficients = coefficients;
        GroupStarts = groupStarts;
    }

    /// <summary>Indices of the original variables, group by group.</summary>
    public int[] Rows { get; }

    /// <summary>For each entry of <see cref="Rows"/>, its coefficients on the independent variables of its group and before.</summary>
    public double[][] Coefficients { get; }

    /// <summary>Where each group starts in <see cref="Rows"/>, and the end of the last one.</summary>
    public int[] GroupStarts { get; }

    public int Rank => GroupStarts.Length - 1;

    /// <summary>Factors a correlation matrix in an order that serves no bounds in particular.</summary>
    public static OrthantFactor Create(double[,] correlation)
    {
        var bounds = new double[correlation.GetLength(0)];
        Array.Fill(bounds, 1.0);
        return Create(correlation, Array.ConvertAll(bounds, b => -b), bounds);
    }

    /// <summary>Factors a correlation matrix in the order that serves the bounds given.</summary>
    /// <param name="correlation">Symmetric, positive semidefinite, ones on the diagonal.</param>
    /// <param name="lower">Lower bounds, used for the order only.</param>
    /// <param name="upper">Upper bounds, used for the order only.</param>
    /// <exception cref="ArgumentException">The matrix is not positive semidefinite.</exception>
    public static OrthantFactor Create(double[,] correlation, ReadOnlySpan<double> lower, ReadOnlySpan<double> upper)
    {
        int m = correlation.GetLength(0);
        var factor = new double[m][];
        var residual = new double[m];
        var center = new double[m];
        var placed = new bool[m];
        for (int j = 0; j < m; j++)
        {
            factor[j] = new double[m];
            residual[j] = 1.0;
        }

        var rows = new List<int>(m);
        var starts = new List<int>();
        for (int i = 0; rows.Count < m; i++)
        {
            int pivot = HardestRow(residual, center, placed, lower, upper);
            starts.Add(rows.Count);
            double root = Math.Sqrt(residual[pivot]);
            double expected = TruncatedMean((lower[pivot] - center[pivot]) / root, (upper[pivot] - center[pivot]) / root);
            factor[pivot][i] = root;
            residual[pivot] = 0.0;
            placed[pivot] = true;
            rows.Add(pivot);
            for (int j = 0; j < m; j++)
            {
                if (placed[j])
                {
                    continue;
                }

                double covariance = correlation[j, pivot];
                for (int l = 0; l < i; l++)
                {
                    covariance -= factor[j][l] * factor[pivot][l];
                }

                double coefficient = covariance / root;
                factor[j][i] = coefficient;
                center[j] += coefficient * expected;
                residual[j] -= coefficient * coefficient;
                if (residual[j] < -1e-6)
                {
                    throw new ArgumentException($"The correlation matrix is not positive semidefinite: given those before it, variable {j} has the variance {residual[j]:R}.", nameof(correlation));
                }

                if (residual[j] <= SingularityTolerance)
                {
                    residual[j] = 0.0;
                    placed[j] = true;
                    rows.Add(j);
                }
            }
        }

        starts.Add(m);
        var coefficients = new double[m][];
        for (int g = 0; g + 1 < starts.Count; g++)
        {
            for (int r = starts[g]; r < starts[g + 1]; r++)
            {
                coefficients[r] = factor[rows[r]][..(g + 1)];
            }
        }

        return new OrthantFactor([.. rows], coefficients, [.. starts]);
    }

    // The least probable variable goes first: what then remains to be integrated varies least (Gibson, Glasbey and Elston 1994).
    private static int HardestRow(double[] residual, double[] center, bool[] placed, ReadOnlySpan<double> lower, ReadOnlySpan<double> upper)
    {
        int hardest = -1;
        double smallest = double.PositiveInfinity;
        for (int j = 0; j < residual.Length; j++)
        {
            if (placed[j])
            {
                continue;
            }

            double root = Math.Sqrt(residual[j]);
            double probability = StandardNormal.CumulativeProbability((upper[j] - center[j]) / root)
                - StandardNormal.CumulativeProbability((lower[j] - center[j]) / root);
            if (probability < smallest)
            {
                smallest = probability;
                hardest = j;
            }
        }

        return hardest;
    }

    private static double TruncatedMean(double lower, double upper)
    {
        double mass = StandardNormal.CumulativeProbability(upper) - StandardNormal.CumulativeProbability(lower);
        if (mass > 1e-12)
        {
            return (StandardNormal.Density(lower) - StandardNormal.Density(upper)) / mass;
        }

        return Math.Abs(lower) < Math.Abs(upper) ? lower : upper;
    }
}
