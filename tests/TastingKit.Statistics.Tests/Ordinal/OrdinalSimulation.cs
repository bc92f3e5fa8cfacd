namespace TastingKit.Statistics.Tests;

/// <summary>Ordered responses from a stated truth, for tests.</summary>
internal sealed class OrdinalSimulation
{
    private OrdinalSimulation(CategoricalColumn response, CategoricalColumn factor, CategoricalColumn period, NumericColumn covariate, CategoricalColumn group, CategoricalColumn crossed, double[] weights)
    {
        Response = response;
        Factor = factor;
        Period = period;
        Covariate = covariate;
        Group = group;
        Crossed = crossed;
        Weights = weights;
    }

    public CategoricalColumn Response { get; }

    /// <summary>Three levels, a (reference), b (0.8) and c (−0.5).</summary>
    public CategoricalColumn Factor { get; }

    /// <summary>Two levels without effect.</summary>
    public CategoricalColumn Period { get; }

    /// <summary>Standard normal, slope 0.6.</summary>
    public NumericColumn Covariate { get; }

    /// <summary>Standard deviation 1.</summary>
    public CategoricalColumn Group { get; }

    /// <summary>Standard deviation 0.5.</summary>
    public CategoricalColumn Crossed { get; }

    /// <summary>Whole numbers from 1 to 3.</summary>
    public double[] Weights { get; }

    public static OrdinalSimulation Create(ulong seed, int rows, int groups, int categories, OrdinalLink link = OrdinalLink.Logit)
    {
        var random = new RandomStream(seed);
        double[] effects = [.. Enumerable.Range(0, groups).Select(_ => random.NextNormal())];
        double[] crossed = [.. Enumerable.Range(0, 12).Select(_ => 0.5 * random.NextNormal())];
        double[] shifts = [0.0, 0.8, -0.5];
        var response = new string[rows];
        var factor = new string[rows];
        var period = new string[rows];
        var covariate = new double[rows];
        var group = new string[rows];
        var second = new string[rows];
        var weights = new double[rows];
        for (int i = 0; i < rows; i++)
        {
            int f = random.NextInt32(3);
            int g = i % groups;
            int c = random.NextInt32(12);
            factor[i] = "abc"[f].ToString();
            period[i] = random.NextInt32(2) == 0 ? "early" : "late";
            covariate[i] = random.NextNormal();
            group[i] = FormattableString.Invariant($"g{g:000}");
            second[i] = FormattableString.Invariant($"h{c:00}");
            weights[i] = 1 + random.NextInt32(3);
            double u = random.NextDouble();
            double noise = link == OrdinalLink.Logit ? Math.Log(u / (1.0 - u)) : random.NextNormal();
            double latent = shifts[f] + 0.6 * covariate[i] + effects[g] + crossed[c] + noise;
            int step = (int)Math.Floor(latent / 0.9 + categories / 2.0);
            response[i] = FormattableString.Invariant($"{Math.Clamp(step, 0, categories - 1) + 1}");
        }

        return new OrdinalSimulation(
            CategoricalColumn.From("score", response, [.. Enumerable.Range(1, categories).Select(k => FormattableString.Invariant($"{k}"))]),
            CategoricalColumn.From("factor", factor),
            CategoricalColumn.From("period", period),
            new NumericColumn("covariate", covariate),
            CategoricalColumn.From("group", group),
            CategoricalColumn.From("crossed", second),
            weights);
    }
}
