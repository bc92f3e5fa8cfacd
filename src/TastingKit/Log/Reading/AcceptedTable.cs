namespace TastingKit.Reading;

/// <summary>Reads <c>accepted.csv</c>, the doubts that the user looked at and confirmed.</summary>
internal static class AcceptedTable
{
    public const string File = "accepted.csv";

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new TextColumn<Row>("rule", TextUse.Identifier, r => r.Rule, (r, v) => r.Rule = v) { Required = true },
        new TextColumn<Row>("file", TextUse.Identifier, r => r.File, (r, v) => r.File = v) { Required = true },
        new TextColumn<Row>("row_id", TextUse.Free, r => r.RowId, (r, v) => r.RowId = v) { AlsoWritten = ["row", "tasting_id", "bag_id"] },
        new TextColumn<Row>("column", TextUse.Free, r => r.Column, (r, v) => r.Column = v),
        new TextColumn<Row>("found", TextUse.Free, r => r.Found, (r, v) => r.Found = v),
        new TextColumn<Row>("beside", TextUse.Free, r => r.Beside, (r, v) => r.Beside = v),
        new TextColumn<Row>("remark", TextUse.Free, r => r.Remark, (r, v) => r.Remark = v) { AlsoWritten = ["reason", "remarks"] },
    ];

    /// <summary>Reads the lines that name a rule whose findings can be confirmed; the others are rejected.</summary>
    public static IReadOnlyList<AcceptedEntry> Read(SourceFile file, FileReports reports, ColumnMap map, CancellationToken cancellation)
    {
        var entries = new List<AcceptedEntry>();
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "row_id",
            Map = map,
            Begin = () => new Row(),
            // Lines are taken over from a list of reports, which has columns of its own.
            KeepOthers = (_, _) => { },
            End = (row, rowReports) =>
            {
                if (rowReports.Rejected || row is not { Rule: { } rule, File: { } inFile })
                    return;
                if (LogRule.Named(rule) is not { CanBeAccepted: true } known)
                {
                    rowReports.Column(Severity.Rejected, "rule", rule, new CellFault(Rule.AcceptedRefused,
                        LogRule.Named(rule) is null ? "There is no such rule." : "What this rule finds was left missing or rejected, and no confirmation brings it back.",
                        $"one of {string.Join(", ", LogRule.All.Where(one => one.CanBeAccepted).Select(one => one.Name))}; or the row itself mended"));
                    return;
                }

                entries.Add(new AcceptedEntry(rowReports.Line, new FindingKey(known.Name, inFile, row.RowId ?? "", row.Column ?? "", row.Found ?? "", row.Beside ?? ""), row.Remark));
            },
        }.Read(file, reports, cancellation);
        return entries;
    }

    private sealed class Row
    {
        public string? Rule { get; set; }
        public string? File { get; set; }
        public string? RowId { get; set; }
        public string? Column { get; set; }
        public string? Found { get; set; }
        public string? Beside { get; set; }
        public string? Remark { get; set; }
    }
}

/// <summary>A line of <c>accepted.csv</c>.</summary>
/// <param name="Line">Its line.</param>
/// <param name="Finding">What it confirms.</param>
/// <param name="Remark">The user's reason.</param>
internal sealed record AcceptedEntry(int Line, FindingKey Finding, string? Remark);

/// <summary>
/// What a finding is known by: where it is, by identifiers, and every value that it rests on. Sorting rows leaves it as it is; a changed value
/// makes it another.
/// </summary>
internal sealed record FindingKey
{
    public FindingKey(string rule, string file, string rowId, string column, string found, string beside) =>
        // Reports on several folders name the folder, and those on a workbook the workbook, in which the confirmation stands; a sheet stands for a file.
        (Rule, File, RowId, Column, Found, Beside) =
            (rule, Words.Folded(Path.GetFileNameWithoutExtension(file[(file.LastIndexOf('/') + 1)..])), rowId.Trim(), column.Trim(), found.Trim(), beside.Trim());

    public string Rule { get; }

    public string File { get; }

    public string RowId { get; }

    public string Column { get; }

    public string Found { get; }

    public string Beside { get; }

    /// <summary>The key of a report.</summary>
    public static FindingKey Of(LogProblem problem) =>
        new(problem.Rule, problem.File, RowIdOf(problem), problem.Column, problem.Found, problem.Beside);

    /// <summary>The row's identifier, or the name by which a row without one goes; empty for a report on a whole column or file.</summary>
    public static string RowIdOf(LogProblem problem) =>
        problem.RowId ?? (problem.Line > 0 ? FormattableString.Invariant($"line-{problem.Line}") : "");
}
