namespace TastingKit.Reading;

/// <summary>Reads <c>columns.csv</c>, the user's own headers.</summary>
internal static class ColumnMapTable
{
    public const string File = "columns.csv";

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new TextColumn<Row>("file", TextUse.Identifier, r => r.File, (r, v) => r.File = v) { Required = true },
        new TextColumn<Row>("written", TextUse.Identifier, r => r.Written, (r, v) => r.Written = v) { Required = true },
        new TextColumn<Row>("means", TextUse.Identifier, r => r.Means, (r, v) => r.Means = v) { Required = true },
    ];

    /// <summary>Reads the map.</summary>
    public static ColumnMap Read(SourceFile file, FileReports reports, CancellationToken cancellation)
    {
        var map = new ColumnMap();
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "written",
            Map = new ColumnMap(),
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (rowReports.Rejected || row is not { File: { } inFile, Written: { } written, Means: { } means })
                    return;
                if (!map.Add(inFile, written, means))
                {
                    rowReports.Column(Severity.Rejected, "written", written, new CellFault(
                        Rule.DuplicateId, "What the header means was stated before; the first statement holds.", "one row a header"));
                }
            },
        }.Read(file, reports, cancellation);
        return map;
    }

    private sealed class Row
    {
        public string? File { get; set; }
        public string? Written { get; set; }
        public string? Means { get; set; }
    }
}
