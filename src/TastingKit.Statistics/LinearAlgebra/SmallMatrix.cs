namespace TastingKit.Statistics;

/// <summary>Plain algebra of small dense matrices: the covariance of a random term, the information of a handful of parameters.</summary>
internal static class SmallMatrix
{
    /// <summary>The sum of the products of a's numbers with those of b, which has as many or more.</summary>
    public static double Dot(ReadOnlySpan<double> a, ReadOnlySpan<double> b)
    {
        double sum = 0;
        for (int i = 0; i < a.Length; i++) sum += a[i] * b[i];
        return sum;
    }

    /// <summary>Factors a symmetric positive definite matrix in place into its lower Cholesky factor; false when it is not positive definite.</summary>
    public static bool TryFactor(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        for (int j = 0; j < n; j++)
        {
            double pivot = matrix[j, j];
            for (int k = 0; k < j; k++) pivot -= matrix[j, k] * matrix[j, k];
            if (!(pivot > 0)) return false;
            pivot = Math.Sqrt(pivot);
            matrix[j, j] = pivot;
            for (int i = j + 1; i < n; i++)
            {
                double sum = matrix[i, j];
                for (int k = 0; k < j; k++) sum -= matrix[i, k] * matrix[j, k];
                matrix[i, j] = sum / pivot;
            }

            for (int i = 0; i < j; i++) matrix[i, j] = 0;
        }

        return true;
    }

    /// <summary>Lower factor of a positive semidefinite matrix; a pivot that vanishes beside its diagonal gives a column of zeros.</summary>
    public static double[,] SemidefiniteFactor(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        var factor = new double[n, n];
        for (int j = 0; j < n; j++)
        {
            double pivot = matrix[j, j];
            for (int k = 0; k < j; k++) pivot -= factor[j, k] * factor[j, k];
            if (!(pivot > 1e-14 * matrix[j, j])) continue;
            factor[j, j] = Math.Sqrt(pivot);
            for (int i = j + 1; i < n; i++)
            {
                double sum = matrix[i, j];
                for (int k = 0; k < j; k++) sum -= factor[i, k] * factor[j, k];
                factor[i, j] = sum / factor[j, j];
            }
        }

        return factor;
    }

    /// <summary>Solves L Lᵀ x = b in place.</summary>
    public static void SolveFactored(double[,] lower, Span<double> x)
    {
        SolveLower(lower, x);
        SolveLowerTransposed(lower, x);
    }

    /// <summary>Solves L x = b in place.</summary>
    public static void SolveLower(double[,] lower, Span<double> x)
    {
        for (int i = 0; i < x.Length; i++)
        {
            for (int k = 0; k < i; k++) x[i] -= lower[i, k] * x[k];
            x[i] /= lower[i, i];
        }
    }

    /// <summary>Solves Lᵀ x = b in place.</summary>
    public static void SolveLowerTransposed(double[,] lower, Span<double> x)
    {
        for (int i = x.Length - 1; i >= 0; i--)
        {
            for (int k = i + 1; k < x.Length; k++) x[i] -= lower[k, i] * x[k];
            x[i] /= lower[i, i];
        }
    }

    /// <summary>A Bᵀ.</summary>
    public static double[,] TimesTransposed(double[,] a, double[,] b)
    {
        int rows = a.GetLength(0), columns = b.GetLength(0), inner = a.GetLength(1);
        var product = new double[rows, columns];
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < columns; j++)
            {
                double sum = 0;
                for (int k = 0; k < inner; k++) sum += a[i, k] * b[j, k];
                product[i, j] = sum;
            }
        }

        return product;
    }

    /// <summary>A B.</summary>
    public static double[,] Times(double[,] a, double[,] b)
    {
        int rows = a.GetLength(0), columns = b.GetLength(1), inner = a.GetLength(1);
        var product = new double[rows, columns];
        for (int i = 0; i < rows; i++)
        {
            for (int j = 0; j < columns; j++)
            {
                double sum = 0;
                for (int k = 0; k < inner; k++) sum += a[i, k] * b[k, j];
                product[i, j] = sum;
            }
        }

        return product;
    }

    /// <summary>Eigenvalues and, as columns, eigenvectors of a symmetric matrix by cyclic Jacobi rotations.</summary>
    public static (double[] Values, double[,] Vectors) Eigen(double[,] symmetric)
    {
        int n = symmetric.GetLength(0);
        var a = (double[,])symmetric.Clone();
        var vectors = new double[n, n];
        for (int i = 0; i < n; i++) vectors[i, i] = 1;
        for (int sweep = 0; sweep < 60; sweep++)
        {
            double off = 0, diagonal = 0;
            for (int i = 0; i < n; i++)
            {
                diagonal += a[i, i] * a[i, i];
                for (int j = 0; j < i; j++) off += a[i, j] * a[i, j];
            }

            if (off <= 1e-32 * diagonal) break;
            for (int p = 0; p < n; p++)
                for (int q = p + 1; q < n; q++) Rotate(a, vectors, p, q);
        }

        var values = new double[n];
        for (int i = 0; i < n; i++) values[i] = a[i, i];
        return (values, vectors);
    }

    private static void Rotate(double[,] a, double[,] vectors, int p, int q)
    {
        if (a[p, q] == 0) return;
        int n = a.GetLength(0);
        double ratio = (a[q, q] - a[p, p]) / (2 * a[p, q]);
        double tangent = Math.CopySign(1, ratio) / (Math.Abs(ratio) + Math.Sqrt(ratio * ratio + 1));
        double cosine = 1 / Math.Sqrt(tangent * tangent + 1), sine = tangent * cosine;
        for (int k = 0; k < n; k++) (a[k, p], a[k, q]) = (cosine * a[k, p] - sine * a[k, q], sine * a[k, p] + cosine * a[k, q]);
        for (int k = 0; k < n; k++) (a[p, k], a[q, k]) = (cosine * a[p, k] - sine * a[q, k], sine * a[p, k] + cosine * a[q, k]);
        for (int k = 0; k < n; k++) (vectors[k, p], vectors[k, q]) = (cosine * vectors[k, p] - sine * vectors[k, q], sine * vectors[k, p] + cosine * vectors[k, q]);
    }
}
