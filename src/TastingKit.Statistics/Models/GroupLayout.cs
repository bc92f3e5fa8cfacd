namespace TastingKit.Statistics;

/// <summary>
/// A grouping factor with all its random terms, whose effects stand together level by level; the leading one takes in the intercepts of
/// factors nested in it, which leaves the less to be eliminated densely.
/// </summary>
internal sealed class GroupLayout
{
    // Places that an outer level does not fill cost time and hold nothing.
    private const int PlacesPerEffect = 3;

    // Above this many effects a level the small factors, which are made without vectors, cost more than they save.
    private const int MostTogether = 24;

    // What the choice of the leading group is reckoned with.
    private const double FixedColumns = 20;
    private const double ProductsAtOnce = 4;

    // So many products take a tenth of a millisecond; below, the most effects together lead.
    private const double NoMatter = 1e5;

    private GroupLayout(CategoricalColumn group, RandomTermLayout[] terms, int rowCount)
    {
        Group = group;
        Terms = terms;
        foreach (RandomTermLayout term in terms)
        {
            term.Join(this, Width);
            Width += term.Width;
            IsDiagonal &= term.Width == 1 || term.HasCommonVariance;
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

    /// <summary>Number of places for effects, those that no level of a nested factor fills included.</summary>
    public int EffectCount => LevelCount * Width;

    /// <summary>Whether the relative covariance factor is diagonal.</summary>
    public bool IsDiagonal { get; } = true;

    /// <summary>Position of the group's first effect among all effects.</summary>
    public int EffectOffset { get; private set; }

    /// <summary>The columns that the effects multiply, row-major, rows × width.</summary>
    public double[] Rows { get; }

    public int[] Codes => Group.CodeArray;

    /// <summary>Gathers the terms by group, the group with the most effects first.</summary>
    public static GroupLayout[] Of(ModelDesign design, double[]? rootWeights)
    {
        var groups = new List<(CategoricalColumn Group, RandomTerm[] Terms)>();
        foreach (var same in design.RandomTerms.GroupBy(term => term.Group.Name, StringComparer.Ordinal))
        {
            CategoricalColumn group = same.First().Group;
            if (same.Any(term => !ReferenceEquals(term.Group, group) && !term.Group.Codes.SequenceEqual(group.Codes)))
                throw new ModelException($"Two different grouping factors are called '{group.Name}'; a factor's name must be its own.");
            groups.Add((group, [.. same]));
        }

        var own = design.RandomTerms.ToDictionary(term => term, term => RandomTermLayout.Of(term, design.RowCount, rootWeights));
        var nests = groups.Select(outer => Nest(outer.Group, WidthOf(outer.Terms), groups)).ToArray();
        int lead = groups.Count == 0 ? -1 : Enumerable.Range(0, groups.Count).MinBy(g => (Math.Max(Cost(g), NoMatter), -Together(g)));
        var taken = lead < 0 ? [] : nests[lead].Select(inner => inner.Term.Group).ToHashSet();
        foreach (var (term, nesting) in lead < 0 ? [] : nests[lead]) own[term] = RandomTermLayout.OfNested(term, nesting, design.RowCount, rootWeights);
        GroupLayout[] ordered =
        [
            .. groups.Index().Where(each => !taken.Contains(each.Item.Group)).OrderByDescending(each => each.Index == lead).ThenByDescending(each => EffectsOf(each.Item))
                .Select(each => new GroupLayout(each.Item.Group, [.. each.Item.Terms.Concat(each.Index == lead ? nests[lead].Select(inner => inner.Term) : []).Select(term => own[term])], design.RowCount)),
        ];
        int offset = 0;
        foreach (GroupLayout group in ordered)
        {
            group.EffectOffset = offset;
            offset += group.EffectCount;
        }

        // Parameters keep the order in which the terms were added, whatever the order of elimination.
        int parameter = 0;
        foreach (RandomTerm term in design.RandomTerms)
        {
            own[term].ParameterOffset = parameter;
            parameter += own[term].ParameterCount;
        }

        return ordered;

        int WidthOf(RandomTerm[] terms) => terms.Sum(term => own[term].Width);

        // Products to be added up: those of the dense rest, several at once, and those of each leading level with itself and with what it meets of the rest.
        double Cost(int lead)
        {
            double together = WidthOf(groups[lead].Terms) + nests[lead].Sum(inner => inner.Nesting.Width);
            double levels = groups[lead].Group.Levels.Count;
            var nested = nests[lead].Select(inner => inner.Term.Group).ToHashSet();
            var rest = groups.Where((group, g) => g != lead && !nested.Contains(group.Group)).ToArray();
            double order = rest.Sum(group => (double)EffectsOf(group)) + FixedColumns;
            double met = rest.Sum(group => WidthOf(group.Terms) * Math.Min(group.Group.Levels.Count, design.RowCount / levels)) + FixedColumns;
            return order * order * order / 3 / ProductsAtOnce + levels * together * (together * together / 3 + together * met + met * met / 2);
        }

        int Together(int lead) => EffectsOf(groups[lead]) + nests[lead].Sum(inner => inner.Term.Group.Levels.Count);

        int EffectsOf((CategoricalColumn Group, RandomTerm[] Terms) group) => group.Group.Levels.Count * WidthOf(group.Terms);
    }

    /// <summary>The intercepts that can be eliminated together with a group's own effects, those with the most levels first.</summary>
    private static List<(RandomTerm Term, Nesting Nesting)> Nest(CategoricalColumn outer, int width, List<(CategoricalColumn Group, RandomTerm[] Terms)> groups)
    {
        var nested = new List<(RandomTerm, Nesting)>();
        foreach (var (inner, terms) in groups.OrderByDescending(group => group.Group.Levels.Count))
        {
            if (ReferenceEquals(inner, outer) || terms is not [{ HasIntercept: true, Slopes.Count: 0 } term] || Nesting.Of(inner, outer) is not { } nesting) continue;
            if (width + nesting.Width > MostTogether || outer.Levels.Count * nesting.Width > PlacesPerEffect * inner.Levels.Count) continue;
            width += nesting.Width;
            nested.Add((term, nesting));
        }

        return nested;
    }
}
