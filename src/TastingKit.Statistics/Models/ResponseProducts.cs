namespace TastingKit.Statistics;

/// <summary>A response freed of the fixed columns and scaled to a standard deviation of one, with its cross-products in the order of elimination.</summary>
/// <remarks>What ordinary least squares explains is taken out first: the criterion only changes by a constant, and a response with a large mean loses no digits.</remarks>
internal sealed class ResponseProducts
{
    public ResponseProducts(MixedModelGeometry geometry, ReadOnlySpan<double> response)
    {
        double[] remainder = response.ToArray();
        if (geometry.RootWeights is { } rootWeights)
        {
            for (int row = 0; row < remainder.Length; row++) remainder[row] *= rootWeights[row];
        }

        double total = OrthonormalBasis.Dot(remainder, remainder);
        LeastSquares = new double[geometry.Rank];
        for (int pass = 0; pass < 2; pass++)
        {
            for (int j = 0; j < geometry.Rank; j++)
            {
                double weight = OrthonormalBasis.Dot(geometry.Fixed.Columns[j], remainder);
                LeastSquares[j] += weight;
                for (int row = 0; row < remainder.Length; row++) remainder[row] -= weight * geometry.Fixed.Columns[j][row];
            }
        }

        double squares = OrthonormalBasis.Dot(remainder, remainder);
        int degreesOfFreedom = geometry.RowCount - geometry.Rank;
        // Below this share nothing but rounding is left.
        IsExact = degreesOfFreedom <= 0 || !(squares > 1e-24 * total);
        if (IsExact) return;
        Scale = Math.Sqrt(squares / degreesOfFreedom);
        for (int row = 0; row < remainder.Length; row++) remainder[row] /= Scale;
        Remainder = remainder;
        SumOfSquares = OrthonormalBasis.Dot(remainder, remainder);
        Lead = new double[geometry.LeadEffects];
        Rest = new double[geometry.RestOrder];
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            GroupLayout group = geometry.Groups[g];
            Span<double> target = g == 0 ? Lead : Rest.AsSpan(group.EffectOffset - geometry.LeadEffects, group.EffectCount);
            for (int row = 0; row < remainder.Length; row++)
            {
                int first = group.Codes[row] * group.Width;
                for (int effect = 0; effect < group.Width; effect++) target[first + effect] += group.Rows[row * group.Width + effect] * remainder[row];
            }
        }
    }

    /// <summary>Whether the fixed part fits the response exactly, so that there is nothing to estimate a variance from.</summary>
    public bool IsExact { get; }

    /// <summary>Least-squares coefficients of the orthonormal fixed columns, in the response's unit.</summary>
    public double[] LeastSquares { get; }

    /// <summary>What one unit of the scaled response is in the response's unit.</summary>
    public double Scale { get; }

    /// <summary>The weighted scaled response without what the fixed columns explain.</summary>
    public double[] Remainder { get; } = [];

    public double SumOfSquares { get; }

    /// <summary>Cross-products with the leading group's columns.</summary>
    public double[] Lead { get; } = [];

    /// <summary>Cross-products with the rest; zero for the fixed columns by construction.</summary>
    public double[] Rest { get; } = [];
}
