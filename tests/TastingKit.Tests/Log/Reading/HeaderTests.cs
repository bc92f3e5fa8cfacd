namespace TastingKit.Tests.Log.Reading;

public sealed class HeaderTests
{
    [Theory]
    [InlineData("Bag ID", "bag_id")]
    [InlineData("BAG-ID", "bag_id")]
    [InlineData("bagid", "bag_id")]
    public void Case_spaces_and_hyphens_are_forgiven_and_told_once(string header, string means)
    {
        var log = LogInMemory.ReadBags($"{header},coffee\nB1,one\nB2,two\n");

        Assert.Equal(["B1", "B2"], log.Bags.Select(bag => bag.Id));
        log.AssertReport("header-read-as", Severity.Information, "bags.csv", 1, header, header);
        Assert.Contains(means, log.Only("header-read-as").Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("method", "brewer")]
    [InlineData("Brew date", "tasted_at")]
    [InlineData("finish", "aftertaste")]
    [InlineData("Clean Cup", "clarity")]
    [InlineData("mouthfeel", "body")]
    public void The_field_s_other_words_are_read_and_told(string header, string means)
    {
        var others = new[] { "tasting_id", "bag_id", "tasted_at" }.Where(name => name != means).ToList();
        var cell = means switch { "tasted_at" => "2025-03-14", "brewer" => "cone dripper", _ => "7" };
        var log = LogInMemory.ReadCups(
            string.Join(',', [.. others, header]) + "\n" + string.Join(',', [.. others.Select(name => name switch { "tasting_id" => "T1", "bag_id" => "B1", _ => "2025-03-14" }), cell]) + "\n");

        var cup = Assert.Single(log.Tastings);
        Assert.Equal(cell, means switch
        {
            "brewer" => cup.Brewer,
            "tasted_at" => cup.TastedOn.ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
            _ => cup.ValueOf(TastingAttribute.Named(means))?.ToString(System.Globalization.CultureInfo.InvariantCulture),
        });
        Assert.Contains(means, log.Only("header-read-as").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_canonical_header_goes_before_another_word_for_it()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,finish,aftertaste\nT1,B1,2025-03-14,3,7\n");

        Assert.Equal(7, log.Tastings[0].ValueOf(TastingAttribute.Aftertaste));
        Assert.Equal("3", log.Tastings[0].OtherColumns["finish"]);
        log.AssertReport("repeated-column", Severity.Information, "tastings.csv", 1, "finish", "finish");
    }

    [Fact]
    public void A_repeated_header_is_told_and_its_cells_kept_under_another_name()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,brewer,brewer,mood,mood\nT1,B1,2025-03-14,cone dripper,press,good,bad\n");

        var cup = log.Tastings[0];
        Assert.Equal(("cone dripper", "press", "good", "bad"), (cup.Brewer, cup.OtherColumns["brewer (2)"], cup.OtherColumns["mood"], cup.OtherColumns["mood (2)"]));
        Assert.Equal(["brewer", "mood"], log.Problems.Where(problem => problem.Rule == "repeated-column").Select(problem => problem.Column));
    }

    [Fact]
    public void Names_given_to_repeated_headers_never_meet_one_another()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,mood,mood,mood (2),mood\nT1,B1,2025-03-14,a,b,c,d\n");

        Assert.Equal(["a", "b", "c", "d"], log.Tastings[0].OtherColumns.Values.Order());
    }

    [Fact]
    public void A_column_without_a_header_is_told_where_it_is_first_filled_in()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,,score\nT1,B1,2025-03-14,,7\nT2,B1,2025-03-15,windy,7\nT3,B1,2025-03-16,calm,7\n");

        Assert.Equal(["windy", "calm"], log.Tastings.Skip(1).Select(cup => cup.OtherColumns["column 4"]));
        log.AssertReport("nameless-column", Severity.Information, "tastings.csv", 3, "column 4", "windy");
    }

    [Fact]
    public void Columns_of_the_log_s_own_are_kept_and_those_with_a_scale_are_attributes()
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id,altitude\nB1,1700\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,Juiciness,weather\nT1,B1,2025-03-14,4,12\n"),
            ("scales.csv", "attribute,kind,min,max,step\njuiciness,intensity,0,5,1\n"));

        var cup = log.Tastings[0];
        Assert.Equal(4, cup.ValueOf(TastingAttribute.Named("juiciness")));
        Assert.Equal("12", cup.OtherColumns["weather"]);
        Assert.False(cup.OtherColumns.ContainsKey("Juiciness"));
        Assert.Equal("1700", cup.Bag.OtherColumns["altitude"]);
    }

    [Fact]
    public void The_user_s_own_headers_are_read_through_columns_csv()
    {
        var log = LogInMemory.Read(
            ("columns.csv", "file,written,means\ntastings,Tasse,tasting_id\ntastings.csv,Tüte,bag_id\ntastings,Tag,tasted_at\ntastings,Note,score\nbags,Tüte,bag_id\n"),
            ("bags.csv", "Tüte\nB1\n"),
            ("tastings.csv", "Tasse,Tüte,Tag,Note\nT1,B1,2025-03-14,7\n"));

        Assert.Equal(("T1", 7.0), (log.Tastings[0].Id, log.Tastings[0].Score));
        Assert.Equal((5, 5, 0, 0), log.AccountOf("columns.csv"));
    }

    [Fact]
    public void The_header_again_between_rows_is_no_row()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\ntasting_id,bag_id,tasted_at\nT2,B1,2025-03-15\n");

        Assert.Equal(["T1", "T2"], log.Tastings.Select(cup => cup.Id));
        log.AssertReport("repeated-header", Severity.Rejected, "tastings.csv", 3, "", "tasting_id,bag_id,tasted_at");
        Assert.Equal((3, 2, 0, 1), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void A_row_with_too_many_cells_is_rejected_and_one_with_too_few_doubtful()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,notes,score\nT1,B1,2025-03-14,fig, plum,7\nT2,B1,2025-03-15,fig\nT3,B1,2025-03-16,fig,7,,\n");

        Assert.Equal(["T2", "T3"], log.Tastings.Select(cup => cup.Id));
        log.AssertReport("extra-cells", Severity.Rejected, "tastings.csv", 2, "", "T1,B1,2025-03-14,fig, plum,7");
        log.AssertReport("missing-cells", Severity.Doubtful, "tastings.csv", 3, "", "T2,B1,2025-03-15,fig");
        Assert.Equal((3, 2, 1, 1), log.AccountOf("tastings.csv"));
    }
}
