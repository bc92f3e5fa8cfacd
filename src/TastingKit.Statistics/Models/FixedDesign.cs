namespace TastingKit.Statistics;

/// <summary>The fixed part of a design as named columns of numbers, coded by treatment contrasts.</summary>
/// <remarks>
/// A factor in a term is coded by contrasts where the term without it is in the model as well, else by one column a level,
/// so that the columns span the same space whichever margins are present. In an interaction the first column's index runs fastest.
/// </remarks>
internal sealed class FixedDesign
{
    private FixedDesign(IReadOnlyList<CodedTerm> terms, string[] names)
    {
        Terms = terms;
        Names = names;
    }

    public IReadOnlyList<CodedTerm> Terms { get; }

    public string[] Names { get; }

    public int Width => Names.Length;

    public static FixedDesign Of(ModelDesign design)
    {
        var terms = new List<CodedTerm>();
        var names = new List<string>();
        if (design.HasIntercept)
        {
            terms.Add(new CodedTerm(null, [], 0));
            names.Add(RandomTerm.Intercept);
        }

        bool spanned = design.HasIntercept;
        foreach (FixedTerm term in design.FixedTerms)
        {
            var parts = new List<CodedColumn>();
            foreach (Column column in term.Columns)
            {
                bool contrasts = true;
                if (column is CategoricalColumn)
                {
                    var others = term.Columns.Where(other => other.Name != column.Name).ToArray();
                    contrasts = others.Length == 0 ? spanned : design.FixedTerms.Any(each => each.HasSameVariables(others));
                    if (others.Length == 0) spanned = true;
                }

                parts.Add(new CodedColumn(column, contrasts, term.IsSquare));
            }

            var coded = new CodedTerm(term, parts, names.Count);
            terms.Add(coded);
            for (int column = 0; column < coded.Width; column++) names.Add(coded.ColumnName(column));
        }

        return new FixedDesign(terms, [.. names]);
    }

    /// <summary>All columns, one array a column.</summary>
    public double[][] Columns(int rowCount)
    {
        var columns = new double[Width][];
        foreach (CodedTerm term in Terms)
            for (int column = 0; column < term.Width; column++) columns[term.Offset + column] = term.Values(column, rowCount);
        return columns;
    }
}

/// <summary>A fixed term with the coding of each of its columns; a null term is the intercept.</summary>
internal sealed record CodedTerm(FixedTerm? Term, IReadOnlyList<CodedColumn> Parts, int Offset)
{
    public int Width { get; } = Parts.Aggregate(1, (width, part) => width * part.Width);

    public string ColumnName(int column) => string.Join(':', Indices(column).Select((index, part) => Parts[part].ColumnName(index)));

    public double[] Values(int column, int rowCount)
    {
        var values = new double[rowCount];
        Array.Fill(values, 1.0);
        int[] indices = Indices(column);
        for (int part = 0; part < Parts.Count; part++) Parts[part].MultiplyInto(values, indices[part]);
        return values;
    }

    /// <summary>The index into each part of one of the term's columns.</summary>
    public int[] Indices(int column)
    {
        var indices = new int[Parts.Count];
        for (int part = 0; part < Parts.Count; part++)
        {
            indices[part] = column % Parts[part].Width;
            column /= Parts[part].Width;
        }

        return indices;
    }
}
