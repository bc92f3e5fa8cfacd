namespace TastingKit.Tests.Log.Reading;

/// <summary>Rows as wholes, and rows against one another.</summary>
public sealed class RowTests
{
    [Theory]
    [InlineData("T1,,2025-03-14", "bag_id")]
    [InlineData("T1,B1,", "tasted_at")]
    [InlineData("T1,B1,  ", "tasted_at")]
    public void A_row_without_what_it_needs_is_rejected(string row, string column)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at\nT0,B1,2025-03-14\n{row}\n");

        var problem = log.Only("required-missing");
        Assert.Equal((Severity.Rejected, 3, column, "T1"), (problem.Severity, problem.Line, problem.Column, problem.RowId));
        Assert.Equal((2, 1, 0, 1), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void A_bag_without_its_identifier_is_rejected()
    {
        var log = LogInMemory.ReadBags("bag_id,coffee\n,Aponte Ridge\nB2,Cielo\n");

        log.AssertReport("required-missing", Severity.Rejected, "bags.csv", 2, "bag_id", "");
        Assert.Equal(["B2"], log.Bags.Select(bag => bag.Id));
    }

    [Theory]
    [InlineData("B9", "No row of bags.csv has this identifier.")]
    [InlineData("b-1", "'B1' is written like it")]
    public void A_cup_of_a_bag_that_is_not_known_is_rejected(string bagId, string why)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at\nT1,{bagId},2025-03-14\n");

        log.AssertReport("unknown-bag", Severity.Rejected, "tastings.csv", 2, "bag_id", bagId);
        Assert.Contains(why, log.Only("unknown-bag").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_cup_of_a_bag_whose_row_was_rejected_says_so()
    {
        var log = LogInMemory.Read(("bags.csv", "bag_id,coffee\nB1,one\nB2,two,three\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B2,2025-03-14\n"));

        Assert.Equal("extra-cells", Assert.Single(log.Problems, problem => problem.File == "bags.csv").Rule);
        Assert.Contains("on line 3 of bags.csv, was rejected", log.Only("unknown-bag").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void An_identifier_used_twice_is_refused_the_second_time()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id,coffee\nB1,one\nB1,two\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\nT2,B1,2025-03-14\nT1,B1,2025-03-15\n"));

        Assert.Equal(["one"], log.Bags.Select(bag => bag.Coffee.Name));
        Assert.Equal(["T1", "T2"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(
            [("bags.csv", 3, "bag_id"), ("tastings.csv", 4, "tasting_id")],
            log.Problems.Where(problem => problem.Rule == "duplicate-id").Select(problem => (problem.File, problem.Line, problem.Column)));
        Assert.All(log.Problems.Where(problem => problem.Rule == "duplicate-id"), problem => Assert.Contains("line 2", problem.Why, StringComparison.Ordinal));
    }

    [Fact]
    public void A_rejected_row_does_not_use_up_its_identifier()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,soon\nT1,B1,2025-03-15\n");

        Assert.Equal(["T1"], log.Tastings.Select(cup => cup.Id));
    }

    [Fact]
    public void A_cup_without_an_identifier_is_named_for_its_line_and_that_is_told_once()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nline-4,B1,2025-03-14\n,B1,2025-03-15\n,B1,2025-03-16\n");

        Assert.Equal(["line-4", "line-3", "line-4+"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal((Severity.Information, 3), (log.Only("derived-id").Severity, log.Only("derived-id").Line));
        Assert.Contains("2 rows have no tasting_id", log.Only("derived-id").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_form_that_was_never_filled_in_is_rejected()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score,acidity,body\nT1,B1,2025-03-14,0.00,0,0\nT2,B1,2025-03-14,0,0,1\nT3,B1,2025-03-14,0,,\n"),
            ("scales.csv", "attribute,kind,min,max,step\nscore,quality,0,100,0.01\n"));

        Assert.Equal(["T2", "T3"], log.Tastings.Select(cup => cup.Id));
        log.AssertReport("never-filled-in", Severity.Rejected, "tastings.csv", 2, "", "0");
        Assert.Equal("T1", log.Only("never-filled-in").RowId);
    }

    [Fact]
    public void Nothing_of_everything_is_an_answer_where_the_score_is_an_intensity()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score,body\nT1,B1,2025-03-14,0,0\n"),
            ("scales.csv", "attribute,kind,min,max,step\nscore,intensity,0,15,0.1\n"));

        Assert.Equal(0, log.Tastings[0].Score);
        Assert.Equal(Severity.Doubtful, log.Only("never-filled-in").Severity);
    }

    [Theory]
    [InlineData("TEST")]
    [InlineData("test 2")]
    [InlineData("Testing")]
    public void A_try_out_of_the_form_is_flagged_with_its_cups(string coffee)
    {
        var log = LogInMemory.Read(
            ("bags.csv", $"bag_id,coffee,region\nB1,{coffee},Tierra Alta\nB2,Contest Lot,Tierra Alta\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,7\nT2,B2,2025-03-14,7\n"));

        log.AssertReport("test-entry", Severity.Doubtful, "bags.csv", 2, "coffee", coffee);
        Assert.Equal([true, false], log.Bags.Select(bag => bag.IsTestEntry));
        Assert.Equal([true, false], log.Tastings.Select(cup => cup.IsTestEntry));
        Assert.Equal(coffee, log.Bags[0].Coffee.Name);
    }

    [Fact]
    public void A_test_in_a_cell_beside_the_name_is_told_and_flags_nothing()
    {
        var log = LogInMemory.ReadBags("bag_id,coffee,region\nB1,Aponte Ridge,TEST\n");

        log.AssertReport("test-entry", Severity.Doubtful, "bags.csv", 2, "region", "TEST");
        Assert.False(log.Bags[0].IsTestEntry);
    }

    [Fact]
    public void A_cup_whose_taster_is_a_test_is_flagged_alone()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,taster\nT1,B1,2025-03-14,test\nT2,B1,2025-03-14,K\n");

        Assert.Equal([true, false], log.Tastings.Select(cup => cup.IsTestEntry));
        Assert.Equal(2, log.Only("test-entry").Line);
    }

    [Theory]
    [InlineData("n/a")]
    [InlineData("NA")]
    [InlineData("None")]
    [InlineData("?")]
    [InlineData("-")]
    [InlineData("Not noted")]
    [InlineData("unkown")]
    public void A_word_for_missing_in_a_text_is_missing_and_told(string word)
    {
        var log = LogInMemory.ReadBags($"bag_id,coffee\nB1,{word}\n");

        Assert.Null(log.Bags[0].Coffee.Name);
        log.AssertReport("word-for-missing", Severity.Information, "bags.csv", 2, "coffee", word);
    }

    [Fact]
    public void None_is_an_answer_to_what_was_done_in_fermentation()
    {
        var log = LogInMemory.ReadBags("bag_id,fermentation,added\nB1,none,none\n");

        Assert.Null(log.Bags[0].Coffee.Fermentation);
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void A_value_between_two_steps_is_kept_and_told()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score,body\nT1,B1,2025-03-14,7.25,8.8000000000000007\n");

        Assert.Equal(7.25, log.Tastings[0].Score);
        Assert.Equal(["body", "score"], log.Problems.Where(problem => problem.Rule == "score-between-steps").Select(problem => problem.Column).Order());
    }

    [Fact]
    public void A_value_off_a_step_by_rounding_alone_is_on_it()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,8.8000000000000007\n"),
            ("scales.csv", "attribute,kind,min,max,step\nscore,quality,0,10,0.1\n"));

        Assert.Empty(log.Problems);
    }

