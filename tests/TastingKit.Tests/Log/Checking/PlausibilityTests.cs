using System.Globalization;
using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log.Checking;

/// <summary>Rules that need more than a cell: each is found where it holds, at its place, and not beside it.</summary>
public sealed class PlausibilityTests
{
    private const string Bags = "bag_id,coffee,roaster,roast_date,opened_on,net_weight_g,price,obtained\n";

    [Fact]
    public void A_cup_before_its_bag_was_opened_is_doubtful_and_one_on_the_day_is_not()
    {
        var log = LogInMemory.Read(("bags.csv", Bags + "B1,Halo,Lark,2025-03-01,2025-03-10,,,\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2025-03-09\nT2,B1,2025-03-10\n"));
        log.AssertReport("tasted-before-opened", Severity.Doubtful, "tastings.csv", 2, "tasted_at", "2025-03-09");
    }

    [Fact]
    public void A_dose_frozen_before_the_roast_is_doubtful()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,frozen_on,thawed_on\nT1,B1,2025-03-14,2025-02-20,2025-03-05\nT2,B1,2025-03-14,2025-03-01,2025-03-05\n");
        log.AssertReport("frozen-before-roast", Severity.Doubtful, "tastings.csv", 2, "frozen_on", "2025-02-20");
    }

    [Fact]
    public void More_brewed_than_the_bag_held_is_told_once_at_the_cup_that_passes_it_in_time()
    {
        // 5 cups of 50 g are 250; the sixth in time is the one on line 3.
        var log = LogInMemory.Read(
            ("bags.csv", Bags + "B1,Halo,Lark,,,250,,\nB2,Mist,Lark,,,250,,\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,dose_g\nT1,B1,2025-03-01,50\nT6,B1,2025-03-09,50\nT2,B1,2025-03-02,50\nT3,B1,2025-03-03,50\nT4,B1,2025-03-04,50\nT5,B1,2025-03-05,50\nT7,B2,2025-03-09,250\n"));
        log.AssertReport("more-brewed-than-held", Severity.Doubtful, "tastings.csv", 3, "dose_g", "50");
        Assert.Contains("300 g of bag B1", log.Only("more-brewed-than-held").Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("T2,B1,2025-03-14T08:30:40,cone dripper,", true)]
    [InlineData("T2,B1,2025-03-14T08:31,cone dripper,", false)]
    [InlineData("T2,B1,2025-03-14T08:30,press pot,", false)]
    [InlineData("T2,B2,2025-03-14T08:30,cone dripper,", false)]
    [InlineData("T2,B1,2025-03-14T08:30,cone dripper,2", false)]
    [InlineData("T2,B1,2025-03-14,cone dripper,", false)]
    public void A_cup_of_the_same_bag_minute_and_brewer_is_doubtful(string second, bool near)
    {
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\nB2\n"),
            ("tastings.csv", $"tasting_id,bag_id,tasted_at,brewer,position\nT0,B1,2025-03-20T08:30,cone dripper,\nT1,B1,2025-03-14T08:30,cone dripper,1\n{second}\n"));
        if (near)
            log.AssertReport("near-duplicate", Severity.Doubtful, "tastings.csv", 4, "tasted_at", "2025-03-14T08:30");
        else
            Assert.DoesNotContain(log.Problems, problem => problem.Rule == "near-duplicate");
    }

    [Theory]
    [InlineData(",,", ",,", true)]
    [InlineData("C1,,", ",,", true)]
    [InlineData("C1,,", "C1,,", false)]
    [InlineData("C1,,", "C2,,", false)]
    [InlineData(",washed,", ",natural,", false)]
    [InlineData(",,12", ",,13", false)]
    public void One_coffee_in_two_bags_without_an_identifier_of_the_coffee_is_doubtful(string first, string second, bool same)
    {
        var log = LogInMemory.ReadBags($"bag_id,coffee,roaster,coffee_id,process,lot\nB1,Halo Ridge,Lark,{first}\nB2,halo ridge,LARK,{second}\n");
        if (same)
            Assert.Equal((3, "coffee_id", Severity.Doubtful), (log.Only("same-coffee").Line, log.Only("same-coffee").Column, log.Only("same-coffee").Severity));
        else
            Assert.DoesNotContain(log.Problems, problem => problem.Rule == "same-coffee");
    }

    [Fact]
    public void A_bag_that_was_bought_for_nothing_is_doubtful_and_a_gift_is_not()
    {
        var log = LogInMemory.ReadBags(Bags + "B1,Halo,Lark,,,,0,bought\nB2,Mist,Lark,,,,0,gift\nB3,Fern,Lark,,,,,bought\n");
        log.AssertReport("price-of-nought", Severity.Doubtful, "bags.csv", 2, "price", "0");
    }

    [Fact]
    public void Bags_without_a_cup_are_told_in_one_line()
    {
        var log = LogInMemory.Read(("bags.csv", "bag_id\nB1\nB2\nB3\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B2,2025-03-14\n"));
        log.AssertReport("bag-without-cups", Severity.Information, "bags.csv", 2, "bag_id", "B1, B3");
        Assert.Equal((3, 3, 0, 0), log.AccountOf("bags.csv"));
    }

    [Theory]
    [InlineData(5, 2)]
    [InlineData(0, 2)]
    [InlineData(19, 2)]
    public void A_year_that_slipped_is_found_in_a_file_kept_in_order(int at, int expectedColumnStart)
    {
        var rows = Enumerable.Range(0, 20).Select(i => $"T{i},B1,{(i == at ? 2024 : 2025)}-{2 + i / 10:00}-{1 + i % 10:00}");
        var log = LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\n" + string.Join('\n', rows) + "\n"));
        Assert.Equal(at + expectedColumnStart, log.Only("date-out-of-sequence").Line);
    }

    [Fact]
    public void Days_of_a_file_in_no_order_are_not_judged_by_their_neighbours()
    {
        var rows = Enumerable.Range(0, 40).Select(i => $"T{i},B1,{2020 + i * 7 % 5}-03-{1 + i % 10:00}");
        var log = LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\n" + string.Join('\n', rows) + "\n"));
        Assert.DoesNotContain(log.Problems, problem => problem.Rule == "date-out-of-sequence");
    }

    [Theory]
    [InlineData("body", "3 4 5 6 7 8 9 10", null, true)] // Many at 10, none above, of 15.
    [InlineData("body", "3 4 5 6 7 8 9 10 11", null, false)]
    [InlineData("body", "30 40 50 60 70 80", null, true)] // Off the scale throughout.
    [InlineData("body", "3.2 4.3 5.1 6.7 7.8", null, true)] // Between the steps throughout.
    [InlineData("finish", "3 4 5 6 7 8 9 10", null, true)] // Under another header.
    [InlineData("body", "3 4 5 6 7 8 9 10", "body,intensity,0,10,0.5", false)]
    public void A_column_on_another_scale_than_said_is_found(string header, string values, string? scale, bool found)
    {
        var all = values.Split(' ');
        var rows = Enumerable.Range(0, 40).Select(i => $"T{i},B1,2025-03-14,{all[i % all.Length]}");
        var files = new List<(string, string)> { ("bags.csv", "bag_id\nB1\n"), ("tastings.csv", $"tasting_id,bag_id,tasted_at,{header}\n" + string.Join('\n', rows) + "\n") };
        if (scale is not null)
            files.Add(("scales.csv", $"attribute,kind,min,max,step\n{scale}\n"));
        var log = LogInMemory.Read([.. files]);
        if (found)
            Assert.Equal((header, Severity.Doubtful, 0), (log.Only("other-scale").Column, log.Only("other-scale").Severity, log.Only("other-scale").Line));
        else
            Assert.DoesNotContain(log.Problems, problem => problem.Rule == "other-scale");
    }

    [Theory]
    [InlineData("0 60 70 80 90", 8)] // A fifth, and everything else far above.
    [InlineData("0 5 70 80 90", 0)] // Small values are there: a nought is one of them.
    [InlineData("0 0 0 80 90", 0)] // So many are no slip.
    public void Noughts_far_below_everything_else_may_mean_none(string values, int expected)
    {
        var all = values.Split(' ');
        var rows = Enumerable.Range(0, 40).Select(i => $"T{i},B1,2025-03-14,{all[i % all.Length]}");
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\n"), ("scales.csv", "attribute,kind,min,max,step\nscore,quality,0,100,1\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score\n" + string.Join('\n', rows) + "\n"));
        Assert.Equal(expected, log.Problems.Count(problem => problem.Rule == "nought-for-none"));
        Assert.Equal(40, log.Tastings.Count(cup => cup.Score is not null));
    }

    [Theory]
    [InlineData(18, true)]
    [InlineData(17, false)]
    public void A_column_of_one_value_can_hardly_inform(int same, bool told)
    {
        var rows = Enumerable.Range(0, 20).Select(i => $"T{i},B1,2025-03-14,{(i < same ? "10" : (i % 9).ToString(CultureInfo.InvariantCulture))}");
        var log = LogInMemory.Read(("bags.csv", "bag_id\nB1\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at,sweetness\n" + string.Join('\n', rows) + "\n"));
        Assert.Equal(told, log.Problems.Any(problem => problem.Rule == "hardly-informs"));
    }

    [Fact]
    public void Cups_without_a_score_are_counted_and_kept()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-14,7\nT2,B1,2025-03-15,\nT3,B1,2025-03-16,good\n");
        Assert.StartsWith("2 of 3 cups have no score", log.Only("no-score").Why, StringComparison.Ordinal);
        Assert.Equal(3, log.Tastings.Count);
    }

    [Fact]
    public void Levels_with_few_cups_and_levels_inside_levels_are_told()
    {
        var bags = "bag_id,country,process\n" + string.Concat(Enumerable.Range(0, 24).Select(i => $"B{i},{(i == 0 ? "United States (Hawaii)" : i < 12 ? "United States" : "Peru")},{(i < 4 ? "" : i == 5 ? "washed" : "natural")}\n"));
        var cups = "tasting_id,bag_id,tasted_at\n" + string.Concat(Enumerable.Range(0, 24).Select(i => $"T{i},B{i},2025-03-{i + 1:00}\n"));
        var log = LogInMemory.Read(("bags.csv", bags), ("tastings.csv", cups));

        log.AssertReport("nested-level", Severity.Information, "bags.csv", 2, "country", "United States (Hawaii)");
        Assert.Equal(["United States (Hawaii) 1", "washed 1"], log.Problems.Where(problem => problem.Rule == "sparse-level").Select(problem => problem.Found));
        Assert.Contains("4 cups say nothing of it", log.Problems.Single(problem => problem is { Rule: "sparse-level", Column: "process" }).Why, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("cone dripper / press pot", true)]
    [InlineData("cone dripper; press pot", true)]
    [InlineData("cone dripper", false)]
    public void Several_brewers_in_one_cell_stay_one_name_and_are_told(string brewer, bool told)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,brewer\nT1,B1,2025-03-14,{brewer}\nT2,B1,2025-03-15,{brewer}\n");
        Assert.Equal(brewer, log.Tastings[0].Brewer);
        Assert.Equal(told ? 1 : 0, log.Problems.Count(problem => problem.Rule == "several-in-one"));
    }

    [Fact]
    public void A_bag_edited_during_the_year_is_one_bag()
    {
        var log = LogInMemory.Read(
            ("bags.csv", Bags + "B1,Halo,Lark,2025-03-01,,250,18,\nB1,Halo,Lark,,2025-03-10,250,19,bought\nB2,Mist,Lark,,,,,\nB2,Fern,Lark,,,,,\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\nT2,B2,2025-03-14\n"));

        Assert.Equal((new DateOnly(2025, 3, 10), 18m, "bought"), (log.Bags[0].OpenedOn, log.Bags[0].Price, log.Bags[0].Obtained));
        Assert.Equal("Mist", log.Bags[1].Coffee.Name);
        log.AssertReport("bag-edited", Severity.Information, "bags.csv", 3, "bag_id", "B1");
        log.AssertReport("bag-contradicts", Severity.Doubtful, "bags.csv", 3, "price", "19");
        log.AssertReport("duplicate-id", Severity.Rejected, "bags.csv", 5, "bag_id", "B2");
        Assert.Equal((4, 3, 1, 1), log.AccountOf("bags.csv"));
    }

    [Theory]
    [InlineData(30, true)] // One that is off among many that add up.
    [InlineData(2, false)] // Every other: these scores are no sums.
    public void A_score_that_is_not_the_sum_is_doubtful_where_scores_are_sums(int every, bool found)
    {
        var rows = Enumerable.Range(0, 30).Select(i => $"T{i},B1,2025-03-14,{18 + i % 4 + (i % every == 0 ? 2 : 0)},{5 + i % 4},6,7");
        var log = LogInMemory.Read(
            ("bags.csv", "bag_id\nB1\n"), ("scales.csv", "attribute,kind,min,max,step\nscore,quality,0,40,1\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score,acidity,body,clarity\n" + string.Join('\n', rows) + "\nT30,B1,2025-03-14,9,,6,7\n"));
        if (found)
            log.AssertReport("sum-contradicts", Severity.Doubtful, "tastings.csv", 2, "score", "20");
        else
            Assert.DoesNotContain(log.Problems, problem => problem.Rule == "sum-contradicts");
    }
}
