namespace TastingKit.Statistics;

/// <summary>
/// A random term as the fit sees it: its effects in a basis whose columns are uncorrelated and of mean square one over the rows,
/// so that the units and the correlation of raw covariates do not bend the criterion's surface.
/// </summary>
internal sealed class RandomTermLayout
{
    private RandomTermLayout(RandomTerm term, string[] effectNames, double[][] columns, double[,] triangle)
    {
        Term = term;
        EffectNames = effectNames;
        Columns = columns;
        Triangle = triangle;
    }

    public RandomTerm Term { get; }

    /// <summary>The effects' names: "(Intercept)", a covariate's name, a factor's name followed by the level.</summary>
    public string[] EffectNames { get; }

    /// <summary>Number of effects a level.</summary>
    public int Width => EffectNames.Length;

    /// <summary>The columns of the fit's basis, square roots of the weights multiplied in.</summary>
    public double[][] Columns { get; }

    /// <summary>R with raw columns = basis columns × R; an effect in the basis is R times the raw effects.</summary>
    public double[,] Triangle { get; }

    /// <summary>Position of the term's first effect among those of its group.</summary>
    public int Offset { get; set; }

    /// <summary>Position of the term's first parameter.</summary>
    public int ParameterOffset { get; set; }

    /// <summary>Number of parameters of the relative covariance factor: all of a lower triangle by columns, or one.</summary>
    public int ParameterCount => HasCommonVariance ? 1 : Width * (Width + 1) / 2;

    public bool HasCommonVariance => Term.Covariance == RandomCovariance.CommonVariance;

    public static RandomTermLayout Of(RandomTerm term, int rowCount, double[]? rootWeights)
    {
        var names = new List<string>();
        var raw = new List<double[]>();
        if (term.HasIntercept)
        {
            names.Add("(Intercept)");
            var ones = new double[rowCount];
            Array.Fill(ones, 1.0);
            raw.Add(ones);
        }

        bool spanned = term.HasIntercept;
        foreach (Column slope in term.Slopes)
        {
            if (slope is NumericColumn numeric && numeric.Array.AsSpan().IndexOfAnyExcept(numeric.Array[0]) < 0)
                throw new ModelException($"The slope on '{slope.Name}' by '{term.Group.Name}' can't be estimated: '{slope.Name}' has one value in all {rowCount} rows, and a slope needs at least two.");
            var coded = new CodedColumn(slope, spanned, false);
            if (slope is CategoricalColumn) spanned = true;
            for (int index = 0; index < coded.Width; index++)
            {
                var column = new double[rowCount];
                Array.Fill(column, 1.0);
                coded.MultiplyInto(column, index);
                names.Add(coded.ColumnName(index));
                raw.Add(column);
            }
        }

        if (rootWeights is not null)
        {
            foreach (double[] column in raw)
                for (int row = 0; row < rowCount; row++) column[row] *= rootWeights[row];
        }

        return term.Covariance == RandomCovariance.CommonVariance
            ? Scaled(term, [.. names], raw, rowCount)
            : Orthogonalised(term, [.. names], raw, rowCount);
    }

    /// <summary>Writes the term's block of a relative covariance factor.</summary>
    public void Unpack(ReadOnlySpan<double> parameters, double[,] factor)
    {
        int next = ParameterOffset;
        for (int column = 0; column < Width; column++)
        {
            if (HasCommonVariance)
            {
                factor[Offset + column, Offset + column] = parameters[next];
                continue;
            }

            for (int row = column; row < Width; row++) factor[Offset + row, Offset + column] = parameters[next++];
        }
    }

    /// <summary>The covariance of the raw effects relative to the residual variance: R⁻¹ T Tᵀ R⁻ᵀ.</summary>
    public double[,] RelativeCovariance(double[,] groupFactor)
    {
        double[,] root = RawFactor(groupFactor);
        return SmallMatrix.TimesTransposed(root, root);
    }

    /// <summary>R⁻¹ T, the factor that takes independent standard effects to raw ones.</summary>
    public double[,] RawFactor(double[,] groupFactor)
    {
        var root = new double[Width, Width];
        for (int column = 0; column < Width; column++)
        {
            for (int row = Width - 1; row >= 0; row--)
            {
                double sum = row >= column ? groupFactor[Offset + row, Offset + column] : 0;
                for (int k = row + 1; k < Width; k++) sum -= Triangle[row, k] * root[k, column];
                root[row, column] = sum / Triangle[row, row];
            }
        }

        return root;
    }

    private static RandomTermLayout Scaled(RandomTerm term, string[] names, List<double[]> raw, int rowCount)
    {
        double squares = 0;
        foreach (double[] column in raw) squares += OrthonormalBasis.Dot(column, column);
        double scale = Math.Sqrt(squares / rowCount);
        if (!(scale > 0)) throw new ModelException($"The smooth '{names[0]}' by '{term.Group.Name}' is zero in every row.");
        var triangle = new double[names.Length, names.Length];
        for (int j = 0; j < names.Length; j++)
        {
            triangle[j, j] = scale;
            for (int row = 0; row < rowCount; row++) raw[j][row] /= scale;
        }

        return new RandomTermLayout(term, names, [.. raw], triangle);
    }

    private static RandomTermLayout Orthogonalised(RandomTerm term, string[] names, List<double[]> raw, int rowCount)
    {
        var basis = OrthonormalBasis.Of(raw);
        if (basis.Dropped.Length > 0)
            throw new ModelException($"The effects of '{term.Group.Name}' can't be told apart: '{names[basis.Dropped[0]]}' depends on {string.Join(", ", basis.Kept.Select(kept => $"'{names[kept]}'"))} in every row. Leave it out.");
        double root = Math.Sqrt(rowCount);
        var triangle = new double[names.Length, names.Length];
        for (int j = 0; j < names.Length; j++)
            for (int i = 0; i <= j; i++) triangle[i, j] = basis.Triangle[j][i] / root;
        foreach (double[] column in basis.Columns)
            for (int row = 0; row < rowCount; row++) column[row] *= root;
        return new RandomTermLayout(term, names, basis.Columns, triangle);
    }
}
