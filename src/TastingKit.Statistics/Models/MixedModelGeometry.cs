namespace TastingKit.Statistics;

/// <summary>
/// Everything of a design that does not depend on the response or on the variance parameters: cross-products in the order of elimination.
/// The group with the most effects leads and is block-diagonal; the other groups and the fixed columns, the rest, are dense.
/// </summary>
internal sealed class MixedModelGeometry
{
    private MixedModelGeometry(ModelDesign design)
    {
        Design = design;
        RowCount = design.RowCount;
        RootWeights = design.WeightArray is { } weights ? Array.ConvertAll(weights, Math.Sqrt) : null;
        FixedDesign = FixedDesign.Of(design);
        double[][] columns = FixedDesign.Columns(RowCount);
        if (RootWeights is not null)
        {
            foreach (double[] column in columns)
                for (int row = 0; row < RowCount; row++) column[row] *= RootWeights[row];
        }

        Fixed = OrthonormalBasis.Of(columns);
        Groups = GroupLayout.Of(design, RootWeights);
        Lead = Groups.Length > 0 ? Groups[0] : null;
        RandomRest = Groups.Skip(1).Sum(group => group.EffectCount);
        ParameterCount = Groups.Sum(group => group.Terms.Sum(term => term.ParameterCount));
        FixedRows = new double[(long)RowCount * Rank];
        for (int j = 0; j < Rank; j++)
            for (int row = 0; row < RowCount; row++) FixedRows[row * Rank + j] = Fixed.Columns[j][row];
        double logWeights = 0;
        if (design.WeightArray is not null)
        {
            foreach (double weight in design.WeightArray) logWeights += PortableMath.Log(weight);
        }

        LogWeights = logWeights;
        GroupOfRest = new int[RestOrder];
        for (int g = 1; g < Groups.Length; g++)
            GroupOfRest.AsSpan(Groups[g].EffectOffset - LeadEffects, Groups[g].EffectCount).Fill(g);
        RestProducts = new AlignedMatrix(Math.Max(RestOrder, 1), Math.Max(RestOrder, 1));
        AddRestProducts();
        LeadProducts = Lead is null ? [] : new double[Lead.LevelCount * Lead.Width * Lead.Width];
        (CrossStart, CrossIndex, CrossValues) = Lead is null ? ([0], [], []) : AddLeadProducts(Lead);
        (FilledStart, FilledPlaces) = Lead is null ? ([0], []) : Filled(Lead);
    }

    public ModelDesign Design { get; }

    public int RowCount { get; }

    public double[]? RootWeights { get; }

    public FixedDesign FixedDesign { get; }

    /// <summary>Orthonormal basis of the weighted fixed columns.</summary>
    public OrthonormalBasis Fixed { get; }

    /// <summary>The groups in the order of elimination.</summary>
    public GroupLayout[] Groups { get; }

    public GroupLayout? Lead { get; }

    public int LeadEffects => Lead?.EffectCount ?? 0;

    /// <summary>Number of effects of the groups that follow the leading one.</summary>
    public int RandomRest { get; }

    public int Rank => Fixed.Rank;

    /// <summary>Order of the dense part: effects of the other groups, then fixed columns.</summary>
    public int RestOrder => RandomRest + Rank;

    /// <summary>Number of places for effects in all groups.</summary>
    public int EffectCount => LeadEffects + RandomRest;

    public int ParameterCount { get; }

    /// <summary>The orthonormal fixed columns, row-major.</summary>
    public double[] FixedRows { get; }

    /// <summary>Sum of the logarithms of the prior weights.</summary>
    public double LogWeights { get; }

    /// <summary>For each index of the rest its group; 0 for fixed columns.</summary>
    public int[] GroupOfRest { get; }

    /// <summary>Cross-products of the rest with itself, both triangles.</summary>
    public AlignedMatrix RestProducts { get; }

    /// <summary>Level by level the cross-products of the leading group's columns, width × width.</summary>
    public double[] LeadProducts { get; }

    /// <summary>For each leading level the first of its entries in <see cref="CrossIndex"/>; one more at the end.</summary>
    public int[] CrossStart { get; }

    /// <summary>The indices of the rest that a leading level meets, ascending.</summary>
    public int[] CrossIndex { get; }

    /// <summary>Entry by entry the cross-products of an index of the rest with the leading level's columns.</summary>
    public double[] CrossValues { get; }

    /// <summary>For each leading level the first of its entries in <see cref="FilledPlaces"/>; one more at the end.</summary>
    public int[] FilledStart { get; }

    /// <summary>The places within a leading level that belong to an effect, ascending.</summary>
    public int[] FilledPlaces { get; }

    /// <summary>Whether a place of the leading group belongs to an effect: with no row, its columns are nought.</summary>
    public bool IsFilled(int leadEffect)
    {
        int width = Lead!.Width, place = leadEffect % width;
        return LeadProducts[leadEffect / width * width * width + place * width + place] > 0;
    }

