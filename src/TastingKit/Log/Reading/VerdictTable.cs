namespace TastingKit.Reading;

/// <summary>Reads <c>verdicts.csv</c>.</summary>
internal static class VerdictTable
{
    public const string File = "verdicts.csv";

    /// <summary>Reads the verdicts.</summary>
    public static IReadOnlyList<PublishedVerdict> Read(
        SourceFile file, FileReports reports, ColumnMap map, BagRegister bags, Scale scoreScale, CancellationToken cancellation)
    {
        var verdicts = new List<PublishedVerdict>();
        new Table<Row>
        {
            Columns =
            [
                new ValueColumn<Row, DateOnly>("published_on", DateText.JudgeDay, r => r.PublishedOn, (r, v) => r.PublishedOn = v) { Required = true },
                new TextColumn<Row>("bag_id", TextUse.Identifier, r => r.BagId, (r, v) => r.BagId = v) { Required = true },
                new ValueColumn<Row, double>("score", cell => JudgeScore(cell, scoreScale), r => r.Score, (r, v) => r.Score = v),
                new TextColumn<Row>("sentence", TextUse.Free, r => r.Sentence, (r, v) => r.Sentence = v),
                new TextColumn<Row>("disclosure", TextUse.Free, r => r.Disclosure, (r, v) => r.Disclosure = v),
                new ValueColumn<Row, DateOnly>("corrected_on", DateText.JudgeDay, r => r.CorrectedOn, (r, v) => r.CorrectedOn = v),
            ],
            IdColumn = "bag_id",
            Map = map,
            Begin = () => new Row(),
            End = (row, rowReports) =>
            {
                if (row.BagId is { } bagId)
                    bags.Require(bagId, "bag_id", rowReports);
                if (!rowReports.Rejected && row is { PublishedOn: { } publishedOn, BagId: { } id })
                    verdicts.Add(new PublishedVerdict(publishedOn, id, row.Score, row.Sentence, row.Disclosure, row.CorrectedOn));
            },
        }.Read(file, reports, cancellation);
        return verdicts;
    }

    private static Judged<double> JudgeScore(Cell cell, Scale scale)
    {
        var expected = FormattableString.Invariant($"a number from {scale.Min} to {scale.Max}");
        var judged = NumberText.Judge(cell, expected);
        return judged.Fault is null && !scale.Contains(judged.Value)
            ? new CellFault(Rule.ScoreOffScale, "It lies off the scale of the score; the cell was left missing.", expected)
            : judged;
    }

    private sealed class Row
    {
        public DateOnly? PublishedOn { get; set; }
        public string? BagId { get; set; }
        public double? Score { get; set; }
        public string? Sentence { get; set; }
        public string? Disclosure { get; set; }
        public DateOnly? CorrectedOn { get; set; }
    }
}
