using System.Globalization;
using System.Text;
using TastingKit.Reading;
using TastingKit.Statistics;

namespace TastingKit.Tests.Log.Reading;

/// <summary>Rows of a large file are taken on a thread of their own: what comes of them is what comes of them one by one.</summary>
public sealed class ManyRowsTests
{
    private const int Rows = 12_000;

    /// <summary>What is planted in the rows of a large log, in turn, and the reports that it makes on its line: the cell's first, the row's after them.</summary>
    private static readonly (string Cells, string[] Rules)[] Planted =
    [
        ("B1,2025-04-01,15,250,7", []),
        ("B1,2025-04-01,heaps,250,7", ["not-a-number"]),
        ("B9,2025-04-01,15,250,99", ["score-off-scale", "unknown-bag"]),
        ("B1,2025-02-30,15,250,7", ["date-impossible"]),
        ("B1,2025-04-01,15,900,7.25", ["score-between-steps", "ratio-unusual"]),
        ("B1,2025-04-01,15,250,7,too,much", ["extra-cells"]),
        ("B1,2025-04-01,15,250", ["missing-cells"]),
    ];

    [Fact]
    public void A_large_log_has_each_report_on_its_line_in_its_order()
    {
        var random = new RandomStream(5);
        var text = new StringBuilder("tasting_id,bag_id,tasted_at,dose_g,water_g,score,remark\n");
        var expected = new List<(int Line, string Rule)>();
        for (var row = 0; row < Rows; row++)
        {
            var (cells, rules) = Planted[row % 10 == 0 ? 1 + random.NextInt32(Planted.Length - 1) : 0];
            // A remark of its own, so that no row says the same as another.
            text.Append(CultureInfo.InvariantCulture, $"T{row},{cells}{(rules is ["missing-cells"] ? "" : $",n{row}")}\n");
            expected.AddRange(rules.Select(rule => (row + 2, rule)));
        }

        var log = LogInMemory.ReadCups(text.ToString());

        string[] planted = [.. Planted.SelectMany(one => one.Rules)];
        Assert.Equal(expected, log.Problems.Where(problem => planted.Contains(problem.Rule) && problem.Line > 0).Select(problem => (problem.Line, problem.Rule)));
        Assert.All(log.Problems.Where(problem => problem.Line > 1 && problem.RowId is not null), problem => Assert.Equal($"T{problem.Line - 2}", problem.RowId));
        var rejected = expected.Where(one => one.Rule is "unknown-bag" or "date-impossible" or "extra-cells").Select(one => one.Line).Distinct().Count();
        Assert.Equal((Rows, rejected), (log.AccountOf("tastings.csv").Rows, log.AccountOf("tastings.csv").Rejected));
        Assert.Equal(Rows - rejected, log.Tastings.Count);
    }

    [Fact]
    public void Reports_of_both_threads_stand_as_those_of_one()
    {
        var (one, two) = (Reports(many: false), Reports(many: true));

        Assert.NotEmpty(one);
        Assert.Equal(one, two);
    }

    [Fact]
    public void What_goes_wrong_on_the_other_thread_is_thrown_where_the_rows_are_read()
    {
        var reports = new FileReports("rows.csv");
        using var handover = Handover(reports, many: true, (row, _) => throw new InvalidOperationException($"row {row[0]}"));
        HandOnAll(handover, reports);

        Assert.Equal("row 0", Assert.Throws<InvalidOperationException>(handover.Finish).Message);
    }

    [Theory]
    [InlineData(0.0)]
    [InlineData(0.2)]
    [InlineData(1.0)]
    public void An_identifier_is_met_twice_where_it_stands_twice_in_whatever_order(double shareMoved)
    {
        var random = new RandomStream(7);
        int[] numbers = [.. Enumerable.Range(0, 500)];
        for (var i = 0; i < shareMoved * numbers.Length; i++)
            numbers[random.NextInt32(numbers.Length)] = random.NextInt32(600);
        var ids = new Identifiers();
        var seen = new Dictionary<string, int>(StringComparer.Ordinal);

        for (var line = 2; line < numbers.Length + 2; line++)
        {
            var id = $"T{numbers[line - 2]}";
            var isNew = ids.TryAdd(id, line, out var first);
            Assert.Equal(seen.TryAdd(id, line), isNew);
            Assert.Equal(seen[id], first);
            // A row that is rejected after all leaves its identifier to a later one.
            if (isNew && random.NextInt32(10) == 0)
            {
                ids.RemoveLast(id);
                seen.Remove(id);
            }
        }
    }

    private static List<LogProblem> Reports(bool many)
    {
        var reports = new FileReports("rows.csv");
        using var handover = Handover(reports, many, (row, judged) =>
        {
            if (row[0] % 3 == 0)
                judged.Row(row[0] % 2 == 0 ? Severity.Doubtful : Severity.Rejected, "", Fault(judged.Rejected ? "after-rejected" : "after"));
        });
        HandOnAll(handover, reports);
        handover.Finish();
        return [.. reports.Problems];
    }

    private static RowHandover<int[]> Handover(FileReports reports, bool many, Action<int[], JudgedRow> take) =>
        new(reports, () => new int[1], row => row[0] = -1, take, many);

    private static void HandOnAll(RowHandover<int[]> handover, FileReports reports)
    {
        using var records = new RecordReader(Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(0, 5000).Select(i => $"r{i}\n"))), ',');
        var record = new RecordReports(reports, records, 0);
        for (var i = 0; records.Read(); i++)
        {
            var row = handover.Next();
            row[0] = i;
            if (i % 5 == 0)
                record.Row(i % 10 == 0 ? Severity.Rejected : Severity.Doubtful, "", Fault("before"));
            handover.HandOn(record);
        }
    }

    private static CellFault Fault(string rule) => new(rule, "why", "expected");
}