    public static MixedModelGeometry Of(ModelDesign design) => new(design);

    /// <summary>Writes, for one row, the indices of the rest that it touches and their numbers.</summary>
    public int RestOfRow(int row, Span<int> indices, Span<double> values)
    {
        int count = 0;
        for (int g = 1; g < Groups.Length; g++)
        {
            GroupLayout group = Groups[g];
            int first = group.EffectOffset - LeadEffects + group.Codes[row] * group.Width;
            for (int effect = 0; effect < group.Width; effect++)
            {
                indices[count] = first + effect;
                values[count++] = group.Rows[row * group.Width + effect];
            }
        }

        for (int j = 0; j < Rank; j++)
        {
            indices[count] = RandomRest + j;
            values[count++] = FixedRows[row * Rank + j];
        }

        return count;
    }

    /// <summary>The most indices of the rest that a row touches.</summary>
    public int RestPerRow => Groups.Skip(1).Sum(group => group.Width) + Rank;

    private unsafe void AddRestProducts()
    {
        Span<int> indices = new int[RestPerRow];
        Span<double> values = new double[RestPerRow];
        for (int row = 0; row < RowCount; row++)
        {
            int count = RestOfRow(row, indices, values);
            for (int a = 0; a < count; a++)
            {
                double* target = RestProducts.Row(indices[a]);
                for (int b = 0; b <= a; b++) target[indices[b]] += values[a] * values[b];
            }
        }

        for (int i = 0; i < RestOrder; i++)
            for (int j = 0; j < i; j++) RestProducts[j, i] = RestProducts[i, j];
        GC.KeepAlive(this);
    }

    private (int[] Start, int[] Index, double[] Values) AddLeadProducts(GroupLayout lead)
    {
        int width = lead.Width;
        int[] rows = RowsByLevel(lead, out int[] rowStart);
        var start = new int[lead.LevelCount + 1];
        var index = new List<int>();
        var products = new List<double>();
        var position = new int[RestOrder];
        var stamp = new int[RestOrder];
        Array.Fill(stamp, -1);
        var touched = new List<int>();
        Span<int> indices = new int[RestPerRow];
        Span<double> values = new double[RestPerRow];
        for (int level = 0; level < lead.LevelCount; level++)
        {
            touched.Clear();
            for (int k = rowStart[level]; k < rowStart[level + 1]; k++)
            {
                int count = RestOfRow(rows[k], indices, values);
                for (int a = 0; a < count; a++)
                {
                    if (stamp[indices[a]] == level) continue;
                    stamp[indices[a]] = level;
                    touched.Add(indices[a]);
                }
            }

            touched.Sort();
            for (int entry = 0; entry < touched.Count; entry++) position[touched[entry]] = (start[level] + entry) * width;
            index.AddRange(touched);
            products.AddRange(Enumerable.Repeat(0.0, touched.Count * width));
            start[level + 1] = index.Count;
            Span<double> cross = System.Runtime.InteropServices.CollectionsMarshal.AsSpan(products);
            for (int k = rowStart[level]; k < rowStart[level + 1]; k++)
            {
                ReadOnlySpan<double> own = lead.Rows.AsSpan(rows[k] * width, width);
                Span<double> diagonal = LeadProducts.AsSpan(level * width * width, width * width);
                for (int a = 0; a < width; a++)
                    for (int b = 0; b < width; b++) diagonal[a * width + b] += own[a] * own[b];
                int count = RestOfRow(rows[k], indices, values);
                for (int entry = 0; entry < count; entry++)
                {
                    Span<double> target = cross.Slice(position[indices[entry]], width);
                    for (int a = 0; a < width; a++) target[a] += values[entry] * own[a];
                }
            }
        }

        return (start, [.. index], [.. products]);
    }

    private (int[] Start, int[] Places) Filled(GroupLayout lead)
    {
        var start = new int[lead.LevelCount + 1];
        var places = new List<int>();
        for (int level = 0; level < lead.LevelCount; level++)
        {
            places.AddRange(Enumerable.Range(0, lead.Width).Where(place => IsFilled(level * lead.Width + place)));
            start[level + 1] = places.Count;
        }

        return (start, [.. places]);
    }

    private int[] RowsByLevel(GroupLayout lead, out int[] start)
    {
        start = new int[lead.LevelCount + 1];
        foreach (int code in lead.Codes) start[code + 1]++;
        for (int level = 0; level < lead.LevelCount; level++) start[level + 1] += start[level];
        int[] next = start[..^1];
        var rows = new int[RowCount];
        for (int row = 0; row < RowCount; row++) rows[next[lead.Codes[row]]++] = row;
        return rows;
    }
}