    [Fact]
    public void Bags_of_one_lot_share_their_coffee_and_contradictions_are_told()
    {
        var log = LogInMemory.ReadBags(
            "bag_id,coffee_id,coffee,country,process,region,roast_level\n"
            + "B1,C1,Aponte Ridge,Peru,washed,,light\nB2,C1,aponte-ridge,Perú,natural,Tierra Alta,dark\nB3,,Cielo,Peru,washed,,light\n");

        Assert.Same(log.Bags[0].Coffee, log.Bags[1].Coffee);
        Assert.Equal(("washed", "Tierra Alta", "Aponte Ridge"), (log.Bags[0].Coffee.Process, log.Bags[0].Coffee.Region, log.Bags[0].Coffee.Name));
        Assert.Equal(["light", "dark", "light"], log.Bags.Select(bag => bag.RoastLevel));
        Assert.Equal(["C1", "B3"], log.Coffees.Select(coffee => coffee.Id));
        log.AssertReport("coffee-contradicts", Severity.Doubtful, "bags.csv", 3, "process", "natural");
    }

    [Fact]
    public void One_name_in_several_spellings_is_told_once_a_spelling_and_kept_as_written()
    {
        var log = LogInMemory.ReadBags("bag_id,region,producer\nB1,Kona,Café Uno\nB2,KONA,Cafe Uno\nB3,kona,Café Uno\nB4,KONA,Cafe Uno\nB5,Huila,Café Uno\n");

        Assert.Equal(["Kona", "KONA", "kona", "KONA", "Huila"], log.Bags.Select(bag => bag.Coffee.Region));
        Assert.Equal(
            [(3, "region", "KONA"), (3, "producer", "Cafe Uno"), (4, "region", "kona")],
            log.Problems.Where(problem => problem.Rule == "spelling-varies").Select(problem => (problem.Line, problem.Column, problem.Found)).OrderBy(p => p.Line).ThenByDescending(p => p.Item2));
        Assert.All(log.Problems.Where(problem => problem.Rule == "spelling-varies"), problem => Assert.Contains("Line 2", problem.Why, StringComparison.Ordinal));
    }

    [Theory]
    [InlineData("26-Jan", true)]
    [InlineData("Jan-26", true)]
    [InlineData("26-1", false)]
    [InlineData("12-Jana", false)]
    public void A_lot_that_a_spreadsheet_made_a_date_of_is_told(string lot, bool harmed)
    {
        var log = LogInMemory.ReadBags($"bag_id,lot\nB1,{lot}\n");

        Assert.Equal(lot, log.Bags[0].Coffee.Lot);
        if (harmed)
            log.AssertReport("spreadsheet-date", Severity.Doubtful, "bags.csv", 2, "lot", lot);
        else
            Assert.DoesNotContain(log.Problems, problem => problem.File == "bags.csv");
    }

    [Fact]
    public void Rows_that_say_the_same_are_told_and_kept()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,7\nT2,B1,2025-03-14,7\nT3,B1,2025-03-14,8\n");

        Assert.Equal(3, log.Tastings.Count);
        Assert.Equal((Severity.Information, 3), (log.Only("repeated-row").Severity, log.Only("repeated-row").Line));
    }
}
