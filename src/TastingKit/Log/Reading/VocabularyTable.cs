namespace TastingKit.Reading;

/// <summary>Reads <c>vocabulary.csv</c>, what the user's own words mean.</summary>
internal static class VocabularyTable
{
    public const string File = "vocabulary.csv";

    private static readonly WordList<VocabularyKind> Kinds = new(
        (VocabularyKind.Process, ["process"]),
        (VocabularyKind.Country, ["country", "origin"]),
        (VocabularyKind.Brewer, ["brewer"]),
        (VocabularyKind.Roaster, ["roaster"]),
        (VocabularyKind.Variety, ["variety", "varietal"]),
        (VocabularyKind.Note, ["note", "notes"]));

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new ValueColumn<Row, VocabularyKind>("kind", Kinds.Judge, r => r.Kind, (r, v) => r.Kind = v) { Required = true },
        new TextColumn<Row>("written", TextUse.Identifier, r => r.Written, (r, v) => r.Written = v) { Required = true },
        new TextColumn<Row>("means", TextUse.Identifier, r => r.Means, (r, v) => r.Means = v) { Required = true },
    ];

    /// <summary>Reads the entries.</summary>
    public static IReadOnlyList<VocabularyEntry> Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        var entries = new List<VocabularyEntry>();
        var lines = new Dictionary<(VocabularyKind, string), int>();
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "written",
            Map = map,
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (rowReports.Rejected || row is not { Kind: { } kind, Written: { } written, Means: { } means })
                    return;
                if (!lines.TryAdd((kind, Words.Folded(written)), rowReports.Line))
                {
                    rowReports.Column(Severity.Rejected, "written", written, new CellFault(Rule.DuplicateId,
                        FormattableString.Invariant($"What the word means is stated on line {lines[(kind, Words.Folded(written))]}; that holds."), "one row a word"));
                    return;
                }

                entries.Add(new VocabularyEntry(kind, written, means));
            },
        }.Read(file, reports, cancellation);
        return entries;
    }

    private sealed class Row
    {
        public VocabularyKind? Kind { get; set; }
        public string? Written { get; set; }
        public string? Means { get; set; }
    }
}
