using System.Globalization;
using System.Text;
using TastingKit.Reading;
using TastingKit.Statistics;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Reading;

/// <summary>Rows of a large file are judged ahead on other threads: what comes of them is what comes of them one by one.</summary>
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

    /// <summary>Rows of many files: what stands in row number n, and below them all.</summary>
    public static TheoryData<string, string, string, string> ManyRows => new()
    {
        { "spellings and words, met for the first time on whatever thread", Header, "T{0},B1,2025-04-01T08:{1},{2},15,250,7,n{0}\n", "" },
        { "days before months, told by a date far down", Header, "T{0},B1,0{3}/04/2025,spoon,15 g,250,7,n{0}\n", "TX,B1,25/04/2025,spoon,15,250,7,\n" },
        { "temperatures without a unit", "tasting_id,bag_id,tasted_at,brewer,dose_g,water_temp,score,remark\n", "T{0},B1,2025-04-01,spoon,15,9{3},7,n{0}\n", "TX,B1,2025-04-01,spoon,15,201,7,\n" },
        { "line breaks inside quotes, and empty lines", Header, "T{0},B1,2025-04-01,spoon,15,250,7,\"one\ntwo {0}\"\n\n", "" },
        { "a quote that is not closed below them", Header, "T{0},B1,2025-04-01,spoon,15,250,7,n{0}\n", "TX,B1,2025-04-01,spoon,15,250,7,\"open\nTY,B1,2025-04-01,spoon,15,250,7,\"closed\"\n" },
        { "quotes astray, rows too short and too long", Header, "T{0},B1,2025-04-01,spoon,15,250,7,n{0}\nU{0},B1,2025-04-01,an \"old\" spoon\n,,\nV{0},B1,2025-04-01,spoon,15,250,7,n,too,long\n", "" },
        { "the header in every other row", Header, Header + "T{0},B1,2025-04-01,spoon,15,250,7,n{0}\n", "" },
        { "a flat table", "tasting_id,bag_id,roaster,coffee,tasted_at,score,mood\n", "T{0},b{2},Roaster {3},Hill {2},2025-04-01T08:{1},{3},m{3}\n", "" },
    };

    [Theory]
    [MemberData(nameof(ManyRows))]
    public void What_is_judged_ahead_is_what_is_judged_in_order(string what, string header, string row, string below)
    {
        const int Times = 6000;
        var text = new StringBuilder(header);
        for (var i = 0; i < Times; i++)
        {
            // The same word in four spellings, new ones all the way down.
            var word = (i % 4) switch { 0 => "spoon", 1 => $"Spoon {i / 1000}", 2 => $"spoon {i / 1000}", _ => "SPOON" };
            text.AppendFormat(CultureInfo.InvariantCulture, row, i, (i % 60).ToString("D2", CultureInfo.InvariantCulture), word, 1 + i % 8);
        }

        text.Append(below);
        (string File, string Text)[] files = header.Contains("roaster", StringComparison.Ordinal)
            ? [("flat.csv", text.ToString())]
            : [("bags.csv", "bag_id,coffee,roast_date\nB1,Aponte Ridge,2025-03-01\n"), ("tastings.csv", text.ToString())];

        var ahead = LogInMemory.Read(files);
        // Where the cells are asked for as they are written, rows are judged one by one.
        var inOrder = LogReader.Read(
            LogFiles.InMemory("in memory", files.Select(file => KeyValuePair.Create(file.File, new ReadOnlyMemory<byte>(Encoding.UTF8.GetBytes(file.Text))))),
            CancellationToken.None, new ReadingTrace(keepCells: true));

        Assert.True(ahead.Tastings.Count >= Times, what);
        Assert.Equal(inOrder.Problems, ahead.Problems);
        Assert.Equal(inOrder.Accounts, ahead.Accounts);
        Assert.Null(LogDifference.First(inOrder, ahead));
        Assert.Equal(inOrder.Tastings.Select(Written), ahead.Tastings.Select(Written));

        static string Written(Tasting cup) => $"{cup.Id}: {string.Join("; ", cup.AsWritten.OrderBy(one => one.Key, StringComparer.Ordinal).Select(one => $"{one.Key} {one.Value}"))}";
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void Stretches_are_handed_out_in_order_and_hold_every_row(int threads)
    {
        var text = Lines(5000);
        using var ahead = Ahead(text, threads, (start, end) => text[start..end]);

        var met = new List<string>();
        while (ahead.Next() is { } stretch)
            met.AddRange(stretch.Rows.ToArray().Select(row => row.Reports.RowId!));

        Assert.Equal(Enumerable.Range(1, 4999).Select(i => $"r{i}"), met);
        Assert.Null(ahead.Next());
    }

    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    public void What_goes_wrong_on_another_thread_is_thrown_where_the_rows_are_taken(int threads)
    {
        using var ahead = Ahead(Lines(5000), threads, (_, _) => throw new InvalidOperationException("no such stretch"));

        Assert.Equal("no such stretch", Assert.Throws<InvalidOperationException>(() =>
        {
            while (ahead.Next() is not null)
            {
            }
        }).Message);
    }

    [Fact]
    public void Stretches_end_before_a_record_that_is_cut_for_its_quotes()
    {
        byte[] text = [.. Lines(2000), .. "\"open\nnext,\"closed\"\n"u8];
        using var records = new RecordReader(text, ',');
        var stretches = new Stretches(records, text.Length);

        var end = 0;
        while (stretches.Next() is { } stretch)
        {
            Assert.Equal(end, stretch.Start);
            Assert.True(text[stretch.End - 1] == '\n');
            end = stretch.End;
        }

        Assert.Equal(end, stretches.Rest.Offset);
        Assert.InRange(end, 1, Lines(2000).Length);
        Assert.Equal(1 + text.Take(end).Count(b => b == '\n'), stretches.Rest.Line);
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

    private const string Header = "tasting_id,bag_id,tasted_at,brewer,dose_g,water_g,score,remark\n";

    private static byte[] Lines(int count) => Encoding.UTF8.GetBytes(string.Concat(Enumerable.Range(0, count).Select(i => $"r{i}\n")));

    /// <summary>Judges the lines below the first, cells of no known column.</summary>
    private static JudgedAhead<int[]> Ahead(byte[] text, int threads, Func<int, int, byte[]> part)
    {
        var reports = new FileReports("rows.csv");
        var records = new RecordReader(text, ',');
        Assert.True(records.Read());
        BoundField<int[]>[] fields = [new("id", null, null, false)];
        return new JudgedAhead<int[]>(
            new Stretches(records, text.Length), threads, stretch => new RecordReader(part(stretch.Start, stretch.End), ',', stretch.Line),
            () => new RowJudge<int[]>(fields, ["id"u8.ToArray()], [new HeldColumn("id", null, false)], new RecordReports(reports.Apart(), records, 0), null),
            () => new JudgedStretch<int[]>(() => [0], _ => { }, reports));
    }
}
