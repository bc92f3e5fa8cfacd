using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log.Checking;

/// <summary>A doubt that <c>accepted.csv</c> confirms is not raised again, until what it rests on changes.</summary>
public sealed class ConfirmationTests
{
    private const string Header = "rule,file,row_id,column,found,beside,remark\n";
    private const string Bags = "bag_id,coffee,roast_date,opened_on,net_weight_g,price,obtained\nB1,Halo,2025-03-01,,,,\n";
    private const string Cups = "tasting_id,bag_id,tasted_at,dose_g,water_g,score\n";

    private static TastingLog Read(string cups, string accepted, string bags = Bags) =>
        LogInMemory.Read(("bags.csv", bags), ("tastings.csv", Cups + cups), ("accepted.csv", Header + accepted));

    [Fact]
    public void A_confirmed_doubt_is_not_raised_and_is_kept_with_its_remark()
    {
        var log = Read("T1,B1,2025-03-14,15,600,7.3\n", "score-between-steps,tastings.csv,T1,score,7.3,,between two\n");
        Assert.DoesNotContain(log.Problems, problem => problem.Rule == "score-between-steps");
        var confirmed = Assert.Single(log.Confirmed);
        Assert.Equal(("score-between-steps", "T1", "between two"), (confirmed.Problem.Rule, confirmed.Problem.RowId, confirmed.Remark));
        // The ratio is still in doubt, so the row is.
        Assert.Equal((1, 1, 1, 0), log.AccountOf("tastings.csv"));
        Assert.Equal(7.3, Assert.Single(log.Tastings).Score);
        Assert.Single(log.Where(_ => true).Confirmed);
    }

    [Fact]
    public void A_row_whose_every_doubt_is_confirmed_is_no_longer_doubtful() =>
        Assert.Equal((1, 1, 0, 0), Read("T1,B1,2025-03-14,,,7.3\n", "score-between-steps,tastings.csv,T1,score,7.3,,\n").AccountOf("tastings.csv"));

    [Fact]
    public void A_confirmation_outlives_sorting_of_the_rows()
    {
        const string One = "T1,B1,2025-03-14,15,600,\n", Other = "T2,B1,2025-03-15,15,240,\n";
        const string Accepted = "ratio-unusual,tastings.csv,T1,water_g,600,dose_g 15,\n";
        Assert.DoesNotContain(Read(One + Other, Accepted).Problems, problem => problem.Severity > Severity.Information);
        Assert.DoesNotContain(Read(Other + One, Accepted).Problems, problem => problem.Severity > Severity.Information);
    }

    [Theory]
    [InlineData("T1,B1,2025-03-14,15,601,\n")] // The value itself.
    [InlineData("T1,B1,2025-03-14,16,600,\n")] // The one beside it.
    [InlineData("T2,B1,2025-03-14,15,600,\n")] // Another row.
    public void A_changed_value_is_raised_again_and_the_line_reported(string cup)
    {
        var log = Read(cup, "ratio-unusual,tastings.csv,T1,water_g,600,dose_g 15,\n");
        Assert.Equal(Severity.Doubtful, log.Only("ratio-unusual").Severity);
        log.AssertReport("accepted-not-found", Severity.Doubtful, "accepted.csv", 2, "", "600");
        Assert.Empty(log.Confirmed);
    }

    [Theory]
    [InlineData("ratio-unusual,tastings.csv,T1,water_g,600,dose_g 15,", "other values", "T1,B1,2025-03-14,15,700,\n")]
    [InlineData("ratio-unusual,tastings.csv,T9,water_g,600,dose_g 15,", "no such doubt", "T1,B1,2025-03-14,15,240,\n")]
    public void A_line_that_confirms_nothing_says_whether_the_doubt_is_there_with_other_values(string line, string why, string cup) =>
        Assert.Contains(why, Read(cup, line + "\n").Only("accepted-not-found").Why, StringComparison.Ordinal);

