namespace TastingKit.Reading;

/// <summary>Reads <c>changes.csv</c>.</summary>
internal static class ChangeTable
{
    public const string File = "changes.csv";

    private static readonly WordList<string> Kinds = new(
        ("water", ["water"]),
        ("grinder", ["grinder"]),
        ("burrs", ["burrs", "burr"]),
        ("filter", ["filter", "filters"]),
        ("kettle", ["kettle"]));

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new ValueColumn<Row, DateOnly>("changed_on", DateText.JudgeDay, r => r.ChangedOn, (r, v) => r.ChangedOn = v) { Required = true },
        new WordColumn<Row>("what", Kinds, r => r.What, (r, v) => r.What = v) { Required = true },
        new TextColumn<Row>("from", TextUse.Name, r => r.From, (r, v) => r.From = v),
        new TextColumn<Row>("to", TextUse.Name, r => r.To, (r, v) => r.To = v),
    ];

    /// <summary>Reads the changes.</summary>
    public static IReadOnlyList<EquipmentChange> Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        var changes = new List<EquipmentChange>();
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "changed_on",
            Map = map,
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (!rowReports.Rejected && row is { ChangedOn: { } on, What: { } what })
                    changes.Add(new EquipmentChange(on, what, row.From, row.To));
            },
        }.Read(file, reports, cancellation);
        return changes;
    }

    private sealed class Row
    {
        public DateOnly? ChangedOn { get; set; }
        public string? What { get; set; }
        public string? From { get; set; }
        public string? To { get; set; }
    }
}
