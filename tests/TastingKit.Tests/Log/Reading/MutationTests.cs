using System.Text;
using TastingKit.Statistics;
using Xunit.Abstractions;

namespace TastingKit.Tests.Log.Reading;

/// <summary>
/// Sound files spoiled at random, by a stated seed: whatever is done to them, reading ends with a log whose rows are all accounted for,
/// or with the one clear error.
/// </summary>
public sealed class MutationTests(ITestOutputHelper output)
{
    private const ulong Seed = 20250314;
    private const double MostMemory = 10;

    /// <summary>How many logs each test spoils: 5,000, or as many as TASTINGKIT_FUZZ_INPUTS says.</summary>
    private static readonly int Mutations =
        int.Parse(Environment.GetEnvironmentVariable("TASTINGKIT_FUZZ_INPUTS") ?? "5000", System.Globalization.CultureInfo.InvariantCulture);

    private static readonly (string File, string Text)[] Sound =
    [
        ("bags.csv", "bag_id,coffee_id,roaster,coffee,country,process,decaf,roast_date,net_weight_g,price,shelf\n"
            + string.Concat(Enumerable.Range(1, 6).Select(i => $"B{i},C{i % 4},Lantern,\"Café {i}, ridge\",Peru; 雲南,washed,no,2025-03-0{i},250 g,18.5{i},top\n"))),
        ("tastings.csv", "tasting_id,bag_id,tasted_at,position,purpose,brewer,dose_g,water_g,water_temp,brew_time,tds_pct,frozen_on,blind_to,score,sweetness,notes,remark,mood\n"
            + string.Concat(Enumerable.Range(1, 24).Select(i =>
                $"T{i},B{i % 6 + 1},2025-04-{i:00}T08:30,{i % 3 + 1},verdict,\"cone \"\"{i}\"\"\",15,250,94C,3:15,1.35,,label,{i % 9 + 1},{i % 15},\"apricot; tea;\nhoney\",kept,good\n"))),
        ("scales.csv", "attribute,kind,min,max,step\nscore,liking,1,9,1\nsweetness,intensity,0,15,1\n"),
        ("verdicts.csv", "published_on,bag_id,score,sentence\n2025-05-01,B1,7,\"Sweet, and lasting\"\n2025-05-02,B2,6,fine\n"),
        ("blind-tests.csv", "test_id,tested_on,protocol,bag_a,bag_b,trials,correct\nD1,2025-05-01,triangle,B1,B2,12,7\n"),
        ("changes.csv", "changed_on,what,from,to\n2025-04-10,water,soft,hard\n"),
        ("columns.csv", "file,written,means\ntastings,Laune,mood\n"),
    ];

    private static readonly byte[][] Pieces =
    [
        "\""u8.ToArray(), ","u8.ToArray(), ";"u8.ToArray(), "\n"u8.ToArray(), "\r"u8.ToArray(), "\t"u8.ToArray(), "\0"u8.ToArray(), [0xFF], [0xE9], [0xC2], [0xEF, 0xBB, 0xBF],
        "\"\""u8.ToArray(), ",,,,"u8.ToArray(), "\n\n"u8.ToArray(), "0"u8.ToArray(), "-"u8.ToArray(), "999999999999"u8.ToArray(), "NaN"u8.ToArray(), "test"u8.ToArray(),
        "2025-02-30"u8.ToArray(), "=cmd()"u8.ToArray(), "tasting_id"u8.ToArray(), [0xED, 0xA0, 0x80], [0xF0, 0x9F, 0x98],
    ];

    private static readonly string[] Nasty =
    [
        "", " ", "\"", "\"\"", ",", ";", "\n", "\r\n", "\u0000", "\uFEFF", "\uFFFD", "𝟕", "٣", "-0", "1e400", "NaN", "∞", "0x10", "9999-12-31", "0001-01-01", "2025-02-30", "2025-03-14T24:00",
        "2025-03-14T08:30+99:99", "99:99", "00:00:00", "-1", "1.", ".5", "+", ".", "1,5", "C", "94CC", "1e1C", "#REF!", "=1+1", "yes;no", "label;;coffee", ";;;", "TEST", "mmm", "n/a",
        "B1", "T1", "bag_id", new string('x', 5000), new string('9', 5000), new string(';', 500), "\u202Eevil", "e\u0301", "<script>alert(1)</script>",
    ];

