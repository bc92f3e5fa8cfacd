using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Makes a covariate's slope a comparison within groups: the group's mean of the covariate is a fixed term of its own, which takes up
/// whatever makes groups with much of it differ from groups with little (Mundlak 1978, Econometrica 46:69–85).
/// </summary>
internal static class WithinCoffees
{
    public static ModelDesign AddMeans(ModelDesign design, CategoricalColumn group, Column? column)
    {
        switch (column)
        {
            case null:
                return design;
            case CategoricalColumn factor:
                // The first level's mean is one less the sum of the others.
                for (var level = 1; level < factor.Levels.Count; level++)
                {
                    var wanted = level;
                    design = AddMean(design, group, $"mean {factor.Name} {factor.Levels[level]}", row => factor.Codes[row] == wanted ? 1 : 0);
                }

                return design;
            case NumericColumn covariate:
                return AddMean(design, group, $"mean {covariate.Name}", row => covariate.Values[row]);
            case CovariateBasis basis:
                var values = new double[basis.Count][];
                for (var row = 0; row < values.Length; row++)
                {
                    values[row] = new double[basis.Width];
                    basis.Evaluate(basis.Covariate.Values[row], values[row]);
                }

                for (var function = 0; function < basis.Width; function++)
                {
                    var wanted = function;
                    design = AddMean(design, group, $"mean {basis.FunctionName(function)}", row => values[row][wanted]);
                }

                return design;
            default:
                throw new ArgumentException($"Group means are made of factors, covariates and curves; found {column.GetType().Name}.", nameof(column));
        }
    }

    private static ModelDesign AddMean(ModelDesign design, CategoricalColumn group, string name, Func<int, double> valueOf)
    {
        var sums = new double[group.Levels.Count];
        var counts = new int[group.Levels.Count];
        for (var row = 0; row < group.Count; row++)
        {
            sums[group.Codes[row]] += valueOf(row);
            counts[group.Codes[row]]++;
        }

        var means = new double[group.Count];
        for (var row = 0; row < means.Length; row++)
            means[row] = sums[group.Codes[row]] / counts[group.Codes[row]];

        // Where every group has the same mean there is nothing between groups to take up.
        return means.Max() - means.Min() < 1e-9 ? design : design.WithFixed(new NumericColumn(name, means));
    }
}
