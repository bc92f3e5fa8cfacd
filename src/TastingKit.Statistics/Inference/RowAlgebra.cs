namespace TastingKit.Statistics;

/// <summary>What a fit says row by row: fitted values, leverages, simulated responses.</summary>
internal static class RowAlgebra
{
    /// <summary>Fitted values in the scaled response's unit: remainder explained by effects and by what the fixed part gained over least squares.</summary>
    public static double[] Fitted(MixedModelGeometry geometry, double[][,] factors, ReadOnlySpan<double> solution)
    {
        var fitted = new double[geometry.RowCount];
        for (int g = 0; g < geometry.Groups.Length; g++)
        {
            GroupLayout group = geometry.Groups[g];
            double[] effects = BasisEffects(group, factors[g], solution);
            for (int row = 0; row < fitted.Length; row++)
            {
                int first = group.Codes[row] * group.Width;
                for (int e = 0; e < group.Width; e++) fitted[row] += group.Rows[row * group.Width + e] * effects[first + e];
            }
        }

        ReadOnlySpan<double> coefficients = solution[geometry.EffectCount..];
        for (int row = 0; row < fitted.Length; row++)
            for (int j = 0; j < geometry.Rank; j++) fitted[row] += geometry.FixedRows[row * geometry.Rank + j] * coefficients[j];
        return fitted;
    }

    /// <summary>Leverage of each row: the share of its own response in its fitted value.</summary>
    /// <param name="deviance">A factored workspace; its dense inverse is taken here.</param>
    public static double[] Leverages(ProfiledDeviance deviance)
    {
        var geometry = deviance.Geometry;
        if (geometry.RestOrder > 0) deviance.Dense.Invert(geometry.RestOrder, deviance.Threads);
        var leverages = new double[geometry.RowCount];
        var position = new int[geometry.RestOrder];
        var onEffect = new double[geometry.Lead?.Width ?? 0];
        var indices = new int[geometry.RestPerRow];
        var values = new double[geometry.RestPerRow];
        var entries = new double[geometry.RestOrder];
        int[] all = [.. Enumerable.Range(0, geometry.RestOrder)];
        for (int row = 0; row < leverages.Length; row++)
        {
            int level = geometry.Lead?.Codes[row] ?? 0;
            ReadOnlySpan<int> index = geometry.Lead is null ? all : geometry.CrossIndex.AsSpan(geometry.CrossStart[level]..geometry.CrossStart[level + 1]);
            for (int e = 0; e < index.Length; e++) position[index[e]] = e;
            Span<double> rest = entries.AsSpan(0, index.Length);
            rest.Clear();
            int count = geometry.RestOfRow(row, indices, values);
            ScaleRest(geometry, deviance.Factors, row, values);
            for (int i = 0; i < count; i++) rest[position[indices[i]]] = values[i];
            double leverage = 0;
            if (geometry.Lead is not null) leverage = EliminateLead(deviance, row, level, onEffect, rest);
            leverages[row] = leverage + Quadratic(deviance.Dense.Inverse, index, rest);
        }

        return leverages;
    }

    /// <summary>A response drawn from the fitted model: the fixed part as estimated, new effects, new residuals; in the response's unit.</summary>
    public static double[] Simulate(LinearMixedModelFit fit, double[] fixedPart, RandomStream random)
    {
        var geometry = fit.Geometry;
        double[] response = (double[])fixedPart.Clone();
        double residual = fit.ResidualStandardDeviation;
        foreach (GroupLayout group in geometry.Groups)
        {
            var standard = new double[group.EffectCount];
            for (int i = 0; i < standard.Length; i++) standard[i] = residual * random.NextNormal();
            double[] effects = BasisEffects(standard, group, fit.FactorOf(group));
            for (int row = 0; row < response.Length; row++)
            {
                double sum = 0;
                int first = group.Codes[row] * group.Width;
                for (int e = 0; e < group.Width; e++) sum += group.Rows[row * group.Width + e] * effects[first + e];
                response[row] += geometry.RootWeights is { } weights ? sum / weights[row] : sum;
            }
        }

        for (int row = 0; row < response.Length; row++)
        {
            double noise = residual * random.NextNormal();
            response[row] += geometry.RootWeights is { } weights ? noise / weights[row] : noise;
        }

        return response;
    }

    private static double[] BasisEffects(GroupLayout group, double[,] factor, ReadOnlySpan<double> solution)
        => BasisEffects(solution.Slice(group.EffectOffset, group.EffectCount), group, factor);

    // T u, level by level.
    private static double[] BasisEffects(ReadOnlySpan<double> standard, GroupLayout group, double[,] factor)
    {
        int width = group.Width;
        var effects = new double[group.EffectCount];
        for (int first = 0; first < effects.Length; first += width)
        {
            for (int i = 0; i < width; i++)
                for (int k = 0; k <= i; k++) effects[first + i] += factor[i, k] * standard[first + k];
        }

        return effects;
    }

    private static void ScaleRest(MixedModelGeometry geometry, double[][,] factors, int row, double[] values)
    {
        int next = 0;
        for (int g = 1; g < geometry.Groups.Length; g++)
        {
            int width = geometry.Groups[g].Width;
            for (int column = 0; column < width; column++)
            {
                double sum = 0;
                for (int k = column; k < width; k++) sum += factors[g][k, column] * geometry.Groups[g].Rows[row * width + k];
                values[next++] = sum;
            }
        }
    }

    private static double EliminateLead(ProfiledDeviance deviance, int row, int level, double[] own, Span<double> rest)
    {
        GroupLayout lead = deviance.Geometry.Lead!;
        int width = lead.Width;
        double[,] factor = deviance.Factors[0];
        ReadOnlySpan<double> diagonal = deviance.LeadFactors.AsSpan(level * width * width, width * width);
        double squares = 0;
        for (int column = 0; column < width; column++)
        {
            double sum = 0;
            for (int k = column; k < width; k++) sum += factor[k, column] * lead.Rows[row * width + k];
            for (int k = 0; k < column; k++) sum -= diagonal[column * width + k] * own[k];
            own[column] = sum / diagonal[column * width + column];
            squares += own[column] * own[column];
        }

        int start = deviance.Geometry.CrossStart[level];
        for (int e = 0; e < rest.Length; e++)
            for (int k = 0; k < width; k++) rest[e] -= deviance.Cross[(start + e) * width + k] * own[k];
        return squares;
    }

    private static unsafe double Quadratic(AlignedMatrix inverse, ReadOnlySpan<int> index, ReadOnlySpan<double> x)
    {
        double sum = 0;
        for (int a = 0; a < index.Length; a++)
        {
            if (x[a] == 0) continue;
            double* row = inverse.Row(index[a]);
            double below = 0;
            for (int b = 0; b < a; b++) below += row[index[b]] * x[b];
            sum += x[a] * (2 * below + row[index[a]] * x[a]);
        }

        GC.KeepAlive(inverse);
        return sum;
    }
}
