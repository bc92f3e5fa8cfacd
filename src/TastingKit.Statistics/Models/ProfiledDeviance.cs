namespace TastingKit.Statistics;

/// <summary>
/// The criterion of a linear mixed model as a function of its relative covariance factors alone, fixed effects and residual
/// variance profiled out (Bates, Mächler, Bolker and Walker 2015), with the Cholesky factor behind it. One instance is a workspace for one thread.
/// </summary>
/// <remarks>
/// The system is [ΛᵀZᵀZΛ + I, ΛᵀZᵀQ; QᵀZΛ, I] for independent standard effects u and the orthonormal fixed columns Q. The leading group's
/// block is eliminated level by level; what is left is dense and factored together with the response as its last row.
/// Numbers are in the unit of the scaled response (<see cref="ResponseProducts"/>).
/// </remarks>
internal sealed class ProfiledDeviance
{
    private readonly double[][,] _factors;
    private readonly double[] _crossWork;
    private readonly double[] _leadRight;
    private readonly double[] _levelCross;
    private readonly double[] _levelSums;

    public ProfiledDeviance(MixedModelGeometry geometry, EstimationCriterion criterion, int threads)
    {
        Geometry = geometry;
        Criterion = criterion;
        Threads = threads;
        _factors = Array.ConvertAll(geometry.Groups, group => new double[group.Width, group.Width]);
        int width = geometry.Lead?.Width ?? 0;
        LeadFactors = new double[geometry.LeadProducts.Length];
        Cross = new double[geometry.CrossValues.Length];
        _crossWork = new double[Math.Max(1, MaximumWidth() * Math.Max(1, width))];
        _leadRight = new double[geometry.LeadEffects];
        int entries = 1;
        for (int level = 0; level + 1 < geometry.CrossStart.Length; level++) entries = Math.Max(entries, geometry.CrossStart[level + 1] - geometry.CrossStart[level]);
        _levelSums = new double[entries];
        _levelCross = new double[entries * Math.Max(1, width)];
        Dense = new BlockedCholesky(geometry.RestOrder + 1);
        DegreesOfFreedom = criterion == EstimationCriterion.Restricted ? geometry.RowCount - geometry.Rank : geometry.RowCount;
    }

    public MixedModelGeometry Geometry { get; }

    public EstimationCriterion Criterion { get; }

    public int Threads { get; }

    /// <summary>What the sum of squares is divided by: rows less fixed effects under the restricted likelihood, rows otherwise.</summary>
    public int DegreesOfFreedom { get; }

    /// <summary>Factor of the dense rest, its last row belonging to the response.</summary>
    public BlockedCholesky Dense { get; }

    /// <summary>Level by level the lower factor of the leading group's diagonal block.</summary>
    public double[] LeadFactors { get; }

    /// <summary>Entry by entry the factor's rows between the rest and the leading group.</summary>
    public double[] Cross { get; }

    /// <summary>The leading part of the factored response.</summary>
    public double[] LeadRight => _leadRight;

    /// <summary>Relative covariance factor of each group, block-diagonal over its terms.</summary>
    public double[][,] Factors => _factors;

    /// <summary>Logarithm of the determinant that the criterion holds: of the effects' system, and under the restricted likelihood of the fixed part as well.</summary>
    public double LogDeterminant { get; private set; }

    /// <summary>Penalised residual sum of squares of the scaled response.</summary>
    public double ResidualSum { get; private set; }

    /// <summary>The criterion up to <see cref="Constant"/>.</summary>
    public double Value => LogDeterminant + DegreesOfFreedom * PortableMath.Log(ResidualSum);

    /// <summary>What turns <see cref="Value"/> into −2 log-likelihood of the response in its own unit and the fixed columns in theirs.</summary>
    public double Constant(ResponseProducts response)
    {
        double constant = DegreesOfFreedom * (1 + PortableMath.Log(2 * Math.PI / DegreesOfFreedom) + 2 * PortableMath.Log(response.Scale)) - Geometry.LogWeights;
        return Criterion == EstimationCriterion.Restricted ? constant + 2 * Geometry.Fixed.LogDeterminant() : constant;
    }

