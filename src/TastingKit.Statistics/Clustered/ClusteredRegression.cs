using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Statistics;

/// <summary>A linear function of least-squares coefficients with a standard error that allows for clusters.</summary>
/// <param name="Value">The estimate.</param>
/// <param name="StandardError">Its standard error by the CR2 estimator.</param>
/// <param name="DegreesOfFreedom">Satterthwaite degrees of freedom of Bell and McCaffrey.</param>
/// <param name="Low">Lower bound of the 95 % interval.</param>
/// <param name="High">Upper bound of the 95 % interval.</param>
public sealed record ClusteredEstimate(double Value, double StandardError, double DegreesOfFreedom, double Low, double High);

/// <summary>
/// Least squares whose standard errors allow observations of one cluster to go together, whatever the way they do:
/// the bias-reduced CR2 estimator and degrees of freedom of Bell and McCaffrey (2002, Survey Methodology 28:169–181),
/// in the form of Pustejovsky and Tipton (2018, Journal of Business and Economic Statistics 36:672–683) with a working model
/// of independence. Made for few columns: cost grows with the cube of the largest cluster.
/// </summary>
public sealed class ClusteredRegression
{
    private readonly Matrix<double> _bread;
    private readonly Vector<double> _coefficients;
    private readonly Matrix<double>[] _adjustedDesign;
    private readonly Vector<double>[] _adjustedScore;
    private readonly Matrix<double>[] _designCross;

    private ClusteredRegression(
        Matrix<double> bread, Vector<double> coefficients, Matrix<double>[] adjustedDesign, Vector<double>[] adjustedScore, Matrix<double>[] designCross)
    {
        _bread = bread;
        _coefficients = coefficients;
        _adjustedDesign = adjustedDesign;
        _adjustedScore = adjustedScore;
        _designCross = designCross;
    }

    /// <summary>Least-squares coefficients, one a column.</summary>
    public IReadOnlyList<double> Coefficients => _coefficients.AsArray();

    /// <summary>Fits.</summary>
    /// <param name="response">One finite value an observation.</param>
    /// <param name="columns">The design's columns, each as long as the response, linearly independent.</param>
    /// <param name="clusters">The cluster of each observation, as any integers.</param>
    /// <exception cref="ArgumentException">
    /// Lengths differ, a value is not finite, there are fewer than two clusters, or the columns are linearly dependent.
    /// </exception>
    public static ClusteredRegression Fit(IReadOnlyList<double> response, IReadOnlyList<double[]> columns, IReadOnlyList<int> clusters)
    {
        ArgumentNullException.ThrowIfNull(response);
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(clusters);
        var n = response.Count;
        if (clusters.Count != n || columns.Any(column => column.Length != n))
            throw new ArgumentException($"The response has {n} values; every column and the clusters need as many.", nameof(columns));
        if (response.Any(v => !double.IsFinite(v)) || columns.Any(column => column.Any(v => !double.IsFinite(v))))
            throw new ArgumentException("Every value must be finite: leave missing ones out first.", nameof(response));
        var rowsByCluster = Enumerable.Range(0, n).GroupBy(i => clusters[i]).OrderBy(g => g.Key).Select(g => g.ToArray()).ToArray();
        if (rowsByCluster.Length < 2)
            throw new ArgumentException($"Standard errors by cluster need at least two clusters; found {rowsByCluster.Length}.", nameof(clusters));

        var design = Matrix<double>.Build.DenseOfColumnArrays(columns);
        var y = Vector<double>.Build.DenseOfEnumerable(response);
        var gram = design.TransposeThisAndMultiply(design);
        if (design.Rank() < columns.Count)
            throw new ArgumentException($"The {columns.Count} columns are linearly dependent: their rank is {design.Rank()}.", nameof(columns));
        var bread = gram.Inverse();
        var coefficients = bread * design.TransposeThisAndMultiply(y);
        var residuals = y - (design * coefficients);

        var count = rowsByCluster.Length;
        var adjustedDesign = new Matrix<double>[count];
        var adjustedScore = new Vector<double>[count];
        var designCross = new Matrix<double>[count];
        for (var g = 0; g < count; g++)
        {
            var rows = rowsByCluster[g];
            var x = Matrix<double>.Build.Dense(rows.Length, columns.Count, (i, c) => columns[c][rows[i]]);
            var e = Vector<double>.Build.Dense(rows.Length, i => residuals[rows[i]]);
            var adjustment = InverseSquareRootOfComplement(x * bread * x.Transpose());
            adjustedDesign[g] = adjustment * x;
            adjustedScore[g] = x.TransposeThisAndMultiply(adjustment * e);
            designCross[g] = x.TransposeThisAndMultiply(adjustedDesign[g]);
        }

        return new ClusteredRegression(bread, coefficients, adjustedDesign, adjustedScore, designCross);
    }

