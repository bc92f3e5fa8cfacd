using MathNet.Numerics.LinearAlgebra;
using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>
/// The favourites' model solved densely at a fit's variances, for logs with brewers, sessions and positions and no kinds of coffee: Henderson's
/// equations written out from the cups, sharing no code with the engine.
/// </summary>
internal static class HeldRefit
{
    public static double VarianceOfContrast(LinearMixedModelFit fit, IReadOnlyList<Tasting> cups, string first, string second)
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
            foreach (var component in fit.VarianceComponents)
            {
                entries.Add((row, $"{component.Group}={component.Group switch
                {
                    "coffee" => cup.Bag.Coffee.Id,
                    "session" => cup.Session,
                    "coffee:brewer" => $"{cup.Bag.Coffee.Id}:{cup.Brewer}",
                    _ => throw new InvalidOperationException($"The test does not know the term {component.Group}."),
                }}", 1));
            }
        }

        foreach (var (_, column, _) in entries)
            columns.TryAdd(column, columns.Count);
        var design = Matrix<double>.Build.Dense(cups.Count, columns.Count);
        foreach (var (row, column, value) in entries)
            design[row, columns[column]] = value;
        var system = design.TransposeThisAndMultiply(design) / (fit.ResidualStandardDeviation * fit.ResidualStandardDeviation);
        foreach (var component in fit.VarianceComponents)
        {
            // A spread of nought holds its effects at nought.
            var precision = Math.Min(1e12, 1 / (component.StandardDeviations[0] * component.StandardDeviations[0]));
            foreach (var (column, index) in columns.Where(each => each.Key.StartsWith(component.Group + "=", StringComparison.Ordinal)))
                system[index, index] += precision;
        }

        if (cups.All(cup => cup.Brewer != first))
            throw new InvalidOperationException($"No cup has {first}.");
        return system.Inverse()[columns["brewer"], columns["brewer"]];
    }
}
