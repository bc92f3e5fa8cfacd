using TastingKit.Tests.Log.Reading;

namespace TastingKit.Tests.Log;

public sealed class TastingLogFilteringTests
{
    private static readonly TastingLog Log = LogInMemory.Read(
        ("bags.csv", "bag_id\nB1\nB2\nB2\n"),
        ("tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-01,6\nT2,B1,2025-03-31,7\nT3,B2,2025-04-01,8\nT4,B9,2025-04-01,8\n"),
        ("verdicts.csv", "published_on,bag_id\n2025-04-02,B1\n2025-04-03,B2\n"),
        ("blind-tests.csv", "test_id,tested_on,protocol,bag_a,bag_b,trials,correct\nD1,2025-04-01,triangle,B1,B2,8,3\nD2,2025-04-01,triangle,B1,B1,8,3\n"),
        ("changes.csv", "changed_on,what\n2025-03-15,water\n"),
        ("scales.csv", "attribute,kind,min,max,step\nscore,liking,0,10,1\n"));

    [Fact]
    public void The_cups_kept_and_what_belongs_to_them_remain()
    {
        var march = Log.Between(new DateOnly(2025, 3, 1), new DateOnly(2025, 3, 31));

        Assert.Equal(["T1", "T2"], march.Tastings.Select(cup => cup.Id));
        Assert.Equal(["B1"], march.Bags.Select(bag => bag.Id));
        Assert.Equal(["B1"], march.PublishedVerdicts.Select(verdict => verdict.BagId));
        Assert.Equal(["D2"], march.BlindTests.Select(test => test.Id));
        Assert.Single(march.Changes);
        Assert.Equal(10, march.ScaleOf(TastingAttribute.Score).Max);
    }

    [Fact]
    public void Reports_and_accounts_stay_and_each_filter_is_told()
    {
        var some = Log.Where(cup => cup.Score > 6).Where(cup => cup.Bag.Id == "B2", "cups of the second bag");

        Assert.Equal(Log.Problems, some.Problems);
        Assert.Equal(Log.Accounts, some.Accounts);
        Assert.Equal(2, Log.Problems.Count(problem => problem.Severity == Severity.Rejected));
        Assert.Equal([new LogFilter("cup => cup.Score > 6", 3, 2), new LogFilter("cups of the second bag", 2, 1)], some.Filters);
        Assert.Equal("1 of 2 cups: cups of the second bag", some.Filters[1].ToString());
        Assert.Empty(Log.Filters);
    }

    [Fact]
    public void Days_in_the_wrong_order_are_refused() =>
        Assert.Throws<ArgumentException>(() => Log.Between(new DateOnly(2025, 3, 2), new DateOnly(2025, 3, 1)));

    [Fact]
    public void Filter_keeps_the_cups_of_some_levels_with_the_accounting()
    {
        var log = TastingKit.Tests.Log.Reading.LogInMemory.Read(
            ("bags.csv", "bag_id,process\nB1,washed\nB2,natural\nB3,\n"),
            ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2025-03-12\nT2,B2,2025-03-13\nT3,B3,2025-03-14\nT4,B9,2025-03-15\n"));
        var kept = log.Filter(Factor.Process, "Washed", Factor.NotStated);
        Assert.Equal(["T1", "T3"], kept.Tastings.Select(cup => cup.Id));
        Assert.Equal(["B1", "B3"], kept.Bags.Select(bag => bag.Id));
        Assert.Equal("2 of 3 cups: process Washed or (not stated)", Assert.Single(kept.Filters).ToString());
        Assert.Equal(log.Accounts, kept.Accounts);
        Assert.Equal(log.Problems, kept.Problems);

        var unknown = Assert.Throws<ArgumentException>(() => log.Filter(Factor.Process, "honey"));
        Assert.Contains("No cup has the process 'honey'. The log has (not stated), natural, washed.", unknown.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => log.Filter(Factor.Process));
    }
}
