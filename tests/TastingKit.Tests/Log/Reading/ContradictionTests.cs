namespace TastingKit.Tests.Log.Reading;

/// <summary>Cells that are each sound and contradict one another.</summary>
public sealed class ContradictionTests
{
    [Fact]
    public void A_cup_tasted_before_its_roast_has_no_rest()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score\nT1,B1,2025-02-28,7\nT2,B1,2025-03-01,7\n");

        Assert.Equal([null, 0], log.Tastings.Select(cup => cup.RestDays));
        log.AssertReport("tasted-before-roast", Severity.Doubtful, "tastings.csv", 2, "tasted_at", "2025-02-28");
        Assert.Equal((2, 2, 1, 0), log.AccountOf("tastings.csv"));
    }

    [Fact]
    public void A_rest_of_over_a_year_is_told_and_days_frozen_do_not_count()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,frozen_on\nT1,B1,2026-03-14,\nT2,B1,2026-03-14,2025-03-15\n");

        log.AssertReport("rest-over-a-year", Severity.Doubtful, "tastings.csv", 2, "tasted_at", "2026-03-14");
        Assert.Equal(14, log.Tastings[1].RestDays);
    }

    [Fact]
    public void A_dose_thawed_before_it_was_frozen_is_taken_for_neither()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,frozen_on,thawed_on\nT1,B1,2025-03-14,2025-03-10,2025-03-05\n");

        Assert.Equal((null, null, 13), (log.Tastings[0].FrozenOn, log.Tastings[0].ThawedOn, log.Tastings[0].RestDays));
        log.AssertReport("thawed-before-frozen", Severity.Doubtful, "tastings.csv", 2, "thawed_on", "2025-03-05");
    }

    [Fact]
    public void A_dose_frozen_after_the_tasting_is_taken_for_neither()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,frozen_on,thawed_on\nT1,B1,2025-03-14,2025-03-20,\n");

        Assert.Equal((null, null), (log.Tastings[0].FrozenOn, log.Tastings[0].ThawedOn));
        log.AssertReport("frozen-after-tasting", Severity.Doubtful, "tastings.csv", 2, "frozen_on", "2025-03-20");
    }

    [Fact]
    public void A_cup_tasted_while_its_dose_was_frozen_has_neither_day()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,frozen_on,thawed_on\nT1,B1,2025-03-14,2025-03-10,2025-03-20\n");

        Assert.Equal((null, null), (log.Tastings[0].FrozenOn, log.Tastings[0].ThawedOn));
        log.AssertReport("tasted-while-frozen", Severity.Doubtful, "tastings.csv", 2, "thawed_on", "2025-03-20");
    }

    [Fact]
    public void A_bag_opened_before_its_roast_keeps_its_roast_date()
    {
        var log = LogInMemory.ReadBags("bag_id,roast_date,opened_on\nB1,2025-03-10,2025-03-01\n");

        Assert.Equal((new DateOnly(2025, 3, 10), null), (log.Bags[0].RoastDate, log.Bags[0].OpenedOn));
        log.AssertReport("opened-before-roast", Severity.Doubtful, "bags.csv", 2, "opened_on", "2025-03-01");
    }

    [Theory]
    [InlineData("15,60,,", "ratio-unusual", "water_g", "60")]
    [InlineData("15,500,,", "ratio-unusual", "water_g", "500")]
    [InlineData("15,240,210,0.5", "extraction-unusual", "tds_pct", "0.5")]
    [InlineData("15,240,210,3", "extraction-unusual", "tds_pct", "3")]
    public void Amounts_that_hardly_go_together_are_kept_and_told(string cells, string rule, string column, string found)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,dose_g,water_g,yield_g,tds_pct\nT1,B1,2025-03-14,{cells}\n");

        Assert.NotNull(log.Tastings[0].Ratio);
        log.AssertReport(rule, Severity.Doubtful, "tastings.csv", 2, column, found);
    }
}