    /// <summary>Estimates the sum of weights times coefficients.</summary>
    /// <param name="weights">One weight a coefficient.</param>
    /// <exception cref="ArgumentException">Another number of weights than of coefficients.</exception>
    public ClusteredEstimate Estimate(params double[] weights)
    {
        ArgumentNullException.ThrowIfNull(weights);
        if (weights.Length != _coefficients.Count)
            throw new ArgumentException($"There are {_coefficients.Count} coefficients; found {weights.Length} weights.", nameof(weights));
        var direction = _bread * Vector<double>.Build.DenseOfArray(weights);
        var value = _coefficients.DotProduct(Vector<double>.Build.DenseOfArray(weights));
        var variance = _adjustedScore.Sum(score => Math.Pow(score.DotProduct(direction), 2));

        // M = P'P of the quadratic form; its two traces give the degrees of freedom.
        var count = _adjustedDesign.Length;
        var spans = _designCross.Select(cross => cross * direction).ToArray();
        var leverages = spans.Select(span => _bread * span).ToArray();
        double trace = 0, traceOfSquare = 0;
        for (var g = 0; g < count; g++)
        {
            for (var h = 0; h < count; h++)
            {
                var own = g == h ? Math.Pow((_adjustedDesign[g] * direction).L2Norm(), 2) : 0;
                var element = own - spans[g].DotProduct(leverages[h]);
                if (g == h)
                    trace += element;
                traceOfSquare += element * element;
            }
        }

        var degreesOfFreedom = trace * trace / traceOfSquare;
        var standardError = Math.Sqrt(variance);
        var reach = StudentsT.TwoSidedQuantile(0.05, degreesOfFreedom) * standardError;
        return new ClusteredEstimate(value, standardError, degreesOfFreedom, value - reach, value + reach);
    }

    /// <summary>The mean of clustered observations.</summary>
    /// <inheritdoc cref="Fit"/>
    public static ClusteredEstimate Mean(IReadOnlyList<double> response, IReadOnlyList<int> clusters)
    {
        ArgumentNullException.ThrowIfNull(response);
        return Fit(response, [[.. Enumerable.Repeat(1.0, response.Count)]], clusters).Estimate(1);
    }

    // (I − H)^(−1/2) of one cluster by its eigenvalues; a direction that the cluster determines alone (eigenvalue 0) is left out.
    private static Matrix<double> InverseSquareRootOfComplement(Matrix<double> hat)
    {
        var complement = Matrix<double>.Build.DenseIdentity(hat.RowCount) - ((hat + hat.Transpose()) / 2);
        var eigen = complement.Evd(Symmetricity.Symmetric);
        var roots = eigen.EigenValues.Real().Map(value => value > 1e-9 ? 1 / Math.Sqrt(value) : 0);
        return eigen.EigenVectors * Matrix<double>.Build.DiagonalOfDiagonalVector(roots) * eigen.EigenVectors.Transpose();
    }
}
