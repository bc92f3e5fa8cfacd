using System.Globalization;
using System.Text;
using CsCheck;
using TastingKit.Reading;
using TastingKit.Tests.Log.Reading;
using TastingKit.Tests.Log.Writing;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Properties;

/// <summary>What holds of every log, over logs that CsCheck makes.</summary>
public sealed class ReadingPropertyTests
{
    [Fact]
    public void A_log_is_the_same_in_every_dialect() => Property.Holds(Gen.Select(WrittenLog.All, WrittenLog.Dialect.All), pair =>
    {
        var (written, dialect) = pair;
        var (plain, other) = (written.Read(), dialect.Read(written));

        Assert.Null(LogDifference.First(plain, other));
        Assert.Equal(plain.Accounts, other.Accounts);
        Assert.Equal(Doubts(plain), Doubts(other));
        Assert.Equal((written.Bags.Length, written.Cups.Length), (other.Bags.Count, other.Tastings.Count));
    });

    [Fact]
    public void A_log_is_the_same_in_every_order_of_its_rows() => Property.Holds(
        WrittenLog.All.SelectMany(log => Gen.Shuffle(log.Cups).Select(cups => (log, log with { Cups = cups }))),
        pair => Assert.Null(LogDifference.First(pair.Item1.Read(), pair.Item2.Read())));

    [Fact]
    public void A_log_written_and_read_is_the_same_log() => Property.Holds(WrittenLog.All, written =>
    {
        var log = written.Read();
        var files = LogWriter.Lay(log);
        var readBack = LogInMemory.Read([.. files.Select(file => (file.Name, file.Bytes))]);

        Assert.Null(LogDifference.First(log, readBack));
        Assert.All(files.Zip(LogWriter.Lay(readBack)), pair => Assert.Equal(pair.First.Bytes, pair.Second.Bytes));
    });

    [Fact]
    public void Whatever_stands_in_the_cells_no_row_is_lost_and_what_is_accepted_comes_back() => Property.Holds(AnyCells, rows =>
    {
        var text = string.Concat(rows.Prepend(WrittenLog.CupHeader).Select(row => string.Join(',', row.Select(cell => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")) + "\n"));
        var files = LogFiles.InMemory("log", [
            KeyValuePair.Create("bags.csv", new ReadOnlyMemory<byte>("bag_id,coffee\nB1,Halo\nB2,Mist\n"u8.ToArray())),
            KeyValuePair.Create("tastings.csv", new ReadOnlyMemory<byte>(Encoding.UTF8.GetBytes(text)))]);
        var log = LogReader.Read(files, CancellationToken.None);

        var (met, accepted, _, rejected) = log.AccountOf("tastings.csv");
        Assert.Equal((met, accepted), (accepted + rejected, log.Tastings.Count));
        Assert.InRange(met, rows.Count(row => !row.All(cell => Cell.Of(Encoding.UTF8.GetBytes(cell)).IsEmpty)), rows.Length);
        SpoiledLogTests.AssertComesBack(files);
    });

    [Fact]
    public void A_quantity_is_the_same_in_every_unit_and_writing() => Property.Holds(Quantities, quantities =>
    {
        var text = "tasting_id,bag_id,tasted_at,dose_g,ratio,water_temp,brew_time\n"
            + string.Concat(quantities.Select((q, i) => $"T{i},B1,2025-04-01,{q.Dose.Text},{q.Ratio.Text},{q.Celsius.Text},{q.Seconds.Text}\n"));
        var log = LogInMemory.ReadCups(text);

        foreach (var cup in log.Tastings)
        {
            var q = quantities[int.Parse(cup.Id.AsSpan(1), CultureInfo.InvariantCulture)];
            // An ounce and a gram a litre are converted and rounded where they are written.
            Assert.Equal(q.Dose.Value, cup.DoseGrams!.Value, 9);
            Assert.Equal(q.Ratio.Value, cup.StatedRatio!.Value, 9);
            Assert.Equal(q.Celsius.Value, cup.WaterCelsius!.Value, 9);
            Assert.Equal(q.Seconds.Value, cup.BrewTime!.Value.TotalSeconds, 9);
        }

        Assert.Equal(quantities.Length, log.Tastings.Count);
    });

    private static readonly Gen<string[][]> AnyCells = Gen.Frequency(
        (3, Gen.OneOf("", "T1", "T2", "B1", "B2", "2025-03-14", "2025-03-15T08:30", "14/03/2025", "7", "15.5", "1:16", "94C", "3:15", "test", "none", "=1+1", "'=a")),
        (2, Gen.String[0, 12]),
        (1, Gen.Double.Select(number => number.ToString("R", CultureInfo.InvariantCulture))),
        (1, Gen.String["0123456789.,:/-+eE CFg%"])).Array[WrittenLog.CupHeader.Length].Array[0, 6];

    private static readonly Gen<(Written Dose, Written Ratio, Written Celsius, Written Seconds)[]> Quantities = Gen.Select(
        OneOf(Gen.Int[10, 60].Select(half => half / 2.0), g => [$"{g:0.##}", $"{g:0.##} g", $"{g:0.##}g"]),
        OneOf(Gen.OneOf(10, 12.5, 16, 20, 25), r => [$"{r:0.##}", $"1:{r:0.##}", $"{r:0.##}:1", $"{1000 / r:0.##} g/L"]),
        OneOf(Gen.Int[160, 198].Select(half => half / 2.0), c => [$"{c:0.##}C", $"{c:0.##} °C", $"{c * 1.8 + 32:0.##}F", $"{c * 1.8 + 32:0.##} °F"]),
        OneOf(Gen.Int[61, 599].Select(s => (double)s), s => [$"{s}", $"{s} s", $"{(int)s / 60}:{s % 60:00}", $"{(int)s / 60}m{s % 60}s", $"{(int)s / 60}m {s % 60}s"])).Array[1, 8];

    private static Gen<Written> OneOf(Gen<double> values, Func<double, FormattableString[]> writings) =>
        Gen.Select(values, Gen.Int[0, 100], (value, which) => new Written(value, writings(value)[which % writings(value).Length].ToString(CultureInfo.InvariantCulture)));

    private static IEnumerable<(string Rule, string File, string? RowId)> Doubts(TastingLog log) =>
        log.Problems.Where(problem => problem.Severity != Severity.Information).Select(problem => (problem.Rule, problem.File, problem.RowId));

    private sealed record Written(double Value, string Text);
}
