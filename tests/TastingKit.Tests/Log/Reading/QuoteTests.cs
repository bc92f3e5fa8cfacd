using TastingKit.Reading;

namespace TastingKit.Tests.Log.Reading;

public sealed class QuoteTests
{
    private const string Header = "tasting_id,bag_id,tasted_at,notes,score\n";

    [Fact]
    public void Line_breaks_inside_quotes_belong_to_the_cell_and_lines_are_counted_through()
    {
        var log = LogInMemory.ReadCups(Header + "T1,B1,2025-03-14,\"apricot;\nblack\r\ntea leaf\",7\nT2,B1,2025-03-15,,99\n");

        Assert.Equal(["apricot", "black\r\ntea leaf"], log.Tastings[0].Notes);
        Assert.Equal(5, log.Only("score-off-scale").Line);
        Assert.Equal((2, 2, 1, 0), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void An_unclosed_quote_costs_its_own_row_and_no_other()
    {
        var log = LogInMemory.ReadCups(
            Header + "T1,B1,2025-03-14,\"apricot,7\nT2,B1,2025-03-15,plum,6\nT3,B1,2025-03-16,\"fig\nand plum\",5\nT4,B1,2025-03-17,\"fig; \"\"plum\"\"\",8\n");

        Assert.Equal(["T2", "T3", "T4"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(["fig\nand plum"], log.Tastings[1].Notes);
        log.AssertReport("unclosed-quote", Severity.Rejected, "tastings.csv", 2, "", "T1,B1,2025-03-14,\"apricot,7");
        Assert.Equal("T1", log.Only("unclosed-quote").RowId);
        Assert.Equal((4, 3, 0, 1), log.AccountOf("tastings.csv"));
    }

    [Theory]
    [InlineData("T9,B1,2025-03-18,\"apricot,7")]
    [InlineData("T9,B1,2025-03-18,\"apricot,7\n")]
    [InlineData("T9,B1,2025-03-18,\"")]
    public void An_unclosed_quote_in_the_last_row_is_told(string last)
    {
        var log = LogInMemory.ReadCups(Header + "T1,B1,2025-03-14,plum,7\n" + last);

        Assert.Equal(["T1"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(3, log.Only("unclosed-quote").Line);
    }

    [Fact]
    public void Many_unclosed_quotes_are_each_told_at_their_line()
    {
        var rows = Enumerable.Range(1, 40).Select(i => i % 2 == 0 ? $"T{i},B1,2025-03-14,\"open{i},7\n" : $"T{i},B1,2025-03-14,\"fig; plum\",{i % 9 + 1}\n");
        var log = LogInMemory.ReadCups(Header + string.Concat(rows));

        Assert.Equal(20, log.Tastings.Count);
        Assert.Equal(
            Enumerable.Range(1, 20).Select(i => 2 * i + 1),
            log.Problems.Where(problem => problem.Rule == "unclosed-quote").Select(problem => problem.Line));
        Assert.Equal((40, 20, 0, 20), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void A_quote_inside_a_bare_cell_is_text()
    {
        var log = LogInMemory.ReadCups(Header + "T1,B1,2025-03-14,5\" filter,7\nT2,B1,2025-03-15,5\" and \"x,\"6\"\n");

        Assert.Equal(["5\" filter"], log.Tastings[0].Notes);
        Assert.Equal(2, log.Tastings.Count);
        Assert.All(log.Problems, problem => Assert.Equal(("stray-quote", Severity.Information), (problem.Rule, problem.Severity)));
    }

    [Fact]
    public void A_bare_quote_before_a_cell_of_two_lines_does_not_break_the_row()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,brewer,notes\nT1,B1,2025-03-14,5\" cone,\"fig;\nplum\"\nT2,B1,2025-03-15,cone,fig\n");

        Assert.Equal(["fig", "plum"], log.Tastings[0].Notes);
        Assert.Equal((2, 2, 0, 0), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void Text_after_a_closing_quote_is_kept_and_the_row_doubtful()
    {
        var log = LogInMemory.ReadCups(Header + "T1,B1,2025-03-14,\"fig\" plum,7\n");

        Assert.Equal(["fig plum"], log.Tastings[0].Notes);
        log.AssertReport("text-after-quote", Severity.Doubtful, "tastings.csv", 2, "", "T1,B1,2025-03-14,\"fig\" plum,7");
    }

    [Fact]
    public void Cuts_are_bounded_and_reading_goes_on_without_line_breaks_in_quotes()
    {
        // Every row opens a quote and the next row's opening quote closes it.
        var text = string.Concat(Enumerable.Range(0, 200).Select(i => $"a{i},\"b\n"));
        using var records = new RecordReader(System.Text.Encoding.UTF8.GetBytes(text), ',');
        var lines = new List<int>();
        while (records.Read())
        {
            Assert.Equal(QuoteFault.UnclosedQuote, records.QuoteFault);
            lines.Add(records.Line);
        }

        Assert.Equal(Enumerable.Range(1, 200), lines);
    }
}
