namespace TastingKit.Statistics;

/// <summary>A grouping factor with all its random terms, whose effects stand together level by level.</summary>
internal sealed class GroupLayout
{
    private GroupLayout(CategoricalColumn group, RandomTermLayout[] terms, int rowCount)
    {
        Group = group;
        Terms = terms;
        foreach (RandomTermLayout term in terms)
        {
            term.Offset = Width;
            Width += term.Width;
        }

        Rows = new double[(long)rowCount * Width];
        foreach (RandomTermLayout term in terms)
        {
            for (int effect = 0; effect < term.Width; effect++)
            {
                double[] column = term.Columns[effect];
                for (int row = 0; row < rowCount; row++) Rows[row * Width + term.Offset + effect] = column[row];
            }
        }
    }

    public CategoricalColumn Group { get; }

    public RandomTermLayout[] Terms { get; }

    public int LevelCount => Group.Levels.Count;

    /// <summary>Number of effects a level, over all terms.</summary>
    public int Width { get; }

    public int EffectCount => LevelCount * Width;

    /// <summary>Position of the group's first effect among all effects.</summary>
    public int EffectOffset { get; private set; }

    /// <summary>The columns that the effects multiply, row-major, rows × width.</summary>
    public double[] Rows { get; }

    public int[] Codes => Group.CodeArray;

    /// <summary>Gathers the terms by group, the group with the most effects first.</summary>
    public static GroupLayout[] Of(ModelDesign design, double[]? rootWeights)
    {
        var terms = design.RandomTerms.Select(term => RandomTermLayout.Of(term, design.RowCount, rootWeights)).ToArray();
        var groups = new List<GroupLayout>();
        foreach (var same in terms.GroupBy(term => term.Term.Group.Name, StringComparer.Ordinal))
        {
            CategoricalColumn group = same.First().Term.Group;
            if (same.Any(term => !ReferenceEquals(term.Term.Group, group) && !term.Term.Group.Codes.SequenceEqual(group.Codes)))
                throw new ModelException($"Two different grouping factors are called '{group.Name}'; a factor's name must be its own.");
            groups.Add(new GroupLayout(group, [.. same], design.RowCount));
        }

        var ordered = groups.OrderByDescending(group => group.EffectCount).ToArray();
        int offset = 0;
        foreach (GroupLayout group in ordered)
        {
            group.EffectOffset = offset;
            offset += group.EffectCount;
        }

        // Parameters keep the order in which the terms were added, whatever the order of elimination.
        int parameter = 0;
        foreach (RandomTermLayout term in terms)
        {
            term.ParameterOffset = parameter;
            parameter += term.ParameterCount;
        }

        return ordered;
    }
}