    /// <summary>Factors the system at the given parameters.</summary>
    /// <returns>The criterion, or positive infinity where the system is not positive definite to rounding.</returns>
    public unsafe double Evaluate(ReadOnlySpan<double> parameters, ResponseProducts response)
    {
        for (int g = 0; g < _factors.Length; g++)
            foreach (RandomTermLayout term in Geometry.Groups[g].Terms) term.Unpack(parameters, _factors[g]);
        int rest = Geometry.RestOrder;
        FillDense();
        double* last = Dense.Lower.Row(rest);
        for (int j = 0; j < rest; j++) last[j] = response.Rest[j];
        ScaleRestRow(last);
        var determinant = LogProduct.One;
        double explained = EliminateLead(response, last, ref determinant);
        // The response's own pivot only has to stay positive: its square is taken from the sums below, without cancellation against a guess.
        last[rest] = 2 * response.SumOfSquares + 1;
        if (!Dense.Factor(Threads)) return double.PositiveInfinity;
        int counted = Criterion == EstimationCriterion.Restricted ? rest : Geometry.RandomRest;
        for (int j = 0; j < counted; j++) determinant.Multiply(Dense.Lower.Row(j)[j]);
        last = Dense.Lower.Row(rest);
        for (int j = 0; j < rest; j++) explained += last[j] * last[j];
        GC.KeepAlive(this);
        LogDeterminant = 2 * determinant.Logarithm;
        ResidualSum = response.SumOfSquares - explained;
        return ResidualSum > 0 ? Value : double.PositiveInfinity;
    }

    /// <summary>Standard effects and coefficients of the orthonormal fixed columns at the factored parameters; effects in the groups' order, coefficients last.</summary>
    public unsafe void Solve(Span<double> solution)
    {
        int rest = Geometry.RestOrder;
        Span<double> restPart = solution.Slice(Geometry.LeadEffects, rest);
        new ReadOnlySpan<double>(Dense.Lower.Row(rest), rest).CopyTo(restPart);
        GC.KeepAlive(this);
        _leadRight.CopyTo(solution);
        SolveTransposed(solution, rest);
    }

    /// <summary>Solves the whole system L Lᵀ x = b in place, b in the groups' order with the fixed part last.</summary>
    public void SolveSystem(Span<double> x)
    {
        SolveForward(x, Geometry.RestOrder);
        SolveTransposed(x, Geometry.RestOrder);
    }

    /// <summary>Solves the effects' system alone, the fixed part being held: b in the groups' order without the fixed part.</summary>
    public void SolveEffects(Span<double> x)
    {
        SolveForward(x, Geometry.RandomRest);
        SolveTransposed(x, Geometry.RandomRest);
    }

    /// <summary>Solves L x = b in place over the leading group and the first of the rest.</summary>
    public void SolveForward(Span<double> x, int restOrder)
    {
        Span<double> rest = x.Slice(Geometry.LeadEffects, restOrder);
        if (Geometry.Lead is { } lead)
        {
            int width = lead.Width;
            for (int level = 0; level < lead.LevelCount; level++)
            {
                Span<double> own = x.Slice(level * width, width);
                if (own.IndexOfAnyExcept(0.0) < 0) continue;
                ReadOnlySpan<double> factor = LeadFactors.AsSpan(level * width * width, width * width);
                SolveLower(factor, own);
                for (int entry = Geometry.CrossStart[level]; entry < Geometry.CrossStart[level + 1] && Geometry.CrossIndex[entry] < restOrder; entry++)
                {
                    double sum = 0;
                    for (int k = 0; k < width; k++) sum += Cross[entry * width + k] * own[k];
                    rest[Geometry.CrossIndex[entry]] -= sum;
                }
            }
        }

        Dense.SolveLower(rest, restOrder);
    }

    /// <summary>Solves Lᵀ x = b in place over the leading group and the first of the rest.</summary>
    public void SolveTransposed(Span<double> x, int restOrder)
    {
        Span<double> rest = x.Slice(Geometry.LeadEffects, restOrder);
        Dense.SolveUpper(rest, restOrder);
        if (Geometry.Lead is not { } lead) return;
        int width = lead.Width;
        for (int level = 0; level < lead.LevelCount; level++)
        {
            Span<double> own = x.Slice(level * width, width);
            for (int entry = Geometry.CrossStart[level]; entry < Geometry.CrossStart[level + 1] && Geometry.CrossIndex[entry] < restOrder; entry++)
            {
                double value = rest[Geometry.CrossIndex[entry]];
                for (int k = 0; k < width; k++) own[k] -= Cross[entry * width + k] * value;
            }

            ReadOnlySpan<double> factor = LeadFactors.AsSpan(level * width * width, width * width);
            for (int i = width - 1; i >= 0; i--)
            {
                for (int k = i + 1; k < width; k++) own[i] -= factor[k * width + i] * own[k];
                own[i] /= factor[i * width + i];
            }
        }
    }

    private int MaximumWidth() => Geometry.Groups.Length == 0 ? 1 : Geometry.Groups.Max(group => group.Width);

    private static void SolveLower(ReadOnlySpan<double> factor, Span<double> x)
    {
        int width = x.Length;
        for (int i = 0; i < width; i++)
        {
            for (int k = 0; k < i; k++) x[i] -= factor[i * width + k] * x[k];
            x[i] /= factor[i * width + i];
        }
    }

