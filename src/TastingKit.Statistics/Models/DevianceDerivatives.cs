namespace TastingKit.Statistics;

/// <summary>
/// First derivatives of the criterion in the entries of the relative covariance factors, and the average information in them,
/// at the parameters a <see cref="ProfiledDeviance"/> was last evaluated at. A workspace for one thread.
/// </summary>
/// <remarks>
/// With K = Σ (I − M⁻¹) over the levels of a term, M⁻¹ the diagonal blocks of the inverse of the system, and U = Σ u uᵀ of the standard
/// effects, the log-determinant's derivative in a factor T is the lower triangle of 2 T⁻ᵀ K and the residual sum's −2 T⁻ᵀ U.
/// The average information (Gilmour, Thompson and Cullis 1995) takes one solve a parameter. T must be invertible: a
/// variance of zero is represented by a small positive entry, see <see cref="VarianceSearch"/>.
/// </remarks>
internal sealed class DevianceDerivatives
{
    private readonly ProfiledDeviance _deviance;
    private readonly double[][,] _determinantSums;
    private readonly double[][,] _effectSums;
    private readonly double[][,] _blocks;

    public DevianceDerivatives(ProfiledDeviance deviance)
    {
        _deviance = deviance;
        var geometry = deviance.Geometry;
        Solution = new double[geometry.LeadEffects + geometry.RestOrder];
        _determinantSums = Array.ConvertAll(geometry.Groups, group => new double[group.Width, group.Width]);
        _effectSums = Array.ConvertAll(geometry.Groups, group => new double[group.Width, group.Width]);
        OfDeterminant = new double[geometry.ParameterCount];
        OfResidualSum = new double[geometry.ParameterCount];
        Gradient = new double[geometry.ParameterCount];
        _blocks = Array.ConvertAll(geometry.Groups, group => new double[group.Width, group.Width]);
    }

    /// <summary>Standard effects in the groups' order, then coefficients of the orthonormal fixed columns.</summary>
    public double[] Solution { get; }

    /// <summary>Derivatives of the log-determinant.</summary>
    public double[] OfDeterminant { get; }

    /// <summary>Derivatives of the penalised residual sum of squares.</summary>
    public double[] OfResidualSum { get; }

    /// <summary>Derivatives of the profiled criterion.</summary>
    public double[] Gradient { get; }

