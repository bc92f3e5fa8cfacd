namespace TastingKit.Statistics;

/// <summary>
/// Orthonormal columns Q spanning given columns X, with X = Q R over the columns kept. A column that depends on those before it is dropped.
/// </summary>
/// <remarks>
/// Gram–Schmidt done twice, which keeps Q orthonormal to rounding (Giraud, Langou and Rozložník 2005). Work on Q instead of X
/// takes the units and the correlation of the columns out of everything that follows.
/// </remarks>
internal sealed class OrthonormalBasis
{
    /// <summary>A column whose part outside the earlier columns is smaller than this share of it depends on them.</summary>
    public const double Tolerance = 1e-7;

    private OrthonormalBasis(double[][] columns, int[] kept, int[] dropped, double[][] triangle, double[][] dependence)
    {
        Columns = columns;
        Kept = kept;
        Dropped = dropped;
        Triangle = triangle;
        Dependence = dependence;
    }

    /// <summary>The orthonormal columns.</summary>
    public double[][] Columns { get; }

    /// <summary>Which of the given columns are spanned, in order.</summary>
    public int[] Kept { get; }

    /// <summary>Which of the given columns depend on earlier ones.</summary>
    public int[] Dropped { get; }

    /// <summary>R by columns: entry [j][i] is the weight of orthonormal column i in kept column j, i ≤ j.</summary>
    public double[][] Triangle { get; }

    /// <summary>For each dropped column its weights on the orthonormal columns.</summary>
    public double[][] Dependence { get; }

    public int Rank => Kept.Length;

    public static OrthonormalBasis Of(IReadOnlyList<double[]> given)
    {
        var columns = new List<double[]>();
        List<int> kept = [], dropped = [];
        List<double[]> triangle = [], dependence = [];
        for (int j = 0; j < given.Count; j++)
        {
            double[] column = (double[])given[j].Clone();
            double before = Norm(column);
            var weights = new double[columns.Count + 1];
            for (int pass = 0; pass < 2; pass++)
            {
                for (int i = 0; i < columns.Count; i++)
                {
                    double weight = Dot(columns[i], column);
                    weights[i] += weight;
                    for (int row = 0; row < column.Length; row++) column[row] -= weight * columns[i][row];
                }
            }

            double after = Norm(column);
            if (!(after > Tolerance * before))
            {
                dropped.Add(j);
                dependence.Add(weights[..columns.Count]);
                continue;
            }

            for (int row = 0; row < column.Length; row++) column[row] /= after;
            weights[columns.Count] = after;
            kept.Add(j);
            triangle.Add(weights);
            columns.Add(column);
        }

        return new OrthonormalBasis([.. columns], [.. kept], [.. dropped], [.. triangle], [.. dependence]);
    }

    /// <summary>Solves R x = b in place: coefficients of the kept columns from those of the orthonormal ones.</summary>
    public void SolveTriangle(Span<double> x)
    {
        for (int j = Rank - 1; j >= 0; j--)
        {
            x[j] /= Triangle[j][j];
            for (int i = 0; i < j; i++) x[i] -= Triangle[j][i] * x[j];
        }
    }

    /// <summary>Solves Rᵀ x = b in place: the weights on orthonormal coefficients of a function of the kept ones.</summary>
    public void SolveTransposedTriangle(Span<double> x)
    {
        for (int j = 0; j < Rank; j++)
        {
            for (int i = 0; i < j; i++) x[j] -= Triangle[j][i] * x[i];
            x[j] /= Triangle[j][j];
        }
    }

    /// <summary>Logarithm of the determinant of R.</summary>
    public double LogDeterminant()
    {
        double sum = 0;
        for (int j = 0; j < Rank; j++) sum += PortableMath.Log(Math.Abs(Triangle[j][j]));
        return sum;
    }

    public static unsafe double Dot(double[] a, double[] b)
    {
        fixed (double* x = a, y = b) return DotKernel.Dot(x, y, a.Length);
    }

    private static double Norm(double[] column) => Math.Sqrt(Dot(column, column));
}
