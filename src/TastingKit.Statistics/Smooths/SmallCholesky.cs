namespace TastingKit.Statistics;

/// <summary>The Cholesky factor of a small positive definite matrix.</summary>
internal sealed class SmallCholesky
{
    private SmallCholesky(double[,] lower) => Lower = lower;

    /// <summary>L with L L′ the matrix; zero above the diagonal.</summary>
    public double[,] Lower { get; }

    /// <summary>Factors a symmetric matrix, reading its lower triangle.</summary>
    /// <exception cref="ArgumentException">The matrix is not positive definite.</exception>
    public static SmallCholesky Factor(double[,] matrix) => TryFactor(matrix)
        ?? throw new ArgumentException("The matrix is not positive definite.", nameof(matrix));

    /// <summary>Factors a symmetric matrix, or gives null if it is not positive definite.</summary>
    public static SmallCholesky? TryFactor(double[,] matrix)
    {
        int n = matrix.GetLength(0);
        var lower = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = matrix[i, j];
                for (int k = 0; k < j; k++)
                {
                    sum -= lower[i, k] * lower[j, k];
                }

                if (i != j)
                {
                    lower[i, j] = sum / lower[j, j];
                }
                else if (sum > 0.0 && double.IsFinite(sum))
                {
                    lower[i, i] = Math.Sqrt(sum);
                }
                else
                {
                    return null;
                }
            }
        }

        return new SmallCholesky(lower);
    }

    /// <summary>The solution X of L L′ X = <paramref name="right"/>, one column a right-hand side.</summary>
    public double[,] Solve(double[,] right)
    {
        int n = Lower.GetLength(0);
        int columns = right.GetLength(1);
        var x = (double[,])right.Clone();
        for (int c = 0; c < columns; c++)
        {
            for (int i = 0; i < n; i++)
            {
                for (int k = 0; k < i; k++)
                {
                    x[i, c] -= Lower[i, k] * x[k, c];
                }

                x[i, c] /= Lower[i, i];
            }

            for (int i = n - 1; i >= 0; i--)
            {
                for (int k = i + 1; k < n; k++)
                {
                    x[i, c] -= Lower[k, i] * x[k, c];
                }

                x[i, c] /= Lower[i, i];
            }
        }

        return x;
    }

    /// <summary>The solution of L L′ x = <paramref name="right"/>.</summary>
    public double[] Solve(double[] right)
    {
        var column = new double[right.Length, 1];
        for (int i = 0; i < right.Length; i++)
        {
            column[i, 0] = right[i];
        }

        double[,] solved = Solve(column);
        var x = new double[right.Length];
        for (int i = 0; i < right.Length; i++)
        {
            x[i] = solved[i, 0];
        }

        return x;
    }

    /// <summary>The inverse of the factored matrix.</summary>
    public double[,] Inverse()
    {
        int n = Lower.GetLength(0);
        var identity = new double[n, n];
        for (int i = 0; i < n; i++)
        {
            identity[i, i] = 1.0;
        }

        return Solve(identity);
    }
}
