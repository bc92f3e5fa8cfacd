using MathNet.Numerics.LinearAlgebra;

namespace TastingKit.Tests;

/// <summary>
/// The models of what a brewer does and of the favourites solved densely at given variances, for logs with brewers, sessions and positions and nothing else of the brew: Henderson's
/// equations written out from the cups, sharing no code with the engine.
/// </summary>
internal static class HeldRefit
{
    /// <summary>The variance of a weighted sum of unknowns.</summary>
    /// <param name="deviations">Standard deviation of each random term.</param>
    /// <param name="residual">Residual standard deviation.</param>
    /// <param name="cups">The cups.</param>
    /// <param name="second">The brewer whose difference from the other is the unknown <c>brewer</c>.</param>
    /// <param name="asked">Weights by the unknown's name: <c>intercept</c>, <c>position</c>, <c>brewer</c>, or a random term with its level behind <c>=</c>.</param>
    public static double VarianceOf(
        IReadOnlyDictionary<string, double> deviations, double residual, IReadOnlyList<Tasting> cups, string second, IReadOnlyDictionary<string, double> asked)
    {
        var columns = new Dictionary<string, int>();
        var entries = new List<(int Row, string Column, double Value)>();
        for (var row = 0; row < cups.Count; row++)
        {
            var cup = cups[row];
            entries.Add((row, "intercept", 1));
            entries.Add((row, "position", cup.Position!.Value));
            if (cup.Brewer == second)
                entries.Add((row, "brewer", 1));
            foreach (var group in deviations.Keys)
            {
                entries.Add((row, $"{group}={group switch
                {
                    "coffee" => cup.Bag.Coffee.Id,
                    "session" => cup.Session,
                    "coffee:brewer" => $"{cup.Bag.Coffee.Id}:{cup.Brewer}",
                    _ => throw new InvalidOperationException($"The test does not know the term {group}."),
                }}", 1));
            }
        }

        foreach (var (_, column, _) in entries)
            columns.TryAdd(column, columns.Count);
        var design = Matrix<double>.Build.Dense(cups.Count, columns.Count);
        foreach (var (row, column, value) in entries)
            design[row, columns[column]] = value;
        var system = design.TransposeThisAndMultiply(design) / (residual * residual);
        foreach (var (group, deviation) in deviations)
        {
            foreach (var (column, index) in columns.Where(each => each.Key.StartsWith(group + "=", StringComparison.Ordinal)))
                system[index, index] += Math.Min(1e12, 1 / (deviation * deviation));
        }

        var weights = Vector<double>.Build.Dense(columns.Count);
        foreach (var (column, weight) in asked)
            weights[columns[column]] = weight;
        return weights * system.Inverse() * weights;
    }
}
