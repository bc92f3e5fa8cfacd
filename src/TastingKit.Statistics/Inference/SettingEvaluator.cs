namespace TastingKit.Statistics;

/// <summary>Turns a setting into weights on the fixed coefficients.</summary>
internal sealed class SettingEvaluator(FixedDesign design, int rowCount)
{
    /// <summary>The columns that occur in the fixed part, by name; a curve counts as its covariate.</summary>
    public IReadOnlyDictionary<string, Column> Variables { get; } = VariablesOf(design);

    public LinearFunction At(Setting setting)
    {
        Check(setting);
        return setting.Weights == MarginalWeights.Equal ? Equal(setting) : AsObserved(setting);
    }

    /// <summary>The factor of that name in the fixed part.</summary>
    public CategoricalColumn Factor(string name)
    {
        if (Variables.TryGetValue(name, out Column? column) && column is CategoricalColumn factor) return factor;
        var factors = Variables.Values.OfType<CategoricalColumn>().Select(each => $"'{each.Name}'");
        throw new ArgumentException($"The fixed part has no factor '{name}'; it has {(factors.Any() ? string.Join(", ", factors) : "none")}.", nameof(name));
    }

    /// <summary>The function whose coefficients are the averages of a factor's coding where no level is fixed: columns of one term multiply.</summary>
    private LinearFunction Equal(Setting setting)
    {
        var weights = new double[design.Width];
        foreach (CodedTerm term in design.Terms)
        {
            double[][] parts = [.. term.Parts.Select(part => Averaged(part, setting))];
            for (int column = 0; column < term.Width; column++)
            {
                double weight = 1;
                int[] indices = term.Indices(column);
                for (int part = 0; part < parts.Length; part++) weight *= parts[part][indices[part]];
                weights[term.Offset + column] = weight;
            }
        }

        return Sparse(weights);
    }

    private LinearFunction AsObserved(Setting setting)
    {
        var weights = new double[design.Width];
        foreach (CodedTerm term in design.Terms)
        {
            double[]?[] set = [.. term.Parts.Select(part => IsFree(part, setting) ? null : Averaged(part, setting))];
            for (int column = 0; column < term.Width; column++)
            {
                int[] indices = term.Indices(column);
                double weight = 1;
                if (Array.TrueForAll(set, part => part is not null))
                {
                    for (int part = 0; part < set.Length; part++) weight *= set[part]![indices[part]];
                    weights[term.Offset + column] = weight;
                    continue;
                }

                var values = new double[rowCount];
                Array.Fill(values, 1.0);
                for (int part = 0; part < set.Length; part++)
                {
                    if (set[part] is { } constant) weight *= constant[indices[part]];
                    else term.Parts[part].MultiplyInto(values, indices[part]);
                }

                double sum = 0;
                foreach (double value in values) sum += value;
                weights[term.Offset + column] = weight * sum / rowCount;
            }
        }

        return Sparse(weights);
    }

    private static bool IsFree(CodedColumn part, Setting setting) => part.Column is CategoricalColumn factor && !setting.Levels.ContainsKey(factor.Name);

    private static double[] Averaged(CodedColumn part, Setting setting)
    {
        var weights = new double[part.Width];
        switch (part.Column)
        {
            case CategoricalColumn factor when setting.Levels.TryGetValue(factor.Name, out string? level):
                int index = factor.IndexOf(level) - part.FirstLevel;
                if (index >= 0) weights[index] = 1;
                break;
            case CategoricalColumn factor:
                Array.Fill(weights, 1.0 / factor.Levels.Count);
                break;
            case CovariateBasis basis:
                basis.Evaluate(setting.Values.TryGetValue(basis.Covariate.Name, out double at) ? at : basis.Covariate.Mean, weights);
                break;
            case NumericColumn numeric:
                weights[0] = part.AtValue(setting.Values.TryGetValue(numeric.Name, out double value) ? value : numeric.Mean);
                break;
        }

        return weights;
    }

    private void Check(Setting setting)
    {
        foreach (var (name, level) in setting.Levels) Factor(name).IndexOf(level);
        foreach (string name in setting.Values.Keys)
        {
            if (!Variables.TryGetValue(name, out Column? column) || column is not NumericColumn)
                throw new ArgumentException($"The fixed part has no covariate '{name}'; it has {string.Join(", ", Variables.Values.OfType<NumericColumn>().Select(each => $"'{each.Name}'").DefaultIfEmpty("none"))}.", nameof(setting));
        }
    }

    internal static LinearFunction Sparse(ReadOnlySpan<double> weights)
    {
        var indices = new List<int>();
        var kept = new List<double>();
        for (int i = 0; i < weights.Length; i++)
        {
            if (weights[i] == 0) continue;
            indices.Add(i);
            kept.Add(weights[i]);
        }

        return new LinearFunction([.. indices], [.. kept]);
    }

    private static Dictionary<string, Column> VariablesOf(FixedDesign design)
    {
        var variables = new Dictionary<string, Column>(StringComparer.Ordinal);
        foreach (Column column in design.Terms.SelectMany(term => term.Parts).Select(part => part.Column))
        {
            Column variable = column is CovariateBasis basis ? basis.Covariate : column;
            variables.TryAdd(variable.Name, variable);
        }

        return variables;
    }
}
