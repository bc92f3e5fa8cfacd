namespace TastingKit.Reading;

/// <summary>Reads <c>blind-tests.csv</c>.</summary>
internal static class BlindTestTable
{
    public const string File = "blind-tests.csv";

    private static readonly WordList<string> Protocols = new(
        ("triangle", ["triangle"]),
        ("duo-trio", ["duo-trio"]),
        ("paired", ["paired", "paired comparison"]));

    private static readonly IReadOnlyList<Column<Row>> Columns =
    [
        new TextColumn<Row>("test_id", TextUse.Identifier, r => r.Id, (r, v) => r.Id = v) { Required = true },
        new ValueColumn<Row, DateOnly>("tested_on", DateText.JudgeDay, r => r.TestedOn, (r, v) => r.TestedOn = v) { Required = true },
        new WordColumn<Row>("protocol", Protocols, r => r.Protocol, (r, v) => r.Protocol = v) { Required = true },
        new TextColumn<Row>("attribute", TextUse.Name, r => r.Attribute, (r, v) => r.Attribute = v),
        new TextColumn<Row>("bag_a", TextUse.Identifier, r => r.BagA, (r, v) => r.BagA = v) { Required = true },
        new TextColumn<Row>("bag_b", TextUse.Identifier, r => r.BagB, (r, v) => r.BagB = v) { Required = true },
        Count("trials", 1, r => r.Trials, (r, v) => r.Trials = v),
        Count("correct", 0, r => r.Correct, (r, v) => r.Correct = v),
    ];

    /// <summary>Reads the tests.</summary>
    public static IReadOnlyList<BlindTest> Read(SourceFile file, FileReports reports, ColumnMap map, BagRegister bags, CancellationToken cancellation)
    {
        var tests = new List<BlindTest>();
        var lines = new Dictionary<string, int>(StringComparer.Ordinal);
        new Table<Row>
        {
            Columns = Columns,
            IdColumn = "test_id",
            Map = map,
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (row.BagA is { } a)
                    bags.Require(a, "bag_a", rowReports);
                if (row.BagB is { } b)
                    bags.Require(b, "bag_b", rowReports);
                if (row is { Trials: { } allTrials, Correct: { } allCorrect } && allCorrect > allTrials)
                {
                    rowReports.Column(Severity.Rejected, "correct", FormattableString.Invariant($"{allCorrect} of {allTrials}"), new CellFault(
                        Rule.CorrectOverTrials, "More trials are correct than were made.", "at most as many correct as trials"));
                }

                if (row.Id is { } testId && !rowReports.Rejected && !lines.TryAdd(testId, rowReports.Line))
                {
                    rowReports.Column(Severity.Rejected, "test_id", testId, new CellFault(
                        Rule.DuplicateId, FormattableString.Invariant($"The identifier stands on line {lines[testId]} already."), "an identifier of its own for each row"));
                }

                if (!rowReports.Rejected
                    && row is { Id: { } id, TestedOn: { } on, Protocol: { } protocol, BagA: { } bagA, BagB: { } bagB, Trials: { } trials, Correct: { } correct })
                    tests.Add(new BlindTest(id, on, protocol, row.Attribute, bagA, bagB, trials, correct));
            },
        }.Read(file, reports, cancellation);
        return tests;
    }

    private static ValueColumn<Row, int> Count(string name, int least, Func<Row, int?> get, Action<Row, int> set)
    {
        var expected = FormattableString.Invariant($"a whole number from {least}");
        return new ValueColumn<Row, int>(name, Judge, get, set) { Required = true };

        Judged<int> Judge(Cell cell)
        {
            var judged = NumberText.Judge(cell, expected);
            if (judged.Fault is { } fault)
                return fault;
            return judged.Value >= least && judged.Value <= 1_000_000 && judged.Value == Math.Floor(judged.Value)
                ? (int)judged.Value
                : new CellFault(Rule.NumberOutOfRange, $"It is not {expected}.", expected);
        }
    }

    private sealed class Row
    {
        public string? Id { get; set; }
        public DateOnly? TestedOn { get; set; }
        public string? Protocol { get; set; }
        public string? Attribute { get; set; }
        public string? BagA { get; set; }
        public string? BagB { get; set; }
        public int? Trials { get; set; }
        public int? Correct { get; set; }
    }
}
