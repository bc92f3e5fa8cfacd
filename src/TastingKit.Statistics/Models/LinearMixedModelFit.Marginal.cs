namespace TastingKit.Statistics;

public sealed partial class LinearMixedModelFit
{
    /// <summary>Marginal means of a factor's levels: other factors averaged, covariates at their mean over the rows.</summary>
    /// <param name="factor">A factor of the fixed part.</param>
    /// <param name="weights">How the other factors are averaged.</param>
    /// <exception cref="ArgumentException">The fixed part has no such factor.</exception>
    /// <exception cref="ModelException">A mean needs a combination that the data do not hold.</exception>
    public IReadOnlyList<MarginalMean> MarginalMeans(string factor, MarginalWeights weights = MarginalWeights.Equal)
        => MarginalMeans([factor], weights);

    /// <summary>Marginal means of every combination of levels of several factors, the first factor's level changing fastest.</summary>
    /// <param name="factors">One or more factors of the fixed part.</param>
    /// <param name="weights">How the other factors are averaged.</param>
    /// <exception cref="ArgumentException">The fixed part has no such factor.</exception>
    /// <exception cref="ModelException">A mean needs a combination that the data do not hold.</exception>
    public IReadOnlyList<MarginalMean> MarginalMeans(IReadOnlyList<string> factors, MarginalWeights weights = MarginalWeights.Equal)
    {
        string name = string.Join(':', factors);
        return [.. Cells(factors, TastingKit.Statistics.Setting.Averaged(weights)).Select(cell =>
        {
            Estimate estimate = Estimate(cell.Function);
            return new MarginalMean(name, cell.Name, estimate.Value, estimate.StandardError, estimate.DegreesOfFreedom, estimate.Low, estimate.High, weights);
        })];
    }

    /// <summary>All pairwise differences of a factor's marginal means, named "a - b" in the order of the levels.</summary>
    /// <param name="factor">A factor of the fixed part.</param>
    /// <param name="adjustment">How the family of pairs is allowed for.</param>
    /// <param name="weights">How the other factors are averaged.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    public IReadOnlyList<Contrast> Contrasts(string factor, Adjustment adjustment = Adjustment.Simultaneous, MarginalWeights weights = MarginalWeights.Equal, double level = 0.95, ulong seed = 1)
        => Contrasts([factor], adjustment, TastingKit.Statistics.Setting.Averaged(weights), level, seed);

    /// <summary>All pairwise differences of the marginal means of combinations of several factors.</summary>
    /// <param name="factors">One or more factors of the fixed part.</param>
    /// <param name="adjustment">How the family of pairs is allowed for.</param>
    /// <param name="at">Where the other factors and the covariates stand, or null for equal weights and means.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    public IReadOnlyList<Contrast> Contrasts(IReadOnlyList<string> factors, Adjustment adjustment = Adjustment.Simultaneous, Setting? at = null, double level = 0.95, ulong seed = 1)
    {
        NamedFunction[] cells = [.. Cells(factors, at ?? TastingKit.Statistics.Setting.Averaged())];
        if (cells.Length < 2) throw new ArgumentException($"'{string.Join(':', factors)}' has {cells.Length} level; a contrast needs two.", nameof(factors));
        var pairs = new List<NamedFunction>();
        for (int i = 0; i < cells.Length; i++)
            for (int j = i + 1; j < cells.Length; j++) pairs.Add(new NamedFunction($"{cells[i].Name} - {cells[j].Name}", cells[i].Function - cells[j].Function));
        return ContrastFamily.Of(this, pairs, adjustment, level, seed, cells);
    }

    /// <summary>Custom contrasts as one family.</summary>
    /// <param name="family">Functions of this fit with their names.</param>
    /// <param name="adjustment">How the family is allowed for; Tukey's adjustment is for pairs only.</param>
    /// <param name="level">Coverage of the intervals.</param>
    /// <param name="seed">Seed of the simultaneous adjustment.</param>
    public IReadOnlyList<Contrast> Contrasts(IReadOnlyList<NamedFunction> family, Adjustment adjustment = Adjustment.Simultaneous, double level = 0.95, ulong seed = 1)
    {
        ArgumentNullException.ThrowIfNull(family);
        if (family.Count == 0) throw new ArgumentException("A family needs at least one contrast.", nameof(family));
        return ContrastFamily.Of(this, family, adjustment, level, seed, null);
    }

    /// <summary>
    /// Tests a fixed term as a whole. A factor's test is that its marginal means are equal, an interaction's that it vanishes; terms that contain
    /// the tested one are averaged over their other factors with equal weights (a type III hypothesis).
    /// </summary>
    /// <param name="term">A term's name: a column, a square "day^2", or columns joined by ':'.</param>
    /// <exception cref="ArgumentException">There is no such term; the message lists those there are.</exception>
    /// <exception cref="ModelException">The hypothesis needs a combination that the data do not hold.</exception>
    public OmnibusTest Test(string term)
    {
        FixedTerm tested = Design.FixedTerms.FirstOrDefault(each => each.Name == term)
            ?? throw new ArgumentException($"The fixed part has no term '{term}'; it has {(Design.FixedTerms.Count == 0 ? "none" : string.Join(", ", Design.FixedTerms.Select(each => $"'{each.Name}'")))}.", nameof(term));
        var functions = new TermHypothesis(_geometry, tested).Functions();
        foreach (LinearFunction function in functions) _system.Translator.CheckEstimable(function);
        return OmnibusTest.Of(this, term, functions);
    }

    /// <summary>The fixed part at every combination of levels of factors, named by the levels joined by ':'.</summary>
    /// <param name="factors">Factors of the fixed part.</param>
    /// <param name="at">Where everything else stands.</param>
    public IReadOnlyList<NamedFunction> Cells(IReadOnlyList<string> factors, Setting at)
    {
        ArgumentNullException.ThrowIfNull(factors);
        ArgumentNullException.ThrowIfNull(at);
        if (factors.Count == 0) throw new ArgumentException("Marginal means need at least one factor.", nameof(factors));
        CategoricalColumn[] columns = [.. factors.Select(Setting.Factor)];
        int count = columns.Aggregate(1, (product, column) => product * column.Levels.Count);
        var cells = new NamedFunction[count];
        for (int cell = 0; cell < count; cell++)
        {
            Setting setting = at;
            int remaining = cell;
            var names = new string[columns.Length];
            for (int c = 0; c < columns.Length; c++)
            {
                names[c] = columns[c].Levels[remaining % columns[c].Levels.Count];
                remaining /= columns[c].Levels.Count;
                setting = setting.With(columns[c].Name, names[c]);
            }

            cells[cell] = new NamedFunction(string.Join(':', names), At(setting));
        }

        return cells;
    }
}
