namespace TastingKit.Statistics;

/// <summary>Takes a function of raw coefficients and effects into the system's coordinates: independent standard effects and orthonormal fixed columns.</summary>
internal sealed class FunctionTranslator(MixedModelGeometry geometry)
{
    /// <summary>Weights in the system's coordinates, effects in the groups' order and the fixed part last. Coefficients of dropped columns are zero.</summary>
    /// <param name="function">A function of the fit's coefficients and effects.</param>
    /// <param name="factors">The groups' relative covariance factors.</param>
    public double[] Translate(LinearFunction function, double[][,] factors)
    {
        var weights = new double[geometry.EffectCount + geometry.Rank];
        int width = geometry.FixedDesign.Width;
        for (int i = 0; i < function.Indices.Length; i++)
        {
            if (function.Indices[i] >= width) weights[function.Indices[i] - width] += function.Weights[i];
        }

        for (int g = 0; g < geometry.Groups.Length; g++) ToStandardEffects(geometry.Groups[g], factors[g], weights);
        ToOrthonormal(FixedWeights(function), weights.AsSpan(geometry.EffectCount));
        return weights;
    }

    /// <summary>Checks that a function of the design's columns has one value whatever the coefficients of columns that depend on others.</summary>
    /// <exception cref="ModelException">It has not; the message names a column that the data can't tell from the others.</exception>
    public void CheckEstimable(LinearFunction function)
    {
        if (geometry.Fixed.Dropped.Length == 0) return;
        double[] fixedWeights = FixedWeights(function);
        var orthonormal = new double[geometry.Rank];
        ToOrthonormal(fixedWeights, orthonormal);
        CheckEstimable(fixedWeights, orthonormal);
    }

    private double[] FixedWeights(LinearFunction function)
    {
        var weights = new double[geometry.FixedDesign.Width];
        for (int i = 0; i < function.Indices.Length; i++)
        {
            if (function.Indices[i] < weights.Length) weights[function.Indices[i]] += function.Weights[i];
        }

        return weights;
    }

    private void ToOrthonormal(double[] fixedWeights, Span<double> orthonormal)
    {
        for (int j = 0; j < geometry.Rank; j++) orthonormal[j] = fixedWeights[geometry.Fixed.Kept[j]];
        geometry.Fixed.SolveTransposedTriangle(orthonormal);
    }

    // b = R⁻¹ T u, so weights m on b are Tᵀ R⁻ᵀ m on u.
    private static void ToStandardEffects(GroupLayout group, double[,] factor, double[] weights)
    {
        foreach (RandomTermLayout term in group.Terms)
        {
            double[,] root = term.RawFactor(factor);
            var own = new double[term.Width];
            for (int level = 0; level < group.LevelCount; level++)
            {
                Span<double> target = weights.AsSpan(group.EffectOffset + level * group.Width + term.Offset, term.Width);
                if (target.IndexOfAnyExcept(0.0) < 0) continue;
                target.CopyTo(own);
                target.Clear();
                for (int row = 0; row < term.Width; row++)
                    for (int column = 0; column < term.Width; column++) target[column] += own[row] * root[row, column];
            }
        }
    }

    // A dropped column equals a combination of the kept ones; a function is estimable when it treats it so.
    private void CheckEstimable(double[] fixedWeights, ReadOnlySpan<double> fixedPart)
    {
        for (int d = 0; d < geometry.Fixed.Dropped.Length; d++)
        {
            double implied = 0, size = Math.Abs(fixedWeights[geometry.Fixed.Dropped[d]]);
            double[] dependence = geometry.Fixed.Dependence[d];
            for (int i = 0; i < dependence.Length; i++)
            {
                implied += dependence[i] * fixedPart[i];
                size += Math.Abs(dependence[i] * fixedPart[i]);
            }

            if (Math.Abs(implied - fixedWeights[geometry.Fixed.Dropped[d]]) <= 1e-7 * size) continue;
            string name = geometry.FixedDesign.Names[geometry.Fixed.Dropped[d]];
            throw new ModelException($"The quantity asked for can't be estimated: it needs the coefficient '{name}', which the data can't tell from the others (no row, or a combination of other columns in every row).");
        }
    }
}
