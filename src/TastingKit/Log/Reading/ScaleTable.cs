namespace TastingKit.Reading;

/// <summary>Reads <c>scales.csv</c>.</summary>
internal static class ScaleTable
{
    public const string File = "scales.csv";

    private static readonly WordList<ScaleKind> Kinds = new(
        (ScaleKind.Liking, ["liking"]),
        (ScaleKind.Intensity, ["intensity"]),
        (ScaleKind.Quality, ["quality"]),
        (ScaleKind.JustRight, ["just-right", "just about right"]));

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new TextColumn<Row>("attribute", TextUse.Identifier, r => r.Attribute, (r, v) => r.Attribute = v) { Required = true },
        new ValueColumn<Row, ScaleKind>("kind", Kinds.Judge, r => r.Kind, (r, v) => r.Kind = v) { Required = true },
        Bound("min", r => r.Min, (r, v) => r.Min = v),
        Bound("max", r => r.Max, (r, v) => r.Max = v),
        Bound("step", r => r.Step, (r, v) => r.Step = v),
    ];

    /// <summary>Reads the scales, each with the line it stands on.</summary>
    public static IReadOnlyList<(Scale Scale, int Line)> Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        var scales = new List<(Scale Scale, int Line)>();
        var lines = new Dictionary<TastingAttribute, int>();
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "attribute",
            Map = map,
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (rowReports.Rejected || row is not { Attribute: { } name, Kind: { } kind, Min: { } min, Max: { } max, Step: { } step })
                    return;
                if (max <= min || step <= 0 || step > max - min)
                {
                    rowReports.Row(Severity.Rejected, FormattableString.Invariant($"{min}, {max}, {step}"), new CellFault(
                        Rule.ScaleNotRead, "A scale runs from a lower to a higher number in steps that fit between.", "min below max, and a step above 0"));
                    return;
                }

                var attribute = TastingColumns.AttributeNamed(name);
                if (!lines.TryAdd(attribute, rowReports.Line))
                {
                    rowReports.Row(Severity.Rejected, name, new CellFault(Rule.DuplicateId,
                        FormattableString.Invariant($"The scale of {attribute} was stated on line {lines[attribute]}; the first statement holds."), "one row an attribute"));
                    return;
                }

                scales.Add((new Scale(attribute, kind, min, max, step), rowReports.Line));
            },
        }.Read(file, reports, cancellation);
        return scales;
    }

    private static ValueColumn<Row, double> Bound(string name, Func<Row, double?> get, Action<Row, double> set) =>
        new(name, cell => NumberText.Judge(cell, "a number such as 0.5"), get, set) { Required = true };

    private sealed class Row
    {
        public string? Attribute { get; set; }
        public ScaleKind? Kind { get; set; }
        public double? Min { get; set; }
        public double? Max { get; set; }
        public double? Step { get; set; }
    }
}
