namespace TastingKit.Statistics;

/// <summary>Diagonal blocks, level by level, of the inverse of the system at the parameters a workspace is factored at.</summary>
internal sealed class InverseBlocks
{
    private readonly ProfiledDeviance _deviance;
    private readonly int _counted;
    private readonly double[] _work;

    /// <param name="deviance">A factored workspace whose dense inverse has been taken over the counted part.</param>
    /// <param name="counted">Order of the dense part that belongs to the system: with the fixed columns or without.</param>
    public InverseBlocks(ProfiledDeviance deviance, int counted)
    {
        _deviance = deviance;
        _counted = counted;
        _work = new double[Math.Max(1, deviance.Geometry.Lead?.Width ?? 1)];
    }

    /// <summary>Writes the block of one level of a group, width × width.</summary>
    public void Block(int group, int level, double[,] block)
    {
        if (group == 0) LeadBlock(level, block);
        else RestBlock(_deviance.Geometry.Groups[group], level, block);
    }

    private void RestBlock(GroupLayout group, int level, double[,] block)
    {
        int first = group.EffectOffset - _deviance.Geometry.LeadEffects + level * group.Width;
        for (int i = 0; i < group.Width; i++)
            for (int j = 0; j <= i; j++) block[i, j] = block[j, i] = _deviance.Dense.Inverse[first + i, first + j];
    }

    // C⁻ᵀ (I + Wᵀ S⁻¹ W) C⁻¹ with S⁻¹ the dense inverse.
    private unsafe void LeadBlock(int level, double[,] block)
    {
        var geometry = _deviance.Geometry;
        int width = geometry.Lead!.Width;
        double[] cross = _deviance.Cross;
        int[] index = geometry.CrossIndex;
        int start = geometry.CrossStart[level], end = geometry.CrossStart[level + 1];
        while (end > start && index[end - 1] >= _counted) end--;
        if (width == 1)
        {
            double sum = 1;
            for (int a = start; a < end; a++)
            {
                double* row = _deviance.Dense.Inverse.Row(index[a]);
                double below = 0;
                for (int b = start; b < a; b++) below += row[index[b]] * cross[b];
                sum += cross[a] * (2 * below + row[index[a]] * cross[a]);
            }

            GC.KeepAlive(this);
            double pivot = _deviance.LeadFactors[level];
            block[0, 0] = sum / (pivot * pivot);
            return;
        }

        for (int i = 0; i < width; i++)
            for (int j = 0; j < width; j++) block[i, j] = i == j ? 1 : 0;
        for (int a = start; a < end; a++)
        {
            double* row = _deviance.Dense.Inverse.Row(index[a]);
            Array.Clear(_work);
            for (int b = start; b < a; b++)
            {
                double value = row[index[b]];
                for (int i = 0; i < width; i++) _work[i] += value * cross[b * width + i];
            }

            for (int i = 0; i < width; i++)
            {
                double own = cross[a * width + i];
                for (int j = 0; j < width; j++)
                    block[i, j] += own * _work[j] + _work[i] * cross[a * width + j] + row[index[a]] * own * cross[a * width + j];
            }
        }

        GC.KeepAlive(this);
        ReadOnlySpan<double> factor = _deviance.LeadFactors.AsSpan(level * width * width, width * width);
        SolveBothSides(block, factor);
    }

    // block ← C⁻ᵀ block C⁻¹, one side and then the same on the transpose.
    private static void SolveBothSides(double[,] block, ReadOnlySpan<double> factor)
    {
        int width = block.GetLength(0);
        for (int side = 0; side < 2; side++)
        {
            for (int column = 0; column < width; column++)
            {
                for (int row = width - 1; row >= 0; row--)
                {
                    double sum = block[row, column];
                    for (int k = row + 1; k < width; k++) sum -= factor[k * width + row] * block[k, column];
                    block[row, column] = sum / factor[row * width + row];
                }
            }

            for (int i = 0; i < width; i++)
                for (int j = 0; j < i; j++) (block[i, j], block[j, i]) = (block[j, i], block[i, j]);
        }
    }
}