    [Theory]
    [InlineData("unknown-bag,tastings.csv,T1,bag_id,B9,,")]
    [InlineData("score-off-scale,tastings.csv,T1,score,12,,")]
    [InlineData("derived-id,tastings.csv,,tasting_id,,,")]
    [InlineData("no-such-rule,tastings.csv,T1,score,12,,")]
    public void What_was_rejected_or_left_missing_cannot_be_confirmed_away(string line)
    {
        var log = Read("T1,B9,2025-03-14,,,12\n", line + "\n");
        Assert.Equal((Severity.Rejected, "accepted.csv", 2), (log.Only("accepted-refused").Severity, log.Only("accepted-refused").File, log.Only("accepted-refused").Line));
        Assert.Equal((1, 0, 0, 1), log.AccountOf("tastings.csv"));
        Assert.Equal((1, 0, 0, 1), log.AccountOf("accepted.csv"));
        Assert.Single(log.Problems, problem => problem.Rule == "unknown-bag");
        Assert.Single(log.Problems, problem => problem.Rule == "score-off-scale");
    }

    [Fact]
    public void A_doubt_on_a_rejected_row_may_be_confirmed_and_the_row_stays_rejected()
    {
        var log = Read("T1,B9,2025-03-14,15,600,\n", "ratio-unusual,tastings.csv,T1,water_g,600,dose_g 15,\n");
        Assert.Equal((1, 0, 0, 1), log.AccountOf("tastings.csv"));
        Assert.Single(log.Problems, problem => problem.Rule == "unknown-bag");
    }

