using System.Text;

namespace TastingKit.Tests.Log.Reading;

/// <summary>What can't be read at all: one clear sentence that says where, what was found and what would be right.</summary>
public sealed class UnreadableTests
{
    [Fact]
    public void A_folder_that_is_not_there()
    {
        var error = Assert.Throws<LogReadException>(() => TastingLog.Read(Path.Combine(Path.GetTempPath(), "no-such-log-folder")));

        Assert.Contains("no-such-log-folder", error.Message, StringComparison.Ordinal);
        Assert.Contains("tastings.csv", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_folder_without_a_csv_file()
    {
        var folder = Directory.CreateTempSubdirectory("tasting-log-");
        File.WriteAllText(Path.Combine(folder.FullName, "notes.txt"), "none");

        var error = Assert.Throws<LogReadException>(() => TastingLog.Read(folder.FullName));

        Assert.Contains("holds no CSV file with cups", error.Message, StringComparison.Ordinal);
        folder.Delete(recursive: true);
    }

    [Fact]
    public void Several_files_of_which_any_could_hold_the_cups()
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("a.csv", "bag_id,tasted_at\n"), ("b.csv", "bag_id,tasted_at\n")));

        Assert.Contains("a.csv, b.csv", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("")]
    [InlineData("\n\n  \n")]
    public void An_empty_file(string text)
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("tastings.csv", text)));

        Assert.Contains("tastings.csv is empty", error.Message, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("bag_id,score\nB1,7\n", "tasted_at")]
    [InlineData("tasted_at,score\n2025-03-14,7\n", "bag_id")]
    [InlineData("\nbag_id|tasted_at|score\nB1|2025-03-14|7\n", "line 2")]
    public void A_header_without_what_every_row_needs(string text, string named)
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("tastings.csv", text)));

        Assert.Contains("tastings.csv has no column", error.Message, StringComparison.Ordinal);
        Assert.Contains(named, error.Message, StringComparison.Ordinal);
        Assert.Contains("score", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_workbook_under_a_csv_name()
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("tastings.csv", [0x50, 0x4B, 3, 4, 20, 0, 6, 0])));

        Assert.Contains("workbook", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void Bytes_that_are_no_text()
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("tastings.csv", [.. Enumerable.Range(0, 256).Select(i => (byte)i)])));

        Assert.Contains("tastings.csv is no text", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_beside_the_cups_that_lacks_its_columns()
    {
        var error = Assert.Throws<LogReadException>(() => LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("scales.csv", "attribute,min,max\nscore,0,10\n")));

        Assert.Contains("scales.csv has no column kind and no column step", error.Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_file_that_is_none_of_the_log_s_is_told_and_let_be()
    {
        var log = LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("tastings.csv", "bag_id,tasted_at\n"), ("shopping.csv", "what\nmilk\n"));

        Assert.Equal("shopping.csv", log.Only("file-not-read").File);
        Assert.DoesNotContain(log.Accounts, account => account.File == "shopping.csv");
    }

    [Fact]
    public void A_file_that_is_none_of_a_log_s_is_said_not_to_be_read() =>
        Assert.Equal("recipes.csv", LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("tastings.csv", "bag_id,tasted_at\n"), ("recipes.csv", "a,b\n")).Only("file-not-read").File);

    [Fact]
    public void A_log_of_bags_without_cups_is_a_log()
    {
        var log = LogInMemory.Read(("bags.csv", Encoding.UTF8.GetString("bag_id\nB1\n"u8)));

        Assert.Single(log.Bags);
        Assert.Empty(log.Tastings);
        Assert.Equal("tastings.csv", log.Only("missing-file").File);
    }
}
