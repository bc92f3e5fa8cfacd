namespace TastingKit.Statistics;

/// <summary>
/// A random term as the fit sees it: its effects in a basis whose columns are uncorrelated and of mean square one over the rows,
/// so that the units and the correlation of raw covariates do not bend the criterion's surface.
/// </summary>
internal sealed class RandomTermLayout
{
    private readonly Nesting? _nesting;
    private GroupLayout? _owner;

    private RandomTermLayout(RandomTerm term, string[] effectNames, double[][] columns, double[,] triangle, Nesting? nesting = null)
    {
        Term = term;
        EffectNames = effectNames;
        Columns = columns;
        Triangle = triangle;
        _nesting = nesting;
    }

    public RandomTerm Term { get; }

    /// <summary>The effects' names: "(Intercept)", a covariate's name, a factor's name followed by the level.</summary>
    public string[] EffectNames { get; }

    /// <summary>Number of effects that stand together at a level of <see cref="GroupLayout.Group"/>: for a term of a nested factor the most of its levels that one outer level holds.</summary>
    public int Width => Columns.Length;

    /// <summary>Number of levels of the term's own factor.</summary>
    public int LevelCount => Term.Group.Levels.Count;

    /// <summary>The group that the term's effects are eliminated with.</summary>
    public GroupLayout Owner => _owner!;

    /// <summary>The columns of the fit's basis, square roots of the weights multiplied in.</summary>
    public double[][] Columns { get; }

    /// <summary>R with raw columns = basis columns × R; an effect in the basis is R times the raw effects.</summary>
    public double[,] Triangle { get; }

    /// <summary>Position of the term's first effect among those of its group.</summary>
    public int Offset { get; private set; }

    /// <summary>Position of the term's first parameter.</summary>
    public int ParameterOffset { get; set; }

    /// <summary>Number of parameters of the relative covariance factor: all of a lower triangle by columns, or one.</summary>
    public int ParameterCount => HasCommonVariance ? 1 : Width * (Width + 1) / 2;

    /// <summary>Whether the effects that stand together have one variance and no correlation: the coefficients of a penalised curve, or the intercepts of nested levels.</summary>
    public bool HasCommonVariance => Term.Covariance == RandomCovariance.CommonVariance || _nesting is not null;

    /// <summary>Position among all effects of one effect of a level of the term's own factor.</summary>
    /// <param name="level">The level's code.</param>
    /// <param name="effect">The effect's place in <see cref="EffectNames"/>.</param>
    public int EffectIndex(int level, int effect) => _nesting is null
        ? Owner.EffectOffset + level * Owner.Width + Offset + effect
        : Owner.EffectOffset + _nesting.OuterLevels[level] * Owner.Width + Offset + _nesting.Places[level];

    /// <summary>The level of <see cref="GroupLayout.Group"/> that an effect stands at, and its place there.</summary>
    public (int Level, int Place) PlaceOf(int level, int effect) => _nesting is null ? (level, Offset + effect) : (_nesting.OuterLevels[level], Offset + _nesting.Places[level]);

    /// <summary>Puts the term's effects behind the others of a group.</summary>
    public void Join(GroupLayout owner, int offset) => (_owner, Offset) = (owner, offset);

    /// <summary>The layout of a nested factor's intercepts: one column for each place within an outer level.</summary>
    /// <param name="term">A term with nothing but an intercept.</param>
    /// <param name="nesting">Where its levels stand.</param>
    /// <param name="rowCount">Number of rows.</param>
    /// <param name="rootWeights">Square roots of the rows' weights, or null.</param>
    public static RandomTermLayout OfNested(RandomTerm term, Nesting nesting, int rowCount, double[]? rootWeights)
    {
        var columns = new double[nesting.Width][];
        for (int place = 0; place < columns.Length; place++) columns[place] = new double[rowCount];
        for (int row = 0; row < rowCount; row++) columns[nesting.Places[term.Group.CodeArray[row]]][row] = rootWeights?[row] ?? 1;
        return Scaled(term, [RandomTerm.Intercept], [.. columns], rowCount, nesting);
    }

    public static RandomTermLayout Of(RandomTerm term, int rowCount, double[]? rootWeights)
    {
        var names = new List<string>();
        var raw = new List<double[]>();
        if (term.HasIntercept)
        {
            names.Add(RandomTerm.Intercept);
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

    private static RandomTermLayout Scaled(RandomTerm term, string[] names, List<double[]> raw, int rowCount, Nesting? nesting = null)
    {
        double squares = 0;
        foreach (double[] column in raw) squares += OrthonormalBasis.Dot(column, column);
        double scale = Math.Sqrt(squares / rowCount);
        if (!(scale > 0)) throw new ModelException($"The smooth '{names[0]}' by '{term.Group.Name}' is zero in every row.");
        var triangle = new double[raw.Count, raw.Count];
        for (int j = 0; j < raw.Count; j++)
        {
            triangle[j, j] = scale;
            for (int row = 0; row < rowCount; row++) raw[j][row] /= scale;
        }

        return new RandomTermLayout(term, names, [.. raw], triangle, nesting);
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
