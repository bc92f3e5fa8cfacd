namespace TastingKit.Statistics;

/// <summary>The functions that are zero when a fixed term has no effect.</summary>
/// <remarks>
/// Each contrasts the levels of the term's factors with their first and takes the coefficients of its covariates; terms that hold the same covariates and
/// more factors come in averaged over those factors' levels.
/// </remarks>
internal sealed class TermHypothesis(MixedModelGeometry geometry, FixedTerm tested)
{
    public List<LinearFunction> Functions()
    {
        CategoricalColumn[] factors = [.. tested.Columns.OfType<CategoricalColumn>()];
        Column[] covariates = [.. tested.Columns.Where(column => column is not CategoricalColumn)];
        int contrasts = factors.Aggregate(1, (product, factor) => product * (factor.Levels.Count - 1));
        int curves = covariates.Aggregate(1, (product, column) => product * (column is CovariateBasis basis ? basis.Width : 1));
        var functions = new List<LinearFunction>();
        for (int contrast = 0; contrast < contrasts; contrast++)
            for (int curve = 0; curve < curves; curve++) functions.Add(Function(factors, covariates, contrast, curve));
        return functions;
    }

    private LinearFunction Function(CategoricalColumn[] factors, Column[] covariates, int contrast, int curve)
    {
        var levels = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (CategoricalColumn factor in factors)
        {
            levels[factor.Name] = 1 + contrast % (factor.Levels.Count - 1);
            contrast /= factor.Levels.Count - 1;
        }

        var functionOf = new Dictionary<string, int>(StringComparer.Ordinal);
        foreach (Column covariate in covariates)
        {
            int width = covariate is CovariateBasis basis ? basis.Width : 1;
            functionOf[covariate.Name] = curve % width;
            curve /= width;
        }

        var weights = new double[geometry.FixedDesign.Width];
        foreach (CodedTerm term in geometry.FixedDesign.Terms)
        {
            if (!Contains(term, factors, covariates)) continue;
            for (int column = 0; column < term.Width; column++)
            {
                int[] indices = term.Indices(column);
                double weight = 1;
                for (int part = 0; part < indices.Length; part++) weight *= Weight(term.Parts[part], indices[part], levels, functionOf);
                weights[term.Offset + column] = weight;
            }
        }

        return SettingEvaluator.Sparse(weights);
    }

    private static double Weight(CodedColumn part, int index, Dictionary<string, int> levels, Dictionary<string, int> functionOf)
    {
        if (part.Column is not CategoricalColumn factor) return functionOf[part.Column.Name] == index ? 1 : 0;
        int level = index + part.FirstLevel;
        if (!levels.TryGetValue(factor.Name, out int contrasted)) return 1.0 / factor.Levels.Count;
        return (level == contrasted ? 1 : 0) - (level == 0 ? 1 : 0);
    }

    private bool Contains(CodedTerm term, CategoricalColumn[] factors, Column[] covariates)
    {
        if (term.Term is null || term.Term.IsSquare != tested.IsSquare) return false;
        var own = term.Parts.Select(part => part.Column).ToArray();
        return factors.All(factor => own.Any(column => column.Name == factor.Name))
            && own.Where(column => column is not CategoricalColumn).Select(column => column.Name).ToHashSet(StringComparer.Ordinal).SetEquals(covariates.Select(column => column.Name));
    }
}
