namespace TastingKit.Tests.Log.Reading;

public sealed class DialectTests
{
    [Theory]
    [InlineData(',', "7.5", "18.25")]
    [InlineData(';', "7,5", "18,25")]
    [InlineData(';', "7.5", "18.25")]
    [InlineData('\t', "7.5", "18.25")]
    public void The_delimiter_is_found_out(char delimiter, string score, string dose)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,score,dose_g\nT1,B1,2025-03-14,{"@"},#\n"
            .Replace(',', delimiter).Replace("@", score, StringComparison.Ordinal).Replace("#", dose, StringComparison.Ordinal));

        Assert.Equal((7.5, 18.25), (log.Tastings[0].Score, log.Tastings[0].DoseGrams));
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void A_delimiter_inside_a_header_does_not_mislead()
    {
        var log = LogInMemory.ReadBags("bag_id;\"a,b,c,d,e,f\";coffee\nB1;x1;Aponte Ridge\n");

        Assert.Equal("Aponte Ridge", log.Bags[0].Coffee.Name);
    }

    [Fact]
    public void A_spreadsheet_s_sep_line_is_taken_at_its_word_and_counted()
    {
        var log = LogInMemory.ReadCups("sep=;\r\ntasting_id;bag_id;tasted_at;score\r\nT1;B1;2025-03-14;7,5\r\nT2;B1;2025-03-14;99\r\n");

        Assert.Equal(7.5, log.Tastings[0].Score);
        log.AssertReport("score-off-scale", Severity.Doubtful, "tastings.csv", 4, "score", "99");
    }

    [Theory]
    [InlineData(",", "\"7,5\"", "ambiguous-number")]
    [InlineData(",", "\"1,234\"", "ambiguous-number")]
    [InlineData(";", "1.234", "ambiguous-number")]
    [InlineData(";", "1.234,5", "ambiguous-number")]
    [InlineData(",", "1'234", "ambiguous-number")]
    public void A_number_that_can_be_read_two_ways_is_refused(string delimiter, string dose, string rule)
    {
        var log = LogInMemory.ReadCups($"tasting_id{delimiter}bag_id{delimiter}tasted_at{delimiter}dose_g\nT1{delimiter}B1{delimiter}2025-03-14{delimiter}{dose}\n");

        Assert.Null(log.Tastings[0].DoseGrams);
        log.AssertReport(rule, Severity.Doubtful, "tastings.csv", 2, "dose_g", dose.Trim('"'));
    }

    [Theory]
    [InlineData("\n")]
    [InlineData("\r\n")]
    [InlineData("\r")]
    public void Lines_may_end_in_any_way(string end)
    {
        var log = LogInMemory.ReadCups(string.Join(end, "tasting_id,bag_id,tasted_at,score", "T1,B1,2025-03-14,7", "", "T2,B1,2025-03-15,99"));

        Assert.Equal(["T1", "T2"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(4, log.Only("score-off-scale").Line);
    }

    [Fact]
    public void Blank_rows_and_columns_at_the_end_are_no_rows_and_no_columns()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score,,\nT1,B1,2025-03-14,7,,\n,,,,,\n  , ,,,,\n\n");

        Assert.Equal((1, 1, 0, 0), log.AccountOf("tastings.csv"));
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void White_space_at_the_ends_of_a_cell_is_dropped_and_inside_it_kept()
    {
        var log = LogInMemory.ReadCups("tasting_id , bag_id,tasted_at,score,notes\n T1,\u00A0B1\u00A0,\t2025-03-14 , 7 ,\"  black  tea leaf ; honey\u200B \"\n");

        Assert.Equal(["black  tea leaf", "honey"], log.Tastings[0].Notes);
        Assert.Equal(("T1", 7.0), (log.Tastings[0].Id, log.Tastings[0].Score));
        Assert.Empty(log.Problems);
    }
}