    [Fact]
    public void The_second_of_two_lines_on_one_doubt_is_reported()
    {
        const string Line = "ratio-unusual,tastings.csv,T1,water_g,600,dose_g 15,\n";
        Assert.Contains("Line 2", Read("T1,B1,2025-03-14,15,600,\n", Line + Line).Only("accepted-not-found").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_doubt_on_a_whole_column_is_confirmed_without_a_row()
    {
        var rows = string.Concat(Enumerable.Range(0, 40).Select(i => $"T{i},B1,2025-03-14,,,{60 + i}\n"));
        var doubt = Read(rows, "").Only("other-scale");
        Assert.DoesNotContain(Read(rows, $"other-scale,tastings.csv,,score,,{doubt.Beside},\n").Problems, problem => problem.Rule is "other-scale" or "accepted-not-found");
    }

    [Fact]
    public void A_cup_without_an_identifier_is_confirmed_by_the_name_it_goes_by() =>
        Assert.Single(Read(",B1,2025-03-14,15,600,\n", "ratio-unusual,tastings.csv,line-2,water_g,600,dose_g 15,\n").Confirmed);

    [Fact]
    public void One_of_two_like_cups_stays_confirmed_whichever_stands_first()
    {
        const string One = "T1,B1,2025-03-14T08:30,,,7\n", Other = "T2,B1,2025-03-14T08:30,,,8\n";
        const string Accepted = "near-duplicate,tastings.csv,T2,tasted_at,2025-03-14T08:30,cup T1,two cups at once\n";
        Assert.Single(Read(One + Other, Accepted).Confirmed);
        Assert.Single(Read(Other + One, Accepted).Confirmed);
    }

    [Fact]
    public void A_line_taken_over_from_the_list_of_reports_serves_with_its_further_columns()
    {
        var log = LogInMemory.Read(
            ("bags.csv", Bags), ("tastings.csv", Cups + "T1,B1,2025-03-14,15,600,\n"),
            ("accepted.csv", "severity,rule,file,line,column,row_id,found,beside,why,expected\ndoubtful,ratio-unusual,tastings.csv,99,water_g,T1,600,dose_g 15,because,else\n"));
        Assert.Single(log.Confirmed);
        Assert.DoesNotContain(log.Problems, problem => problem.File == "accepted.csv");
    }

    [Fact]
    public void Every_rule_that_can_be_confirmed_is_confirmed_by_its_own_report()
    {
        var doubts = new[] { DoubtfulLog(), LogOfSums() }.SelectMany(DoubtsOf).ToList();
        Assert.Equal(
            LogRule.All.Where(rule => rule.CanBeAccepted).Select(rule => rule.Name).Order(StringComparer.Ordinal),
            doubts.Distinct().Order(StringComparer.Ordinal));
    }

    /// <summary>The rules that find something in a log; each of their reports is confirmed and gone.</summary>
    private static IEnumerable<string> DoubtsOf(List<(string File, string Text)> files)
    {
        var before = LogInMemory.Read([.. files]);
        var doubts = before.Problems.Where(problem => LogRule.Named(problem.Rule)!.CanBeAccepted).ToList();
        var lines = doubts.Select(problem => string.Join(',',
            new[] { problem.Rule, problem.File, problem.RowId ?? (problem.Line > 0 ? $"line-{problem.Line}" : ""), problem.Column, problem.Found, problem.Beside, "seen" }
                .Select(cell => $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"")));
        var after = LogInMemory.Read([.. files, ("accepted.csv", Header + string.Join('\n', lines) + "\n")]);

        Assert.Equal(doubts.Select(problem => problem.ToString()), after.Confirmed.Select(confirmed => confirmed.Problem.ToString()));
        Assert.DoesNotContain(after.Problems, problem => problem.Severity > Severity.Information);
        return doubts.Select(problem => problem.Rule);
    }

    private static List<(string File, string Text)> LogOfSums() =>
    [
        ("bags.csv", "bag_id\nB1\n"),
        ("tastings.csv", "tasting_id,bag_id,tasted_at,score,acidity,body,clarity\n"
            + string.Concat(Enumerable.Range(0, 30).Select(i => $"T{i},B1,2025-03-14,{(i == 4 ? 20 : 18 + i % 4)},{5 + i % 4},6,7\n"))),
        ("scales.csv", "attribute,kind,min,max,step\nscore,quality,0,40,1\n"),
    ];

    /// <summary>A log that every rule which can be confirmed but that of sums finds something in, and no other doubt.</summary>
    private static List<(string File, string Text)> DoubtfulLog()
    {
        const string BagHeader = "bag_id,coffee_id,coffee,roaster,country,lot,roast_date,opened_on,net_weight_g,price,obtained,currency\n";
        const string CupHeader = "tasting_id,bag_id,tasted_at,brewer,dose_g,water_g,yield_g,tds_pct,score,sweetness,depth,ratio\n";
        var bags = BagHeader
            + "B1,C1,Halo,Lark,Kenya,,2023-03-01,2025-01-05,100,0,bought,\n" // price-of-nought; rest-over-a-year; tasted-before-opened; more-brewed-than-held
            + "B2,C1,Halo,Lark,Peru,,,,,18 EUR,,USD\n" // coffee-contradicts; currency-contradicts
            + "B3,,Mist,Lark,C?te,26-Jan,,,,,,\n" // lost-letter; spreadsheet-date
            + "B4,,Mist,Lark,,,,,,,,\n" // same-coffee
            + "B5,,Fern,Lark,Kenya,,,,,,,\n"
            + "B5,,Fern,Lark,Peru,,,,,,,\n"; // bag-contradicts
        var cups = string.Concat(Enumerable.Range(0, 40).Select(i =>
            $"T{i:00},B3,2025-02-{1 + i / 2:00}T0{7 + i % 2}:15,cone dripper,,,,,{6 + i % 3}.5,{(i % 4 == 0 ? 10 : 4 + i % 5)},{(i == 7 ? 0 : 60 + i)}\n"))
            + "U1,B1,2025-02-20T10:00,cone dripper,60,,,,7,5,70\nU2,B1,2025-02-20T11:00,cone dripper,60,,,,7,5,70\n"
            + "U3,B3,2025-02-20T12:00,cone dripper,15,600,,,7.3,5,70\n"
            + "U4,B3,2025-02-20T13:00,cone dripper,15,,30,2.5,7,5,70\n"
            + "U5,B3,2025-02-20T14:00,cone dripper,,,,,7,5,70\nU6,B3,2025-02-20T14:00,cone dripper,,,,,6,5,70\n"
            + "U7,B3,2024-02-20T15:00,cone dripper,,,,,7,5,70\n"
            + "U8,B3,2025-02-21T16:00,cone dripper,,,,,7,5,70\nU9,B1,2025-01-02T10:00,cone dripper,,,,,7,5,70\n";
        cups = cups.Replace("\n", ",\n", StringComparison.Ordinal) + "V1,B3,2025-02-21T17:00,cone dripper,15,240,,,7,5,70,20\n"; // ratio-contradicts
        return [("bags.csv", bags), ("tastings.csv", CupHeader + cups), ("scales.csv", "attribute,kind,min,max,step\ndepth,quality,0,100,1\n")];
    }
}
