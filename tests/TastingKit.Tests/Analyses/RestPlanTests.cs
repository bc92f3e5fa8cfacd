using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class RestPlanTests
{
    [Fact]
    public void A_bag_is_opened_so_that_its_days_open_lie_about_the_peak_whatever_an_open_day_costs()
    {
        // Sealed or open, a coffee peaks on day 24; a day in an open bag costs a twentieth of a point on top. Bags are drunk over 14 days.
        var plan = Year(bag => 4 + (bag % 11 * 2)).RestPlan("B3");

        Assert.True(plan.Support.IsSupported, plan.Finding);
        Assert.Equal(14, plan.DaysOpen);
        Assert.InRange(plan.Best.Age, 13, 21);
        Assert.InRange(17, plan.BestLow, plan.BestHigh);
        Assert.InRange(plan.BestHigh - plan.BestLow, 1, 14);
        Assert.Equal((4, 22), (plan.Days[0].Age, plan.Days[^1].Age));
        Assert.Contains($"is best opened around day {plan.Best.Age}", plan.Finding, StringComparison.Ordinal);
        Assert.Contains("Of this bag, day", plan.Summary[1], StringComparison.Ordinal);
        Assert.Contains(plan.Cautions, c => c.Name == "bags-opened-late-alike");
    }

    [Fact]
    public void Where_no_age_is_sure_to_be_worse_no_best_one_is_named_and_without_a_name_the_last_roasted_bag_is_meant()
    {
        var log = new TestLog();
        var random = new RandomStream(9);
        for (var bag = 0; bag < 12; bag++)
        {
            log.Bag($"B{bag}", process: "washed", roasted: new DateOnly(2025, 1, 1).AddDays(bag));
            for (var cup = 0; cup < 5; cup++)
                log.Cup($"B{bag}", new DateOnly(2025, 1, 5).AddDays((3 * bag) + (2 * cup)).ToString("yyyy-MM-dd", null), 6 + (0.4 * random.NextNormal()));
        }

        var plan = log.Build().RestPlan();
        Assert.Equal("B11", plan.Bag.Id);
        Assert.False(plan.NamesBest);
        Assert.StartsWith("It makes no difference that is shown when bag B11 is opened", plan.Finding, StringComparison.Ordinal);
        Assert.StartsWith("To tell more, open further bags of its kind early and late", plan.Summary[1], StringComparison.Ordinal);
    }

    [Fact]
    public void Bags_opened_at_one_age_do_not_tell_when_to_open_one()
    {
        var plan = Year(_ => 8).RestPlan("B0");
        Assert.False(plan.Support.IsSupported);
        Assert.Equal("The log tells when bags of washed taste best as you keep them, not when to open one: 22 bags of it were all opened on day 8.", plan.Finding);
        Assert.Contains("ten days or more apart, six bags or more", plan.Summary[1], StringComparison.Ordinal);
        Assert.Empty(plan.Table.Rows);
        Assert.Contains("22 bags of it were opened from day 8 to day 16 of their age", Year(bag => 8 + (bag % 5 * 2)).RestPlan("B0").Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void A_kind_that_was_never_tasted_and_a_bag_that_is_not_there_are_said_plainly()
    {
        var log = Year(bag => 4 + (bag % 11 * 2), "honey");
        Assert.Contains("no bag of it has a roast date and a scored cup", log.RestPlan("new").Finding, StringComparison.Ordinal);
        Assert.Contains("no bag 'B99'", Assert.Throws<ArgumentException>(() => log.RestPlan("B99")).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => log.RestPlan("B0", near: 0));
    }

    private static TastingLog Year(Func<int, int> opened, string? further = null)
    {
        var log = new TestLog();
        var random = new RandomStream(8);
        var roasted = new DateOnly(2025, 1, 1);
        for (var bag = 0; bag < 22; bag++)
        {
            log.Bag($"B{bag}", process: "washed", roasted: roasted);
            var quality = 0.3 * random.NextNormal();
            for (var cup = 0; cup < 8; cup++)
            {
                var (open, age) = (cup * 2, opened(bag) + (cup * 2));
                log.Cup(
                    $"B{bag}", roasted.AddDays(age).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture),
                    6.5 + quality - (0.006 * (age - 24) * (age - 24)) - (0.05 * open) + (0.25 * random.NextNormal()));
            }
        }

        if (further is not null)
            log.Bag("new", process: further, roasted: roasted);
        return log.Build();
    }
}