    // Lower triangle of Λᵀ A Λ + I over the rest; fixed columns have no factor and no identity.
    private unsafe void FillDense()
    {
        int rest = Geometry.RestOrder;
        var products = Geometry.RestProducts;
        for (int g = 1; g < Geometry.Groups.Length; g++)
        {
            GroupLayout group = Geometry.Groups[g];
            double[,] factor = _factors[g];
            int width = group.Width;
            for (int level = 0; level < group.LevelCount; level++)
            {
                int first = group.EffectOffset - Geometry.LeadEffects + level * width;
                int length = first + width;
                for (int i = 0; i < width; i++)
                {
                    double* target = Dense.Lower.Row(first + i);
                    new Span<double>(target, length).Clear();
                    for (int k = i; k < width; k++)
                    {
                        if (factor[k, i] != 0) DotKernel.AddMultiple(factor[k, i], products.Row(first + k), target, length);
                    }

                    ScaleRestRow(target, length);
                    target[first + i] += 1;
                }
            }
        }

        for (int j = Geometry.RandomRest; j < rest; j++)
        {
            double* target = Dense.Lower.Row(j);
            new ReadOnlySpan<double>(products.Row(j), j + 1).CopyTo(new Span<double>(target, j + 1));
            ScaleRestRow(target, j + 1);
        }
    }

    private unsafe void ScaleRestRow(double* row) => ScaleRestRow(row, Geometry.RestOrder);

    // row ← row Λ over the rest's groups.
    private unsafe void ScaleRestRow(double* row, int length)
    {
        for (int g = 1; g < Geometry.Groups.Length; g++)
        {
            GroupLayout group = Geometry.Groups[g];
            int width = group.Width;
            double[,] factor = _factors[g];
            int first = group.EffectOffset - Geometry.LeadEffects;
            int end = Math.Min(first + group.EffectCount, length);
            if (width == 1)
            {
                double scale = factor[0, 0];
                for (int j = first; j < end; j++) row[j] *= scale;
                continue;
            }

            for (int block = first; block < end; block += width)
            {
                for (int column = 0; column < width; column++)
                {
                    double sum = 0;
                    for (int k = column; k < width; k++) sum += row[block + k] * factor[k, column];
                    row[block + column] = sum;
                }
            }
        }
    }

    private unsafe double EliminateLead(ResponseProducts response, double* last, ref LogProduct determinant)
    {
        if (Geometry.Lead is not { } lead) return 0;
        int width = lead.Width;
        double[,] factor = _factors[0];
        double explained = 0;
        for (int level = 0; level < lead.LevelCount; level++)
        {
            Span<double> diagonal = LeadFactors.AsSpan(level * width * width, width * width);
            ReadOnlySpan<double> products = Geometry.LeadProducts.AsSpan(level * width * width, width * width);
            if (lead.IsDiagonal) ScaledProducts(products, factor, diagonal);
            else Sandwich(products, factor, diagonal);
            for (int j = 0; j < width; j++)
            {
                double pivot = diagonal[j * width + j];
                for (int k = 0; k < j; k++) pivot -= diagonal[j * width + k] * diagonal[j * width + k];
                pivot = Math.Sqrt(pivot);
                diagonal[j * width + j] = pivot;
                determinant.Multiply(pivot);
                for (int i = j + 1; i < width; i++)
                {
                    double sum = diagonal[i * width + j];
                    for (int k = 0; k < j; k++) sum -= diagonal[i * width + k] * diagonal[j * width + k];
                    diagonal[i * width + j] = sum / pivot;
                }
            }

            Span<double> right = _leadRight.AsSpan(level * width, width);
            for (int j = 0; j < width; j++)
            {
                double sum = 0;
                for (int k = j; k < width; k++) sum += factor[k, j] * response.Lead[level * width + k];
                right[j] = sum;
            }

            SolveLower(diagonal, right);
            for (int j = 0; j < width; j++) explained += right[j] * right[j];
            int start = Geometry.CrossStart[level], end = Geometry.CrossStart[level + 1];
            ScaleCross(level, start, end, diagonal, factor);
            SubtractLevel(start, end, width, right, last);
        }

        return explained;
    }