    [Fact]
    public void Spoiled_bytes_never_break_reading_or_lose_a_row()
    {
        var random = new RandomStream(Seed);
        var unreadable = 0;
        var costs = new ReadingCosts([.. Sound.Select(file => (file.File, Encoding.UTF8.GetBytes(file.Text)))]);
        for (var i = 0; i < Mutations; i++)
        {
            (string File, byte[] Bytes)[] files = [.. Sound.Select(file => (file.File, Encoding.UTF8.GetBytes(file.Text)))];
            var spoiled = random.NextInt32(files.Length);
            // A header lacks a needed column soon; three times in four only the rows below it are spoiled.
            var kept = random.NextInt32(4) == 0 ? 0 : Sound[spoiled].Text.IndexOf('\n', StringComparison.Ordinal) + 1;
            var rows = files[spoiled].Bytes[kept..];
            for (var count = 1 + random.NextInt32(6); count > 0; count--)
                rows = Spoil(rows, random);
            files[spoiled].Bytes = [.. files[spoiled].Bytes[..kept], .. rows];
            var input = $"mutation {i} of {files[spoiled].File}";
            try
            {
                var cost = ReadingCosts.Of(files, () => LogInMemory.Read(files), out var log, out var error);
                costs.Add(files, cost, input);
                if (log is not null)
                    AssertAccountedFor(log, input);
                unreadable += error is null ? 0 : 1;
                Assert.True(error is null || error.Message.Length > 40, error?.Message);
            }
            catch (Exception error) when (error is not Xunit.Sdk.XunitException)
            {
                throw new InvalidOperationException($"{input}: {error.Message}", error);
            }
        }

        output.WriteLine(costs.ToString());
        // Memory that is given out is the same in every run, unlike time, which is only told.
        Assert.True(costs.MostMemory <= MostMemory, costs.ToString());
        // Most spoiled logs can still be read: were they not, the property above would say nothing.
        Assert.InRange(unreadable, 1, Mutations / 3);
    }

    [Fact]
    public void Spoiled_cells_never_change_the_number_of_rows()
    {
        var random = new RandomStream(Seed);
        for (var i = 0; i < Mutations; i++)
        {
            var header = Sound[1].Text[..Sound[1].Text.IndexOf('\n', StringComparison.Ordinal)].Split(',');
            var rows = Enumerable.Range(1, 8).Select(row => Enumerable.Range(0, header.Length).Select(_ => "").ToArray()).ToArray();
            for (var row = 0; row < rows.Length; row++)
            {
                (rows[row][0], rows[row][1], rows[row][2]) = ($"T{row}", "B1", "2025-04-01");
                var cell = random.NextInt32(header.Length);
                rows[row][cell] = Nasty[random.NextInt32(Nasty.Length)];
            }

            var text = string.Join(',', header) + "\n" + string.Concat(rows.Select(row => string.Join(',', row.Select(cell => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")) + "\n"));
            var log = LogInMemory.Read(Sound[0], ("tastings.csv", text));

            AssertAccountedFor(log, $"table {i}");
            Assert.Equal(8, log.AccountOf("tastings.csv").Rows);
        }
    }

    private static void AssertAccountedFor(TastingLog log, string what)
    {
        foreach (var account in log.Accounts)
        {
            Assert.True(account.Rows == account.Accepted + account.Rejected, $"{what}: {account}");
            Assert.InRange(account.Doubtful, 0, account.Accepted);
            var rejectedLines = log.Problems.Where(problem => problem.File == account.File && problem.Severity == Severity.Rejected).Select(problem => problem.Line).Distinct();
            Assert.True(rejectedLines.Count() == account.Rejected, $"{what}: {account}");
        }

        // A second row of a bag is accepted and adds to the first.
        var edits = log.Problems.Where(problem => problem is { File: "bags.csv", Rule: "bag-edited" }).Select(problem => problem.Line).Distinct().Count();
        Assert.True(log.AccountOf("bags.csv").Accepted == log.Bags.Count + edits, what);
        Assert.True(log.AccountOf("tastings.csv").Accepted == log.Tastings.Count, what);
        foreach (var cup in log.Tastings)
        {
            Assert.True(cup.Score is null || log.ScaleOf(TastingAttribute.Score).Contains(cup.Score.Value), what);
            Assert.True(cup.RestDays is null or >= 0, what);
        }
    }

    private static byte[] Spoil(byte[] bytes, RandomStream random)
    {
        if (bytes.Length == 0)
            return [.. Pieces[random.NextInt32(Pieces.Length)]];
        var at = random.NextInt32(bytes.Length);
        var length = Math.Min(random.NextInt32(40), bytes.Length - at);
        return random.NextInt32(7) switch
        {
            0 => [.. bytes[..at], .. bytes[(at + length)..]],
            1 => [.. bytes[..at], .. bytes[at..(at + length)], .. bytes[at..]],
            2 => [.. bytes[..at], (byte)random.NextInt32(256), .. bytes[(at + 1)..]],
            3 => bytes[..at],
            4 => [.. bytes[..at], .. bytes[at..(at + length)].Reverse(), .. bytes[(at + length)..]],
            _ => [.. bytes[..at], .. Pieces[random.NextInt32(Pieces.Length)], .. bytes[at..]],
        };
    }
}
