namespace TastingKit.Statistics;

/// <summary>
/// An ordinal design as arrays: categories, location, scale and nominal columns without those the data can't tell apart,
/// and random terms. Its parameters are numbered thresholds first, then location, scale, and the terms' standard deviations.
/// </summary>
internal sealed class OrdinalSystem
{
    private OrdinalSystem(OrdinalDesign design, OrdinalLink link, ThresholdMap map)
    {
        Link = link;
        Map = map;
        RowCount = design.RowCount;
        Categories = design.Response.CodeArray;
        CategoryCount = design.Response.Levels.Count;
        Weights = design.WeightArray;
    }

    public OrdinalLink Link { get; }

    public ThresholdMap Map { get; }

    public int RowCount { get; }

    /// <summary>The category of each row, from 0.</summary>
    public int[] Categories { get; }

    public int CategoryCount { get; }

    public double[]? Weights { get; }

    public double[][] Location { get; private init; } = [];

    public string[] LocationNames { get; private init; } = [];

    /// <summary>For each location column its index in the location's fixed design.</summary>
    public int[] LocationIndices { get; private init; } = [];

    public FixedDesign LocationDesign { get; private init; } = null!;

    public double[][] Scale { get; private init; } = [];

    public string[] ScaleNames { get; private init; } = [];

    /// <summary>Columns that thresholds are linear in, the constant first.</summary>
    public double[][] Nominal { get; private init; } = [];

    public string[] NominalNames { get; private init; } = [];

    /// <summary>For each nominal column its index in the nominal fixed design.</summary>
    public int[] NominalIndices { get; private init; } = [];

    public FixedDesign NominalDesign { get; private init; } = null!;

    public OrdinalTerm[] Terms { get; private init; } = [];

    /// <summary>Columns that were left out, in words.</summary>
    public string[] Dropped { get; private init; } = [];

    public int ThresholdParameters => Map.ParameterCount * Nominal.Length;

    public int LocationOffset => ThresholdParameters;

    public int ScaleOffset => LocationOffset + Location.Length;

    public int DeviationOffset => ScaleOffset + Scale.Length;

    public int ParameterCount => DeviationOffset + Terms.Length;

    public static OrdinalSystem Of(OrdinalDesign design, OrdinalMixedModelOptions options)
    {
        var map = ThresholdMap.Of(options.Thresholds, design.Response.Levels);
        var nominalDesign = FixedDesign.Of(design.Nominal);
        var nominal = Independent([], nominalDesign, design.RowCount);
        var locationDesign = FixedDesign.Of(design.Location);
        var location = Independent(nominal.Columns, locationDesign, design.RowCount);
        var scale = Independent([Ones(design.RowCount)], FixedDesign.Of(design.Scale), design.RowCount);
        if (design.Scale.FixedTerms.Count > 0 && design.Response.Levels.Count < 3)
        {
            throw new ModelException("Scale effects need three or more categories: with two, a wider scale can't be told from a shifted one.");
        }

        return new OrdinalSystem(design, options.Link, map)
        {
            Nominal = nominal.Columns,
            NominalNames = nominal.Names,
            NominalIndices = nominal.Indices,
            NominalDesign = nominalDesign,
            LocationDesign = locationDesign,
            Location = location.Columns,
            LocationNames = location.Names,
            LocationIndices = location.Indices,
            Scale = scale.Columns,
            ScaleNames = scale.Names,
            Terms = [.. design.Location.RandomTerms.Select(t => OrdinalTerm.Of(t, design.RowCount))],
            Dropped = [.. nominal.Dropped.Concat(location.Dropped).Concat(scale.Dropped)],
        };
    }

    private static double[] Ones(int rows)
    {
        var ones = new double[rows];
        Array.Fill(ones, 1.0);
        return ones;
    }

    // The constant of each part is what the thresholds (or a scale of one) already are, so it is dropped without a word.
    private static (double[][] Columns, string[] Names, int[] Indices, string[] Dropped) Independent(double[][] given, FixedDesign design, int rows)
    {
        double[][] columns = design.Columns(rows);
        var basis = OrthonormalBasis.Of([.. given, .. columns]);
        int[] kept = [.. basis.Kept.Where(i => i >= given.Length).Select(i => i - given.Length)];
        string[] dropped = [.. basis.Dropped.Select(i => design.Names[i - given.Length]).Where(n => n != RandomTerm.Intercept)];
        return ([.. kept.Select(i => columns[i])], [.. kept.Select(i => design.Names[i])], kept, dropped);
    }
}

/// <summary>A random term of one effect a level.</summary>
internal sealed class OrdinalTerm
{
    private OrdinalTerm(CategoricalColumn group, string name, double[]? multiplier, double unit)
    {
        Group = group;
        Name = name;
        Multiplier = multiplier;
        Unit = unit;
    }

    public CategoricalColumn Group { get; }

    /// <summary>"(Intercept)" or the covariate's name.</summary>
    public string Name { get; }

    /// <summary>The covariate of a slope over its root mean square, null for an intercept.</summary>
    public double[]? Multiplier { get; }

    /// <summary>What an effect in the system's terms is divided by to be one in the covariate's unit.</summary>
    public double Unit { get; }

    public static OrdinalTerm Of(RandomTerm term, int rows)
    {
        int levels = term.Group.Levels.Count;
        if (levels < 2)
        {
            throw new ModelException($"Group '{term.Group.Name}' has one level ('{term.Group.Levels[0]}'); how much levels vary can be told from two or more, better from five or more.");
        }

        if (term.HasIntercept && term.Slopes.Count == 0)
        {
            return new OrdinalTerm(term.Group, RandomTerm.Intercept, null, 1.0);
        }

        if (!term.HasIntercept && term.Slopes is [NumericColumn covariate])
        {
            if (covariate.Array.AsSpan().IndexOfAnyExcept(covariate.Array[0]) < 0)
            {
                throw new ModelException($"The slope on '{covariate.Name}' by '{term.Group.Name}' can't be estimated: '{covariate.Name}' has one value in all {rows} rows, and a slope needs at least two.");
            }

            double unit = Math.Sqrt(covariate.Array.Sum(x => x * x) / rows);
            return new OrdinalTerm(term.Group, covariate.Name, Array.ConvertAll(covariate.Array, x => x / unit), unit);
        }

        throw new ModelException($"A random term of an ordinal model is an intercept or the slope of one covariate; that by '{term.Group.Name}' has several effects a level.");
    }
}