    // target ← Tᵀ A T + I for a diagonal T.
    private static void ScaledProducts(ReadOnlySpan<double> products, double[,] factor, Span<double> target)
    {
        int width = factor.GetLength(0);
        for (int i = 0; i < width; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double product = factor[i, i] * (products[i * width + j] * factor[j, j]);
                target[i * width + j] = target[j * width + i] = i == j ? product + 1 : product;
            }
        }
    }

    // target ← Tᵀ A T + I.
    private static void Sandwich(ReadOnlySpan<double> products, double[,] factor, Span<double> target)
    {
        int width = factor.GetLength(0);
        for (int i = 0; i < width; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = 0;
                for (int a = i; a < width; a++)
                {
                    double inner = 0;
                    for (int b = j; b < width; b++) inner += products[a * width + b] * factor[b, j];
                    sum += factor[a, i] * inner;
                }

                target[i * width + j] = i == j ? sum + 1 : sum;
                target[j * width + i] = target[i * width + j];
            }
        }
    }

    // Rows of the factor between the rest and one leading level: Λᵀ E T C⁻ᵀ.
    private unsafe void ScaleCross(int level, int start, int end, ReadOnlySpan<double> diagonal, double[,] factor)
    {
        int width = factor.GetLength(0);
        bool isDiagonal = Geometry.Lead!.IsDiagonal;
        ReadOnlySpan<int> filled = Geometry.FilledPlaces.AsSpan(Geometry.FilledStart[level]..Geometry.FilledStart[level + 1]);
        fixed (double* cross = Cross, values = Geometry.CrossValues, lower = diagonal, own = factor)
        {
            for (int entry = start; entry < end;)
            {
                int group = Geometry.GroupOfRest[Geometry.CrossIndex[entry]];
                double[,]? left = group == 0 ? null : _factors[group];
                int height = left?.GetLength(0) ?? 1;
                for (int i = 0; i < height; i++)
                {
                    double* source = values + (nint)entry * width, target = cross + (nint)(entry + i) * width;
                    if (isDiagonal) ScaleFilled(source, left, i, height, filled, width, lower, own, target);
                    else ScaleAll(source, left, i, height, width, lower, own, target);
                }

                entry += height;
            }
        }
    }

    // With a diagonal T only places that hold an effect have anything: those of the others stay nought.
    private static unsafe void ScaleFilled(double* source, double[,]? left, int i, int height, ReadOnlySpan<int> filled, int width, double* lower, double* own, double* target)
    {
        for (int f = 0; f < filled.Length; f++)
        {
            int c = filled[f];
            double scaled = 0;
            for (int k = i; k < height; k++) scaled += (left is null ? 1 : left[k, i]) * source[k * width + c];
            double sum = scaled * own[c * width + c];
            for (int g = 0; g < f; g++) sum -= target[filled[g]] * lower[c * width + filled[g]];
            target[c] = sum / lower[c * width + c];
        }
    }

    private unsafe void ScaleAll(double* source, double[,]? left, int i, int height, int width, double* lower, double* own, double* target)
    {
        fixed (double* row = _crossWork)
        {
            for (int c = 0; c < width; c++) row[c] = 0;
            for (int k = i; k < height; k++)
            {
                double scale = left is null ? 1 : left[k, i];
                if (scale == 0) continue;
                for (int c = 0; c < width; c++) row[c] += scale * source[k * width + c];
            }

            for (int c = 0; c < width; c++)
            {
                double sum = 0;
                for (int k = c; k < width; k++) sum += row[k] * own[k * width + c];
                for (int k = 0; k < c; k++) sum -= target[k] * lower[c * width + k];
                target[c] = sum / lower[c * width + c];
            }
        }
    }

    private unsafe void SubtractLevel(int start, int end, int width, ReadOnlySpan<double> right, double* last)
    {
        int[] index = Geometry.CrossIndex;
        int count = end - start;
        if (width > 1) Transpose(start, count, width);
        fixed (double* cross = Cross, transposed = _levelCross, sums = _levelSums)
        {
            for (int a = 0; a < count; a++)
            {
                double* target = Dense.Lower.Row(index[start + a]);
                double* own = cross + (nint)(start + a) * width;
                double toResponse = 0;
                for (int k = 0; k < width; k++) toResponse += own[k] * right[k];
                last[index[start + a]] -= toResponse;
                if (width == 1)
                {
                    double scale = own[0];
                    for (int b = start; b <= start + a; b++) target[index[b]] -= scale * cross[b];
                    continue;
                }

                for (int b = 0; b <= a; b++) sums[b] = 0;
                for (int k = 0; k < width; k++)
                {
                    // A place that no nested level fills.
                    if (own[k] != 0) DotKernel.AddMultiple(own[k], transposed + (nint)k * count, sums, a + 1);
                }

                for (int b = 0; b <= a; b++) target[index[start + b]] -= sums[b];
            }
        }
    }

    // One leading level's rows of the factor, effect by effect, so that products run along the entries.
    private void Transpose(int start, int count, int width)
    {
        for (int entry = 0; entry < count; entry++)
            for (int k = 0; k < width; k++) _levelCross[k * count + entry] = Cross[(start + entry) * width + k];
    }
}
