namespace TastingKit.Statistics;

/// <summary>
/// Entries of the relative covariance factors in a canonical form: diagonals not negative, and a column whose diagonal falls under
/// <see cref="Floor"/> taken out and its entries held.
/// </summary>
/// <remarks>
/// The criterion is even in each column of a factor, so a bound at zero needs no bound: a step across it is reflected. A column at zero is
/// represented by the floor while derivatives are taken, which moves the criterion by its slope times 1e-8, and by exactly zero in the fit.
/// </remarks>
internal sealed class VarianceParameters
{
    /// <summary>A standard deviation of an effect in the fit's basis, relative to the residual's, under which it counts as zero.</summary>
    public const double Floor = 1e-4;

    // A held zero stands at the floor itself, so that what counts as zero reaches a little further.
    private const double ZeroUpTo = 1.5 * Floor;

    private readonly MixedModelGeometry _geometry;

    private VarianceParameters(MixedModelGeometry geometry, double[] values)
    {
        _geometry = geometry;
        Values = values;
        IsZero = new bool[values.Length];
    }

    /// <summary>The entries, zero columns represented by the floor.</summary>
    public double[] Values { get; }

    /// <summary>Whether an entry belongs to a column that is zero.</summary>
    public bool[] IsZero { get; }

    public bool IsSingular => Array.IndexOf(IsZero, true) >= 0;

    public int[] Free => [.. Enumerable.Range(0, Values.Length).Where(i => !IsZero[i])];

    /// <summary>The entries with exact zeros.</summary>
    public double[] Exact()
    {
        var exact = (double[])Values.Clone();
        for (int i = 0; i < exact.Length; i++)
        {
            if (IsZero[i]) exact[i] = 0;
        }

        return exact;
    }

    /// <summary>A multiple of the identity in every term.</summary>
    public static VarianceParameters Identity(MixedModelGeometry geometry, double scale)
    {
        var values = new double[geometry.ParameterCount];
        foreach (RandomTermLayout term in geometry.Groups.SelectMany(group => group.Terms))
        {
            for (int i = 0; i < term.ParameterCount; i++)
            {
                var (row, column) = DevianceDerivatives.EntryOf(i, term.HasCommonVariance ? 1 : term.Width);
                values[term.ParameterOffset + i] = row == column ? scale : 0;
            }
        }

        return Canonical(geometry, values);
    }

    /// <summary>Brings entries into canonical form.</summary>
    public static VarianceParameters Canonical(MixedModelGeometry geometry, ReadOnlySpan<double> values)
    {
        var parameters = new VarianceParameters(geometry, values.ToArray());
        foreach (GroupLayout group in geometry.Groups)
            foreach (RandomTermLayout term in group.Terms) parameters.Canonicalise(term);
        return parameters;
    }

    /// <summary>The same with every column of nothing but small entries at zero; null when there is no such column.</summary>
    public VarianceParameters? WithoutSmallColumns()
    {
        const double small = 20 * Floor;
        double[] cleaned = Exact();
        bool any = false;
        foreach (RandomTermLayout term in _geometry.Groups.SelectMany(group => group.Terms))
        {
            int next = term.ParameterOffset, width = term.HasCommonVariance ? 1 : term.Width;
            for (int column = 0; column < width; column++)
            {
                Span<double> entries = cleaned.AsSpan(next, width - column);
                next += width - column;
                double largest = 0;
                foreach (double entry in entries) largest = Math.Max(largest, Math.Abs(entry));
                if (largest is 0 or > small) continue;
                entries.Clear();
                any = true;
            }
        }

        return any ? Canonical(_geometry, cleaned) : null;
    }

