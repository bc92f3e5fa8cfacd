namespace TastingKit.Statistics.Tests.LinearModels;

/// <summary>A small random data set with a random model, for the engine and for plain dense algebra alike.</summary>
internal sealed class RandomDesign
{
    /// <summary>Up to this seed factors are crossed at random; above it the first group holds another, as a coffee holds bags.</summary>
    public const int CrossedSeeds = 40;

    public RandomDesign(ulong seed)
    {
        var random = new RandomStream(seed);
        int rows = 40 + random.NextInt32(60);
        double[] x = [.. Enumerable.Range(0, rows).Select(_ => 60 * random.NextDouble() + 200 * random.NextInt32(2))];
        string[] levels = [.. Enumerable.Range(0, rows).Select(row => "f" + (row < 3 ? row : random.NextInt32(3)))];
        Response = [.. x.Select(value => 6 + 0.01 * value + 0.7 * random.NextNormal())];
        var covariate = new NumericColumn("x", x);
        var factor = CategoricalColumn.From("f", levels);
        double[] one = [.. Enumerable.Repeat(1.0, rows)], second = [.. levels.Select(l => l == "f1" ? 1.0 : 0)], third = [.. levels.Select(l => l == "f2" ? 1.0 : 0)];
        FixedColumns = [one, x, second, third];
        Weights = random.NextInt32(2) == 0 ? [.. Enumerable.Range(0, rows).Select(_ => 0.5 + random.NextDouble())] : null;
        var groups = new List<CategoricalColumn>();
        for (int g = 0; g <= random.NextInt32(3); g++) groups.Add(Group(random, $"g{g}", rows, x));
        CategoricalColumn? inner = seed > CrossedSeeds ? Within(random, groups[0]) : null;
        var design = ModelDesign.For("y", Response).WithFixed(covariate).WithFixed(factor);
        if (Weights is not null) design = design.WithWeights(Weights);
        foreach (CategoricalColumn group in groups)
        {
            int[] codes = group.Codes.ToArray();
            int count = group.Levels.Count;
            switch (random.NextInt32(5))
            {
                case 0:
                    design = design.WithRandomEffects(group, true, covariate);
                    Terms.Add(DenseTerm.Of(codes, count, one, x));
                    break;
                case 1:
                    design = design.WithRandomIntercept(group).WithRandomSlope(group, covariate);
                    Terms.Add(DenseTerm.Of(codes, count, one));
                    Terms.Add(DenseTerm.Of(codes, count, x));
                    break;
                case 2:
                    design = design.WithRandomEffects(group, true, factor);
                    Terms.Add(DenseTerm.Of(codes, count, one, second, third));
                    break;
                default:
                    design = design.WithRandomIntercept(group);
                    Terms.Add(DenseTerm.Of(codes, count, one));
                    break;
            }
        }

        if (inner is not null)
        {
            groups.Add(inner);
            design = design.WithRandomIntercept(inner);
            Terms.Add(DenseTerm.Of(inner.Codes.ToArray(), inner.Levels.Count, one));
        }

        Design = design;
        Groups = groups;
    }

    public ModelDesign Design { get; }

    public double[] Response { get; }

    public double[][] FixedColumns { get; }

    public double[]? Weights { get; }

    public List<DenseTerm> Terms { get; } = [];

    public IReadOnlyList<CategoricalColumn> Groups { get; }

    public DenseMixedModel Dense() => new(Response, FixedColumns, Weights, Terms);

    /// <summary>The covariance matrix of each term as a fit reports it.</summary>
    public static List<double[,]> Covariances(LinearMixedModelFit fit) => [.. fit.VarianceComponents.Select(component =>
    {
        var covariance = new double[component.Terms.Count, component.Terms.Count];
        for (int i = 0; i < component.Terms.Count; i++)
            for (int j = 0; j < component.Terms.Count; j++) covariance[i, j] = component.StandardDeviations[i] * component.StandardDeviations[j] * (component.Correlation(i, j) ?? 0);
        return covariance;
    })];

    private CategoricalColumn Within(RandomStream random, CategoricalColumn outer)
    {
        string[] levels = [.. outer.Codes.ToArray().Select(code => $"{outer.Levels[code]}/{random.NextInt32(1 + code % 4)}")];
        var inner = CategoricalColumn.From("inner", levels);
        double[] intercepts = [.. inner.Levels.Select(_ => 0.6 * random.NextNormal())];
        for (int row = 0; row < levels.Length; row++) Response[row] += intercepts[inner.Codes[row]];
        return inner;
    }

    private CategoricalColumn Group(RandomStream random, string name, int rows, double[] x)
    {
        int levels = 4 + random.NextInt32(8);
        double spread = random.NextInt32(4) == 0 ? 0 : 0.4 + random.NextDouble(), slope = 0.01 * random.NextDouble();
        double[] intercepts = [.. Enumerable.Range(0, levels).Select(_ => spread * random.NextNormal())], slopes = [.. Enumerable.Range(0, levels).Select(_ => slope * random.NextNormal())];
        int[] codes = [.. Enumerable.Range(0, rows).Select(row => row < levels ? row : random.NextInt32(levels))];
        for (int row = 0; row < rows; row++) Response[row] += intercepts[codes[row]] + slopes[codes[row]] * x[row];
        return CategoricalColumn.From(name, [.. codes.Select(code => "l" + code)]);
    }
}
