using System.Text;
using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log;

/// <summary>
/// Fifteen patterns that real sources of cup scores are full of, each on invented rows: what must be taken, what refused, and what told.
/// </summary>
public sealed class DirtyPatternTests
{
    private const string Bags = "bag_id,coffee\nB1,Halo\n";

    private static TastingLog Cups(string tastings, string bags = Bags, string? scales = null) => LogInMemory.Read(
        [("bags.csv", bags), ("tastings.csv", tastings), .. scales is null ? [] : new[] { ("scales.csv", "attribute,kind,min,max,step\n" + scales) }]);

    private static IEnumerable<(int Line, string Found)> Found(TastingLog log, string rule) =>
        log.Problems.Where(problem => problem.Rule == rule).Select(problem => (problem.Line, problem.Found));

    private static string Rows(int count, Func<int, string> row) => string.Concat(Enumerable.Range(0, count).Select(i => row(i) + "\n"));

    [Fact]
    public void Pattern_1_dates_in_many_forms_are_taken_as_iso_or_named_with_their_form_and_never_guessed()
    {
        var log = Cups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\nT2,B1,\"April 4th, 2015\"\nT3,B1,8/7/2020\nT4,B1,May 2019\nT5,B1,2019\nT6,B1,\n");
        Assert.Equal(["T2", "T1"], log.Tastings.Select(cup => cup.Id));
        Assert.Equal(new DateTime(2015, 4, 4), log.Tastings[0].TastedAt);
        Assert.Equal([(3, "April 4th, 2015")], Found(log, "date-read-as"));
        Assert.Equal([(4, "8/7/2020"), (5, "May 2019"), (6, "2019")], Found(log, "date-not-iso"));
        string[] forms = ["which is which", "no day", "year alone"];
        Assert.All(log.Problems.Where(problem => problem.Rule == "date-not-iso").Zip(forms), pair => Assert.Contains(pair.Second, pair.First.Why, StringComparison.Ordinal));
        Assert.Equal((6, 2, 0, 4), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void Pattern_2_line_breaks_in_quotes_are_parsed_by_quotes_and_reported_by_record_and_line()
    {
        var log = Cups("tasting_id,bag_id,tasted_at,score,remark\nT1,B1,2025-03-14,7,\"one\ntwo\n\nfour\"\nT2,B1,\"2025-03-\n15\",7,x\nT3,B1,2025-03-16,99,x\n");
        Assert.Equal((3, 2, 1, 1), log.AccountOf("tastings.csv"));
        Assert.Equal([(6, "2025-03-\n15")], Found(log, "date-not-iso"));
        log.AssertReport("score-off-scale", Severity.Doubtful, "tastings.csv", 8, "score", "99");
    }

    [Fact]
    public void Pattern_3_bytes_that_are_not_utf_8_are_told_by_their_place_lost_letters_too_and_other_scripts_kept()
    {
        byte[] bags = [.. "bag_id,coffee,Caf"u8, 0xE9, .. ",country\nB1,\u96F2,one,Cote d?Ivoire\nB2,Ferm\u0430,two,Peru\n"u8];
        var log = LogInMemory.Read(("bags.csv", bags), ("tastings.csv", "tasting_id,bag_id,tasted_at\n"u8.ToArray()));
        log.AssertReport("encoding", Severity.Information, "bags.csv", 1, "", "byte 0xE9 at offset 17, the first of 1");
        log.AssertReport("lost-letter", Severity.Doubtful, "bags.csv", 2, "country", "Cote d?Ivoire");
        Assert.Equal(["\u96F2", "Ferm\u0430"], log.Bags.Select(bag => bag.Coffee.Name));
        Assert.Equal("one", log.Bags[0].OtherColumns["Café"]);
    }

    [Theory]
    [InlineData("na")]
    [InlineData("?")]
    [InlineData("NA")]
    [InlineData("n/a")]
    [InlineData("None")]
    [InlineData("Not noted")]
    [InlineData("unknown")]
    public void Pattern_4_a_word_for_missing_is_a_missing_name_and_no_number(string word)
    {
        var log = Cups($"tasting_id,bag_id,tasted_at,score,brewer\nT1,B1,2025-03-14,{word},{word}\nT2,B1,2025-03-15,,\n");
        Assert.All(log.Tastings, cup => Assert.Equal((null, null), (cup.Score, cup.Brewer)));
        log.AssertReport("not-a-number", Severity.Doubtful, "tastings.csv", 2, "score", word);
        log.AssertReport("word-for-missing", Severity.Information, "tastings.csv", 2, "brewer", word);
        Assert.Contains("n/a, none", log.Only("word-for-missing").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Pattern_5_a_nought_that_means_none_is_refused_under_the_scale_and_not_averaged()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,score,body,aroma\nT1,B1,2025-03-14,0,0,0\nT2,B1,2025-03-15,0,5,6\nT3,B1,2025-03-16,7,5,6\n",
            "bag_id,net_weight_g\nB1,0\n");
        log.AssertReport("never-filled-in", Severity.Rejected, "tastings.csv", 2, "", "0");
        Assert.Equal([(2, "0"), (3, "0")], Found(log, "score-off-scale"));
        Assert.Equal(7, log.Tastings.Average(cup => cup.Score));
        Assert.Null(log.Bags[0].NetWeightGrams);

        var high = Cups(
            "tasting_id,bag_id,tasted_at,score,body\n" + Rows(30, i => $"T{i},B1,2025-03-14,{(i == 3 ? 0 : 80 + i % 5)},5"), scales: "score,quality,0,100,1\n");
        high.AssertReport("nought-for-none", Severity.Doubtful, "tastings.csv", 5, "score", "0");
    }

    [Fact]
    public void Pattern_6_test_rows_and_filler_are_flagged_and_test_rows_stay_out_of_analyses()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,7\nT2,B2,2025-03-15,1\nT3,B3,2025-03-16,8\n",
            "bag_id,coffee,producer\nB1,Halo,mmm\nB2,TEST,unkown\nB3,Mist,-\n");
        log.AssertReport("test-entry", Severity.Doubtful, "bags.csv", 3, "coffee", "TEST");
        log.AssertReport("filler-text", Severity.Doubtful, "bags.csv", 2, "producer", "mmm");
        Assert.Equal([(3, "unkown"), (4, "-")], Found(log, "word-for-missing"));
        Assert.All(log.Bags, bag => Assert.Null(bag.Coffee.Producer));
        Assert.Equal(3, log.Tastings.Count);
        var scored = ScoredCups.Of(log);
        Assert.Equal(["T1", "T3"], scored.Cups.Select(cup => cup.Id));
        Assert.Equal(1, Assert.Single(scored.LeftOut).Cups);
    }

    [Fact]
    public void Pattern_7_a_unit_is_read_where_it_is_known_refused_where_not_and_its_range_checked()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,dose_g\nT1,B1,2025-03-14,44 beans\nT2,B1,2025-03-15,0.6 oz\n",
            "bag_id,net_weight_g\nB1,60 kg\nB2,2 lbs\nB3,\"1 kg,lbs\"\nB4,69000 kg\nB5,250\n");
        Assert.Equal([60_000.0, 2 * 453.59237, null, null, 250.0], log.Bags.Select(bag => bag.NetWeightGrams));
        Assert.Equal(["1 kg,lbs", "44 beans"], Found(log, "unknown-unit").Select(found => found.Found));
        log.AssertReport("number-out-of-range", Severity.Doubtful, "bags.csv", 5, "net_weight_g", "69000 kg");
        Assert.Null(log.Tastings[0].DoseGrams);
        Assert.Equal(17.0, log.Tastings[1].DoseGrams!.Value, 1);
    }

    [Fact]
    public void Pattern_8_numbers_with_words_are_refused_a_per_cent_sign_is_dropped_where_per_cents_belong_and_long_digits_kept()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,score,body,tds_pct\nT1,B1,2025-03-14,Sample  8.5,0 full,12 %\nT2,B1,2025-03-15,76%,8.8000000000000007,1.3\n",
            scales: "body,intensity,0,15,0.1\n");
        Assert.Equal([(2, "Sample  8.5"), (2, "0 full"), (3, "76%")], Found(log, "not-a-number"));
        Assert.All(log.Tastings, cup => Assert.Null(cup.Score));
        Assert.Equal(12, log.Tastings[0].TdsPercent);
        Assert.Equal(8.8, log.Tastings[1].ValueOf(TastingAttribute.Body)!.Value, 12);
        Assert.DoesNotContain(log.Problems, problem => problem.Rule == "score-between-steps");
    }

    [Fact]
    public void Pattern_9_spellings_of_one_name_are_compared_folded_told_and_each_kept_as_written()
    {
        var log = Cups("tasting_id,bag_id,tasted_at\n", "bag_id,region,producer\nB1,Nariño,Hill Farm\nB2,nariño,hill-farm\nB3,Narino,Hill  Farm\nB4,Huila,Hill Farms\n");
        Assert.Equal(["nariño", "Narino"], log.Problems.Where(problem => problem is { Rule: "spelling-varies", Column: "region" }).Select(problem => problem.Found));
        Assert.Equal(["hill-farm", "Hill  Farm"], log.Problems.Where(problem => problem is { Rule: "spelling-varies", Column: "producer" }).Select(problem => problem.Found));
        Assert.Equal(["Nariño", "nariño", "Narino", "Huila"], log.Bags.Select(bag => bag.Coffee.Region));
        Assert.All(log.Problems, problem => Assert.Equal(Severity.Information, problem.Severity));
    }

    [Fact]
    public void Pattern_10_several_values_in_one_field_stay_one_text_and_are_told()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,brewer,age range\nT1,B1,2025-03-14,\"cone dripper, press pot\",25-34\n",
            "bag_id,coffee,roaster,harvest\nB1,Halo - Lark - Peru,Lark / Heron,2023 / 2024\n");
        Assert.Equal(("cone dripper, press pot", "25-34"), (log.Tastings[0].Brewer, log.Tastings[0].OtherColumns["age range"]));
        Assert.Equal(("Halo - Lark - Peru", "Lark / Heron", "2023 / 2024"), (log.Bags[0].Coffee.Name, log.Bags[0].Coffee.Roaster, log.Bags[0].Coffee.Harvest));
        Assert.Equal(["Lark / Heron", "cone dripper, press pot"], Found(log, "several-in-one").Select(found => found.Found));
    }

    [Fact]
    public void Pattern_11_levels_are_counted_told_where_under_five_or_nested_and_a_blank_is_a_level_of_its_own()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,score\n" + Rows(40, i => $"T{i},B{1 + i % 4},2025-03-14,{5 + i % 4}") + "U1,B5,2025-03-15,7\n",
            "bag_id,country,process\nB1,United States,washed\nB2,United States (Hawaii),washed\nB3,\"Tanzania, United Republic Of\",natural\nB4,Blend,\nB5,Peru,Other\n");
        log.AssertReport("nested-level", Severity.Information, "bags.csv", 3, "country", "United States (Hawaii)");
        Assert.Equal("Tanzania", Assert.Single(log.Bags[2].Coffee.Countries));
        Assert.Equal(["Peru 1", "Other 1"], Found(log, "sparse-level").Select(found => found.Found));
        Assert.Contains("10 cups say nothing of it", log.Problems.Single(problem => problem is { Rule: "sparse-level", Column: "process" }).Why, StringComparison.Ordinal);
        Assert.Equal(Factor.NotStated, Factor.Process.LevelOf(log.Tastings.First(cup => cup.Bag.Id == "B4")));
    }

    [Fact]
    public void Pattern_12_an_identifier_used_twice_is_refused_and_like_rows_are_only_told()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,score,body\nT1,B1,2025-03-14,7,5\nT1,B1,2025-03-15,8,6\nT2,B1,2025-03-14,7,5\nT3,B1,2025-03-14,6,4\n",
            "bag_id,coffee,producer\nB1,Halo,Hill\nB1,Mist,Dale\nB2,Halo,Hill\n");
        Assert.Equal([(3, "B1"), (3, "T1")], Found(log, "duplicate-id"));
        Assert.All(log.Problems.Where(problem => problem.Rule == "duplicate-id"), problem => Assert.Equal(Severity.Rejected, problem.Severity));
        Assert.Equal([("bags.csv", 4), ("tastings.csv", 4)], log.Problems.Where(problem => problem.Rule == "repeated-row").Select(problem => (problem.File, problem.Line)));
        Assert.Equal(["T1", "T2", "T3"], log.Tastings.Select(cup => cup.Id));
    }

    [Fact]
    public void Pattern_13_times_and_sums_that_contradict_are_named_by_row_and_reading_goes_on()
    {
        var log = Cups(
            "tasting_id,bag_id,tasted_at,frozen_on,thawed_on,score,acidity,body,clarity\n"
            + Rows(30, i => $"T{i},B1,{(i == 9 ? 2024 : 2025)}-03-{1 + i:00}{(i == 4 ? " 14:45 PM" : "")},{(i == 6 ? "2025-03-05,2025-03-03" : ",")},{18 + i % 4 + (i == 20 ? 2 : 0)},{5 + i % 4},6,7"),
            scales: "score,quality,0,40,1\n");
        log.AssertReport("date-not-iso", Severity.Rejected, "tastings.csv", 6, "tasted_at", "2025-03-05 14:45 PM");
        log.AssertReport("thawed-before-frozen", Severity.Doubtful, "tastings.csv", 8, "thawed_on", "2025-03-03");
        log.AssertReport("date-out-of-sequence", Severity.Doubtful, "tastings.csv", 11, "tasted_at", "2024-03-10");
        log.AssertReport("sum-contradicts", Severity.Doubtful, "tastings.csv", 22, "score", "20");
        Assert.Equal((30, 29, 3, 1), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void Pattern_14_cups_without_a_score_are_read_counted_and_left_out_of_models_of_scores()
    {
        var log = Cups("tasting_id,bag_id,tasted_at,score,body,notes\nT1,B1,2025-03-14,,,apricot\nT2,B1,2025-03-15,,5,\nT3,B1,2025-03-16,7,,\n");
        Assert.Equal(3, log.Tastings.Count);
        Assert.StartsWith("2 of 3 cups have no score", log.Only("no-score").Why, StringComparison.Ordinal);
        var scored = ScoredCups.Of(log);
        Assert.Equal("T3", Assert.Single(scored.Cups).Id);
        Assert.Equal(2, scored.LeftOut.Sum(left => left.Cups));

        var none = Cups("tasting_id,bag_id,tasted_at,notes\nT1,B1,2025-03-14,lovely\n");
        Assert.Equal((1, 1, 0, 0), none.AccountOf("tastings.csv"));
        Assert.Empty(ScoredCups.Of(none).Cups);
    }

    [Fact]
    public void Pattern_15_columns_that_say_nothing_are_told_white_space_trimmed_and_no_cell_run()
    {
        var text = "tasting_id,bag_id,tasted_at,sweetness,clarity,notes,,blank,lot note\r\n"
            + Rows(40, i => $"T{i},B1,2025-03-14,{(i % 20 == 0 ? 9 : 10)},{5 + i % 6},  apricot ; plum  ,{(i == 0 ? "x" : "")},,{(i == 1 ? "=SUM(A1:A9)" : "")}").Replace("\n", "\r\n", StringComparison.Ordinal);
        var log = Cups(text, "bag_id,lot\nB1,26-Jan\n", "sweetness,quality,0,10,1\n");
        log.AssertReport("hardly-informs", Severity.Information, "tastings.csv", 0, "sweetness", "10");
        log.AssertReport("nameless-column", Severity.Information, "tastings.csv", 2, "column 7", "x");
        log.AssertReport("spreadsheet-date", Severity.Doubtful, "bags.csv", 2, "lot", "26-Jan");
        Assert.All(log.Tastings, cup => Assert.Equal(["apricot", "plum"], cup.Notes));
        Assert.Equal("=SUM(A1:A9)", log.Tastings.Single(cup => cup.Id == "T1").OtherColumns["lot note"]);
        Assert.DoesNotContain(log.Tastings, cup => cup.OtherColumns.ContainsKey("blank"));
        Assert.Contains(",'=SUM(A1:A9)\n", Encoding.UTF8.GetString(log.FilesFor("nowhere", overwrite: false).Single(file => file.Name == "tastings.csv").Bytes), StringComparison.Ordinal);
    }
}