    /// <summary>Raises the zero column along which the criterion falls fastest, if there is one.</summary>
    /// <param name="derivatives">Derivatives at these parameters.</param>
    /// <param name="amount">The new standard deviation in that direction.</param>
    public VarianceParameters? Raised(DevianceDerivatives derivatives, double amount)
    {
        const double steep = -1e-5;
        double steepest = steep;
        double[]? raised = null;
        for (int g = 0; g < _geometry.Groups.Length; g++)
        {
            foreach (RandomTermLayout term in _geometry.Groups[g].Terms)
            {
                if (!IsZero.AsSpan(term.ParameterOffset, term.ParameterCount).Contains(true)) continue;
                double[,] score = derivatives.Score(term, g);
                if (term.HasCommonVariance)
                {
                    double trace = 0;
                    for (int i = 0; i < term.Width; i++) trace += score[i, i];
                    if (trace >= steepest) continue;
                    steepest = trace;
                    raised = Exact();
                    raised[term.ParameterOffset] = amount;
                    continue;
                }

                var (slope, direction) = Steepest(score);
                if (slope >= steepest) continue;
                steepest = slope;
                raised = Exact();
                AddDirection(term, raised, direction, amount);
            }
        }

        return raised is null ? null : Canonical(_geometry, raised);
    }

    private void Canonicalise(RandomTermLayout term)
    {
        Span<double> own = Values.AsSpan(term.ParameterOffset, term.ParameterCount);
        Span<bool> zero = IsZero.AsSpan(term.ParameterOffset, term.ParameterCount);
        if (own.Length == 1)
        {
            own[0] = Math.Abs(own[0]);
            if (own[0] > ZeroUpTo) return;
            own[0] = Floor;
            zero[0] = true;
            return;
        }

        double[,] factor = Unpacked(term, own);
        bool anyZero = false;
        for (int column = 0; column < term.Width; column++)
        {
            anyZero |= Math.Abs(factor[column, column]) <= ZeroUpTo;
            if (factor[column, column] >= 0) continue;
            for (int row = column; row < term.Width; row++) factor[row, column] = -factor[row, column];
        }

        if (anyZero) factor = FlooredFactor(SmallMatrix.TimesTransposed(factor, factor));
        int next = 0;
        for (int column = 0; column < term.Width; column++)
        {
            bool isZero = factor[column, column] <= ZeroUpTo;
            for (int row = column; row < term.Width; row++)
            {
                zero[next] = isZero;
                own[next++] = isZero ? (row == column ? Floor : 0) : factor[row, column];
            }
        }
    }

    // As the Cholesky factor, with columns of zeros for pivots under the square of the floor.
    private static double[,] FlooredFactor(double[,] covariance)
    {
        int width = covariance.GetLength(0);
        var factor = new double[width, width];
        for (int j = 0; j < width; j++)
        {
            double pivot = covariance[j, j];
            for (int k = 0; k < j; k++) pivot -= factor[j, k] * factor[j, k];
            if (!(pivot > ZeroUpTo * ZeroUpTo)) continue;
            factor[j, j] = Math.Sqrt(pivot);
            for (int i = j + 1; i < width; i++)
            {
                double sum = covariance[i, j];
                for (int k = 0; k < j; k++) sum -= factor[i, k] * factor[j, k];
                factor[i, j] = sum / factor[j, j];
            }
        }

        return factor;
    }

    // At a minimum the score is positive semidefinite as a whole: besides its part on the null space, the part between null space and range must vanish.
    private static (double Slope, double[] Direction) Steepest(double[,] score)
    {
        var (slopes, directions) = SmallMatrix.Eigen(score);
        int steepest = Array.IndexOf(slopes, slopes.Min());
        var direction = new double[slopes.Length];
        for (int i = 0; i < direction.Length; i++) direction[i] = directions[i, steepest];
        return (slopes[steepest], direction);
    }

    private static void AddDirection(RandomTermLayout term, double[] values, double[] direction, double amount)
    {
        Span<double> own = values.AsSpan(term.ParameterOffset, term.ParameterCount);
        double[,] factor = Unpacked(term, own);
        double[,] covariance = SmallMatrix.TimesTransposed(factor, factor);
        for (int i = 0; i < term.Width; i++)
            for (int j = 0; j < term.Width; j++) covariance[i, j] += amount * amount * direction[i] * direction[j];
        factor = SmallMatrix.SemidefiniteFactor(covariance);
        int next = 0;
        for (int column = 0; column < term.Width; column++)
            for (int row = column; row < term.Width; row++) own[next++] = factor[row, column];
    }

    private static double[,] Unpacked(RandomTermLayout term, ReadOnlySpan<double> own)
    {
        var factor = new double[term.Width, term.Width];
        int next = 0;
        for (int column = 0; column < term.Width; column++)
            for (int row = column; row < term.Width; row++) factor[row, column] = own[next++];
        return factor;
    }
}
