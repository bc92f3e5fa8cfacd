using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Statistics.Tests.LinearModels;

/// <summary>
/// The textbook's linear mixed model by plain dense algebra of the marginal covariance, n × n: slow, short, and sharing no code with the engine.
/// </summary>
internal sealed class DenseMixedModel
{
    private readonly Vector<double> _y;
    private readonly Matrix<double> _x;
    private readonly Matrix<double> _noise;
    private readonly IReadOnlyList<DenseTerm> _terms;

    public DenseMixedModel(double[] response, double[][] fixedColumns, double[]? weights, IReadOnlyList<DenseTerm> terms)
    {
        _y = Vector<double>.Build.Dense(response);
        _x = Matrix<double>.Build.DenseOfColumnArrays(fixedColumns);
        _noise = Matrix<double>.Build.DenseOfDiagonalArray(weights is null ? Enumerable.Repeat(1.0, response.Length).ToArray() : Array.ConvertAll(weights, w => 1 / w));
        _terms = terms;
    }

    /// <summary>All figures at given covariance matrices of the terms and a residual variance.</summary>
    public DenseFigures At(IReadOnlyList<double[,]> covariances, double residual)
    {
        int n = _y.Count, p = _x.ColumnCount;
        var v = residual * _noise;
        var derivatives = new List<Matrix<double>> { _noise };
        for (int t = 0; t < _terms.Count; t++)
        {
            Matrix<double>[] z = _terms[t].Columns;
            for (int a = 0; a < z.Length; a++)
            {
                for (int b = 0; b <= a; b++)
                {
                    var product = z[a] * z[b].Transpose();
                    if (a != b) product += product.Transpose();
                    derivatives.Add(product);
                    v += covariances[t][a, b] * product;
                }
            }
        }

        var cholesky = v.Cholesky();
        var inverse = cholesky.Solve(Matrix<double>.Build.DenseIdentity(n));
        var weighted = inverse * _x;
        var information = _x.Transpose() * weighted;
        var covariance = information.Inverse();
        var coefficients = covariance * (weighted.Transpose() * _y);
        var rest = _y - _x * coefficients;
        var projected = inverse * rest;
        double quadratic = rest * projected;
        double constant = Math.Log(2 * Math.PI);
        var projection = inverse - weighted * covariance * weighted.Transpose();
        var modes = _terms.Select((term, t) => term.Modes(covariances[t], projected)).ToArray();
        return new DenseFigures(
            (n - p) * constant + cholesky.DeterminantLn + Math.Log(information.Determinant()) + quadratic,
            n * constant + cholesky.DeterminantLn + quadratic,
            coefficients, covariance, projection, modes, inverse, derivatives, weighted, projection * _y);
    }
}

/// <summary>A random term: for each of its effects the n × levels matrix that multiplies it.</summary>
internal sealed record DenseTerm(Matrix<double>[] Columns)
{
    public static DenseTerm Of(int[] codes, int levels, params double[][] effects)
        => new([.. effects.Select(effect => Matrix<double>.Build.Dense(codes.Length, levels, (row, level) => codes[row] == level ? effect[row] : 0))]);

    /// <summary>Conditional modes, levels × effects.</summary>
    public double[,] Modes(double[,] covariance, Vector<double> projected)
    {
        var modes = new double[Columns[0].ColumnCount, Columns.Length];
        for (int b = 0; b < Columns.Length; b++)
        {
            var toEffect = Columns[b].TransposeThisAndMultiply(projected);
            for (int level = 0; level < modes.GetLength(0); level++)
                for (int a = 0; a < Columns.Length; a++) modes[level, a] += covariance[a, b] * toEffect[level];
        }

        return modes;
    }
}

internal sealed record DenseFigures(double Restricted, double Full, Vector<double> Coefficients, Matrix<double> Covariance, Matrix<double> Projection,
    double[][,] Modes, Matrix<double> Inverse, IReadOnlyList<Matrix<double>> Derivatives, Matrix<double> Weighted, Vector<double> Projected)
{
    /// <summary>Satterthwaite's degrees of freedom of each coefficient from the observed information in variances and covariances.</summary>
    public double[] DegreesOfFreedom()
    {
        int q = Derivatives.Count;
        var products = Derivatives.Select(d => Projection * d).ToArray();
        var scores = Derivatives.Select(d => d * Projected).ToArray();
        var information = Matrix<double>.Build.Dense(q, q, (i, j) =>
            -products[i].PointwiseMultiply(products[j].Transpose()).RowSums().Sum() + 2 * (scores[i] * (Projection * scores[j])));
        var spread = 2 * information.Inverse();
        var gradients = Derivatives.Select(d => Covariance * (Weighted.Transpose() * d * Weighted) * Covariance).ToArray();
        return [.. Enumerable.Range(0, Coefficients.Count).Select(j =>
        {
            var gradient = Vector<double>.Build.Dense(q, i => gradients[i][j, j]);
            return 2 * Covariance[j, j] * Covariance[j, j] / (gradient * spread * gradient);
        })];
    }
}
