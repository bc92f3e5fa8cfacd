namespace TastingKit.Tests.Log.Reading;

/// <summary>The files beside bags and cups, read with the same accounting.</summary>
public sealed class RecordsBesideTests
{
    private const string Bags = "bag_id\nB1\nB2\n";

    [Fact]
    public void Verdicts_are_read_and_accounted_for()
    {
        var log = LogInMemory.Read(("bags.csv", Bags), ("verdicts.csv",
            "published_on,bag_id,score,sentence,disclosure,corrected_on\n"
            + "2025-04-02,B1,7.5,\"Sweet, and lasting.\",sample,2025-04-09\n2025-04-03,B9,7,,,\nsoon,B2,7,,,\n2025-04-05,B2,12,,,\n"));

        Assert.Equal(
            [new PublishedVerdict(new DateOnly(2025, 4, 2), "B1", 7.5, "Sweet, and lasting.", "sample", new DateOnly(2025, 4, 9)),
                new PublishedVerdict(new DateOnly(2025, 4, 5), "B2", null, null, null, null)],
            log.PublishedVerdicts);
        log.AssertReport("unknown-bag", Severity.Rejected, "verdicts.csv", 3, "bag_id", "B9");
        log.AssertReport("date-not-iso", Severity.Rejected, "verdicts.csv", 4, "published_on", "soon");
        log.AssertReport("score-off-scale", Severity.Doubtful, "verdicts.csv", 5, "score", "12");
        Assert.Equal((4, 2, 1, 2), log.AccountOf("verdicts.csv"));
    }

    [Fact]
    public void Blind_tests_are_read_and_accounted_for()
    {
        var log = LogInMemory.Read(("bags.csv", Bags), ("blind-tests.csv",
            "test_id,tested_on,protocol,attribute,bag_a,bag_b,trials,correct\n"
            + "D1,2025-04-02,Duo Trio,,B1,B2,12,9\nD2,2025-04-02,paired,sweetness,B1,B2,10,11\nD3,2025-04-02,tasting,,B1,B2,10,1\nD4,2025-04-02,triangle,,B1,B3,0,0\nD1,2025-04-02,triangle,,B1,B2,5,5\n"));

        Assert.Equal([new BlindTest("D1", new DateOnly(2025, 4, 2), "duo-trio", null, "B1", "B2", 12, 9)], log.BlindTests);
        log.AssertReport("correct-over-trials", Severity.Rejected, "blind-tests.csv", 3, "correct", "11 of 10");
        log.AssertReport("unknown-word", Severity.Rejected, "blind-tests.csv", 4, "protocol", "tasting");
        log.AssertReport("unknown-bag", Severity.Rejected, "blind-tests.csv", 5, "bag_b", "B3");
        log.AssertReport("number-out-of-range", Severity.Rejected, "blind-tests.csv", 5, "trials", "0");
        log.AssertReport("duplicate-id", Severity.Rejected, "blind-tests.csv", 6, "test_id", "D1");
        Assert.Equal((5, 1, 0, 4), log.AccountOf("blind-tests.csv"));
    }

    [Fact]
    public void Changes_are_read_in_order_and_accounted_for()
    {
        var log = LogInMemory.Read(("bags.csv", Bags), ("changes.csv",
            "changed_on,what,from,to,why\n2025-06-01,Water,soft,hard,moved\n2025-02-01,burrs,,new,\n2025-03-01,mood,,,\n"));

        Assert.Equal(
            [new EquipmentChange(new DateOnly(2025, 2, 1), "burrs", null, "new"), new EquipmentChange(new DateOnly(2025, 6, 1), "water", "soft", "hard")],
            log.Changes);
        log.AssertReport("unknown-word", Severity.Rejected, "changes.csv", 4, "what", "mood");
        log.AssertReport("unknown-column", Severity.Information, "changes.csv", 1, "why", "why");
        Assert.Equal((3, 2, 0, 1), log.AccountOf("changes.csv"));
    }

    [Fact]
    public void Scales_are_read_and_accounted_for()
    {
        var log = LogInMemory.Read(
            ("bags.csv", Bags),
            ("tastings.csv", "tasting_id,bag_id,tasted_at,score,aftertaste,acidity\nT1,B1,2025-03-14,85,3,3\n"),
            ("scales.csv",
                "attribute,kind,min,max,step\nscore,quality,0,100,0.25\nfinish,intensity,1,5,1\nacidity,just right,1,5,1\nbody,intensity,5,1,1\n"
                + "score,liking,1,9,1\nclarity,strength,1,9,1\nmouthwatering,intensity,0,15,0.5\n"));

        Assert.Equal((ScaleKind.Quality, 100.0, 0.25), (log.ScaleOf(TastingAttribute.Score).Kind, log.ScaleOf(TastingAttribute.Score).Max, log.ScaleOf(TastingAttribute.Score).Step));
        Assert.Equal(5, log.ScaleOf(TastingAttribute.Aftertaste).Max);
        Assert.Equal(ScaleKind.JustRight, log.ScaleOf(TastingAttribute.Acidity).Kind);
        Assert.Equal(15, log.ScaleOf(TastingAttribute.Body).Max);
        log.AssertReport("scale-not-read", Severity.Rejected, "scales.csv", 5, "", "5, 1, 1");
        log.AssertReport("duplicate-id", Severity.Rejected, "scales.csv", 6, "", "score");
        log.AssertReport("unknown-word", Severity.Rejected, "scales.csv", 7, "kind", "strength");
        log.AssertReport("unused-scale", Severity.Information, "scales.csv", 8, "attribute", "mouthwatering");
        Assert.Equal((7, 4, 0, 3), log.AccountOf("scales.csv"));
    }
}
