using System.Text;
using Xunit.Abstractions;

namespace TastingKit.Tests.Log.Reading;

/// <summary>Files made to be hard to read cost what their size allows: four times the file takes about four times the memory.</summary>
public sealed class HardFileTests(ITestOutputHelper output)
{
    private const string Header = "tasting_id,bag_id,tasted_at,score,notes,remark\n";

    // So small that the rows are taken on the thread that the memory is counted of.
    private const int Size = 37_500;

    public static TheoryData<string, string> Kinds => new()
    {
        { "sound rows", "T#,B1,2025-04-01,7,tea; lime,kept\n" },
        { "quotes alone", "\"" },
        { "delimiters alone", "," },
        { "line ends alone", "\n" },
        { "an unclosed quote a row", "T#,B1,2025-04-01,7,\"tea,kept\n" },
        { "text after every quote", "T#,B1,2025-04-01,7,\"te\"a,kept\n" },
        { "semicolons in one cell", ";" },
        { "a report a cell", "T#,B9,2025-02-30,99,na;na,a row of words with one bell \u0007 in it\n" },
        { "rows cut off before the day", "T#,B1\n" },
        { "rows of one letter", "x\n" },
        { "letters that are none", "\uFFFD" },
        { "rows of one bag that is not there", "T#,B9,2025-04-01,7,tea,kept\n" },
        { "the header again and again", Header },
        { "one identifier for all", "T1,B1,2025-04-01,7,tea,kept\n" },
        { "dates in two orders", "T#,B1,03/04/2025,7,tea,kept\n" },
        { "a new word a row", "T#,B1,2025-04-01,7,n#w,r#k\n" },
        { "apostrophes", "'=" },
    };

    [Theory]
    [MemberData(nameof(Kinds))]
    public void Four_times_the_file_takes_about_four_times_the_memory(string kind, string piece)
    {
        var costs = new ReadingCosts(File("T#,B1,2025-04-01,7,tea; lime,kept\n", 4 * Size));
        var (small, large) = (File(piece, Size), File(piece, 4 * Size));
        // What is kept for later files, such as arrays of a pool, is made beforehand.
        Measured(small);
        Measured(large);

        var (once, four) = (Measured(small), Measured(large));
        costs.Add(large, four, kind);
        output.WriteLine(costs.ToString());

        // A byte costs no more in the larger file; what is made once a log makes it less.
        Assert.InRange(four.Bytes / once.Bytes, 0, 1.3);
    }

    private static ReadingCosts.Cost Measured((string File, byte[] Bytes)[] files) => ReadingCosts.Of(files, () => LogInMemory.Read(files), out var _, out var _);

    private static (string File, byte[] Bytes)[] File(string piece, int size)
    {
        var text = new StringBuilder(Header);
        for (var row = 1; text.Length < size; row++)
            text.Append(piece.Replace("#", row.ToString(System.Globalization.CultureInfo.InvariantCulture), StringComparison.Ordinal));
        return [("bags.csv", "bag_id,coffee,roast_date\nB1,Halo,2025-03-01\n"u8.ToArray()), ("tastings.csv", Encoding.UTF8.GetBytes(text.ToString()))];
    }
}