    /// <summary>Computes the solution and all first derivatives.</summary>
    public void Update()
    {
        var geometry = _deviance.Geometry;
        _deviance.Solve(Solution);
        if (geometry.Groups.Length == 0) return;
        int counted = _deviance.Criterion == EstimationCriterion.Restricted ? geometry.RestOrder : geometry.RandomRest;
        if (counted > 0) _deviance.Dense.Invert(counted, _deviance.Threads);
        var inverse = new InverseBlocks(_deviance, counted);
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            SumEffects(g);
            SumInverse(g, inverse);
        }

        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            foreach (RandomTermLayout term in geometry.Groups[g].Terms)
            {
                Pack(term, g, _determinantSums[g], 2, OfDeterminant);
                Pack(term, g, _effectSums[g], -2, OfResidualSum);
            }
        }

        double scale = _deviance.DegreesOfFreedom / _deviance.ResidualSum;
        for (int i = 0; i < Gradient.Length; i++) Gradient[i] = OfDeterminant[i] + scale * OfResidualSum[i];
    }

    /// <summary>Derivative of the criterion in a term's relative covariance matrix: T⁻ᵀ (K − U/σ²) T⁻¹.</summary>
    public double[,] Score(RandomTermLayout term, int group)
    {
        int width = term.Width;
        double scale = _deviance.DegreesOfFreedom / _deviance.ResidualSum;
        double[,] factor = _deviance.Factors[group];
        var score = new double[width, width];
        for (int i = 0; i < width; i++)
            for (int j = 0; j < width; j++) score[i, j] = _determinantSums[group][term.Offset + i, term.Offset + j] - scale * _effectSums[group][term.Offset + i, term.Offset + j];
        // T⁻ᵀ from the left, then the same on the transpose.
        for (int side = 0; side < 2; side++)
        {
            for (int column = 0; column < width; column++)
            {
                for (int row = width - 1; row >= 0; row--)
                {
                    double sum = score[row, column];
                    for (int k = row + 1; k < width; k++) sum -= factor[term.Offset + k, term.Offset + row] * score[k, column];
                    score[row, column] = sum / factor[term.Offset + row, term.Offset + row];
                }
            }

            for (int i = 0; i < width; i++)
                for (int j = 0; j < i; j++) (score[i, j], score[j, i]) = (score[j, i], score[i, j]);
        }

        return score;
    }

    /// <summary>Average information of the profiled criterion in the parameters listed, with the curvature that the factors' squares add.</summary>
    public double[,] Curvature(ReadOnlySpan<int> free)
    {
        var geometry = _deviance.Geometry;
        int order = geometry.LeadEffects + geometry.RestOrder;
        double variance = _deviance.ResidualSum / _deviance.DegreesOfFreedom;
        var directions = new double[free.Length][];
        var images = new double[free.Length][];
        for (int i = 0; i < free.Length; i++)
        {
            directions[i] = Direction(free[i], order);
            images[i] = (double[])directions[i].Clone();
            _deviance.SolveSystem(images[i]);
        }

        var curvature = new double[free.Length, free.Length];
        for (int i = 0; i < free.Length; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                double sum = OrthonormalBasis.Dot(directions[i], directions[j]) - OrthonormalBasis.Dot(directions[i], images[j]);
                sum = sum / variance - OfResidualSum[free[i]] * OfResidualSum[free[j]] / (variance * variance * _deviance.DegreesOfFreedom);
                curvature[i, j] = curvature[j, i] = sum;
            }
        }

        AddSquares(free, curvature);
        return curvature;
    }

    // T⁻¹ dT u + dTᵀ w with w = T⁻ᵀ u, level by level of the parameter's group.
    private double[] Direction(int parameter, int order)
    {
        var geometry = _deviance.Geometry;
        var direction = new double[order];
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            GroupLayout group = geometry.Groups[g];
            foreach (RandomTermLayout term in group.Terms)
            {
                int local = parameter - term.ParameterOffset;
                if (local < 0 || local >= term.ParameterCount) continue;
                var column = new double[term.Width];
                for (int level = 0; level < group.LevelCount; level++)
                {
                    int first = group.EffectOffset + level * group.Width + term.Offset;
                    if (term.HasCommonVariance)
                    {
                        double scale = 2 / _deviance.Factors[g][term.Offset, term.Offset];
                        for (int e = 0; e < term.Width; e++) direction[first + e] = scale * Solution[first + e];
                        continue;
                    }

                    (int a, int c) = EntryOf(local, term.Width);
                    AddDirection(direction, first, term, _deviance.Factors[g], a, c, column);
                }
            }
        }

        return direction;
    }

    private void AddDirection(double[] direction, int first, RandomTermLayout term, double[,] factor, int a, int c, Span<double> column)
    {
        int offset = term.Offset;
        // w = T⁻ᵀ u down to row a.
        for (int row = term.Width - 1; row >= a; row--)
        {
            double sum = Solution[first + row];
            for (int k = row + 1; k < term.Width; k++) sum -= factor[offset + k, offset + row] * column[k];
            column[row] = sum / factor[offset + row, offset + row];
        }

        direction[first + c] += column[a];
        // T⁻¹ e_a u_c.
        column.Clear();
        for (int row = a; row < term.Width; row++)
        {
            double sum = row == a ? Solution[first + c] : 0;
            for (int k = a; k < row; k++) sum -= factor[offset + row, offset + k] * column[k];
            column[row] = sum / factor[offset + row, offset + row];
        }

        for (int row = a; row < term.Width; row++) direction[first + row] += column[row];
    }

    // The covariance is quadratic in the factor: 2 Score[a, b] for two entries of one column, where that is a convex direction.
    private void AddSquares(ReadOnlySpan<int> free, double[,] curvature)
    {
        var geometry = _deviance.Geometry;
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            foreach (RandomTermLayout term in geometry.Groups[g].Terms)
            {
                double[,] convex = term.HasCommonVariance ? CommonScore(Score(term, g)) : PositivePart(Score(term, g));
                for (int i = 0; i < free.Length; i++)
                {
                    int first = free[i] - term.ParameterOffset;
                    if (first < 0 || first >= term.ParameterCount) continue;
                    for (int j = 0; j < free.Length; j++)
                    {
                        int second = free[j] - term.ParameterOffset;
                        if (second < 0 || second >= term.ParameterCount) continue;
                        (int a, int c) = EntryOf(first, term.HasCommonVariance ? 1 : term.Width);
                        (int b, int d) = EntryOf(second, term.HasCommonVariance ? 1 : term.Width);
                        if (c == d) curvature[i, j] += 2 * convex[a, b];
                    }
                }
            }
        }
    }

    private static double[,] CommonScore(double[,] score)
    {
        double trace = 0;
        for (int i = 0; i < score.GetLength(0); i++) trace += score[i, i];
        return new double[,] { { Math.Max(trace, 0) } };
    }

    private static double[,] PositivePart(double[,] score)
    {
        int width = score.GetLength(0);
        if (width == 1) return new double[,] { { Math.Max(score[0, 0], 0) } };
        var (values, vectors) = SmallMatrix.Eigen(score);
        var part = new double[width, width];
        for (int e = 0; e < width; e++)
        {
            if (values[e] <= 0) continue;
            for (int i = 0; i < width; i++)
                for (int j = 0; j < width; j++) part[i, j] += values[e] * vectors[i, e] * vectors[j, e];
        }

        return part;
    }

    /// <summary>Row and column of a lower triangle's entry numbered by columns.</summary>
    public static (int Row, int Column) EntryOf(int local, int width)
    {
        int column = 0;
        while (local >= width - column)
        {
            local -= width - column;
            column++;
        }

        return (column + local, column);
    }

    private void Pack(RandomTermLayout term, int g, double[,] sums, double sign, double[] target)
    {
        double[,] factor = _deviance.Factors[g];
        int width = term.Width, offset = term.Offset, next = term.ParameterOffset;
        if (term.HasCommonVariance)
        {
            double trace = 0;
            for (int i = 0; i < width; i++) trace += sums[offset + i, offset + i];
            target[next] = sign * trace / factor[offset, offset];
            return;
        }

        Span<double> solved = stackalloc double[width];
        for (int column = 0; column < width; column++)
        {
            for (int row = width - 1; row >= column; row--)
            {
                double sum = sums[offset + row, offset + column];
                for (int k = row + 1; k < width; k++) sum -= factor[offset + k, offset + row] * solved[k];
                solved[row] = sum / factor[offset + row, offset + row];
            }

            for (int row = column; row < width; row++) target[next++] = sign * solved[row];
        }
    }

    private void SumEffects(int g)
    {
        GroupLayout group = _deviance.Geometry.Groups[g];
        double[,] sums = _effectSums[g];
        Array.Clear(sums);
        for (int level = 0; level < group.LevelCount; level++)
        {
            ReadOnlySpan<double> own = Solution.AsSpan(group.EffectOffset + level * group.Width, group.Width);
            for (int i = 0; i < own.Length; i++)
                for (int j = 0; j < own.Length; j++) sums[i, j] += own[i] * own[j];
        }
    }

    private void SumInverse(int g, InverseBlocks inverse)
    {
        GroupLayout group = _deviance.Geometry.Groups[g];
        double[,] sums = _determinantSums[g];
        Array.Clear(sums);
        double[,] block = _blocks[g];
        for (int level = 0; level < group.LevelCount; level++)
        {
            inverse.Block(g, level, block);
            for (int i = 0; i < group.Width; i++)
                for (int j = 0; j < group.Width; j++) sums[i, j] += (i == j ? 1 : 0) - block[i, j];
        }
    }
}
