namespace TastingKit.Statistics;

/// <summary>
/// Adjusted p-values for a family of tests: each can be compared with the level itself. The results stand in the
/// order of the input.
/// </summary>
public static class MultipleTesting
{
    /// <summary>Holm's step-down procedure (1979): holds the familywise error rate under any dependence.</summary>
    /// <param name="pValues">The p-values of one family, each in [0, 1]; an empty family gives an empty result.</param>
    /// <returns>The adjusted p-values, never above 1 and never below the raw ones.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A p-value lies outside [0, 1] or is NaN.</exception>
    public static IReadOnlyList<double> Holm(IReadOnlyList<double> pValues)
    {
        int[] order = Ascending(pValues);
        var adjusted = new double[order.Length];
        double largest = 0.0;
        for (int i = 0; i < order.Length; i++)
        {
            largest = Math.Max(largest, Math.Min(1.0, (order.Length - i) * pValues[order[i]]));
            adjusted[order[i]] = largest;
        }

        return adjusted;
    }

    /// <summary>
    /// Hochberg's step-up procedure (1988): less conservative than Holm's, but holds the familywise error rate only
    /// for independent or positively dependent tests.
    /// </summary>
    /// <param name="pValues">The p-values of one family, each in [0, 1]; an empty family gives an empty result.</param>
    /// <returns>The adjusted p-values.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A p-value lies outside [0, 1] or is NaN.</exception>
    public static IReadOnlyList<double> Hochberg(IReadOnlyList<double> pValues) => StepUp(pValues, (count, rank) => count - rank);

    /// <summary>
    /// The procedure of Benjamini and Hochberg (1995): holds the false discovery rate, the expected share of false
    /// among the claimed effects, for independent or positively dependent tests.
    /// </summary>
    /// <param name="pValues">The p-values of one family, each in [0, 1]; an empty family gives an empty result.</param>
    /// <returns>The adjusted p-values.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A p-value lies outside [0, 1] or is NaN.</exception>
    public static IReadOnlyList<double> BenjaminiHochberg(IReadOnlyList<double> pValues) =>
        StepUp(pValues, (count, rank) => (double)count / (rank + 1));

    /// <summary>Bonferroni's correction: every p-value times the size of the family.</summary>
    /// <param name="pValues">The p-values of one family, each in [0, 1]; an empty family gives an empty result.</param>
    /// <returns>The adjusted p-values.</returns>
    /// <exception cref="ArgumentOutOfRangeException">A p-value lies outside [0, 1] or is NaN.</exception>
    public static IReadOnlyList<double> Bonferroni(IReadOnlyList<double> pValues)
    {
        int count = Ascending(pValues).Length;
        return pValues.Select(p => Math.Min(1.0, count * p)).ToArray();
    }

    private static double[] StepUp(IReadOnlyList<double> pValues, Func<int, int, double> factor)
    {
        int[] order = Ascending(pValues);
        var adjusted = new double[order.Length];
        double smallest = 1.0;
        for (int i = order.Length - 1; i >= 0; i--)
        {
            smallest = Math.Min(smallest, factor(order.Length, i) * pValues[order[i]]);
            adjusted[order[i]] = smallest;
        }

        return adjusted;
    }

    private static int[] Ascending(IReadOnlyList<double> pValues)
    {
        ArgumentNullException.ThrowIfNull(pValues);
        for (int i = 0; i < pValues.Count; i++)
        {
            if (!(pValues[i] >= 0.0 && pValues[i] <= 1.0))
            {
                throw new ArgumentOutOfRangeException(nameof(pValues), pValues[i], $"The p-value at position {i} lies outside [0, 1].");
            }
        }

        return [.. Enumerable.Range(0, pValues.Count).OrderBy(i => pValues[i])];
    }
}
