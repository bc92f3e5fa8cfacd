namespace TastingKit.Tests;

public sealed class BagTimelineTests
{
    [Fact]
    public void Every_cup_of_the_bag_is_there_and_the_mean_is_of_those_that_count()
    {
        var timeline = Bag().BagTimeline("A");

        Assert.Equal(["T2", "T1", "T3", "T4", "T5", "T6"], timeline.Cups.Select(cup => cup.Cup.Id));
        Assert.Equal([6, 8, 8, 9, 20, 50], timeline.Cups.Select(cup => cup.Day));
        Assert.Equal(["for dialling in", "counts", "counts", "failed", "counts", "without a score"], timeline.Cups.Select(cup => cup.Standing));
        Assert.Equal(6, timeline.Mean!.Value, 12);
        // Scores 5, 6 and 7: a standard error of 1/√3 and 2 degrees of freedom, t = 4.3027.
        Assert.Equal(6 - (4.302652729911275 / Math.Sqrt(3)), timeline.Interval!.Low, 9);
        Assert.Equal("Coffee A, bag A: 6 cups from day 6 to 50 after roasting; the 3 that count have a mean of 6.00 (95 % interval 3.52 to 8.48).", timeline.Finding);
        Assert.Equal("By brewer: cone dripper 4, brewer not stated 1, press 1.", timeline.Summary[1]);
        Assert.Equal("Not counted: 1 for dialling in, 1 failed, 1 without a score.", timeline.Summary[2]);
        Assert.Equal("The bag: frozen on day 10; thawed on day 50.", timeline.Summary[3]);
        Assert.Equal(3, Assert.Single(timeline.Computation.LeftOut).Cups);
        Assert.Equal(10, timeline.Cups[^1].Cup.RestDays);
        Assert.Equal(6, timeline.Table.Rows.Count);
        Assert.Equal("own, 15.0 g, 1:16.0, 94 °C, grind 24, 2:30", timeline.Cups[1].Recipe);
    }

    [Fact]
    public void Without_a_name_it_is_the_bag_of_most_cups_and_two_cups_have_no_interval()
    {
        Assert.Equal("A", Bag().BagTimeline().Bag.Id);
        Assert.Equal("C", new TestLog().Cup("C", "2025-01-01", 6, purpose: Purpose.Cupping).Build().BagTimeline().Bag.Id);
        var two = new TestLog().Cup("B", "2025-01-01", 6).Cup("B", "2025-01-03", 7).Build().BagTimeline();
        Assert.Null(two.Interval);
        Assert.Equal([0, 2], two.Cups.Select(cup => cup.Day));
        Assert.Contains("from day 0 to 2 from the first cup; the 2 cups that count have a mean of 6.50, too few for an interval.", two.Finding, StringComparison.Ordinal);
        Assert.Contains("does not say when the bag was opened", two.Summary[^1], StringComparison.Ordinal);
    }

    [Fact]
    public void A_bag_without_a_cup_and_one_that_is_not_there_are_said_plainly()
    {
        var log = new TestLog().Bag("empty").Cup("B", "2025-01-01", 6).Build();
        Assert.Equal("The log has no cup of bag empty.", log.BagTimeline("empty").Finding);
        Assert.Empty(log.BagTimeline("empty").Table.Rows);
        Assert.Contains("no bag 'C'; it has 2 bags", Assert.Throws<ArgumentException>(() => log.BagTimeline("C")).Message, StringComparison.Ordinal);
    }

    private static TastingLog Bag() => new TestLog().Bag("A", roasted: new DateOnly(2025, 1, 1))
        .Cup("A", "2025-01-09", 6, cup => cup with
        {
            Brewer = "cone dripper",
            Recipe = "own",
            DoseGrams = 15,
            WaterGrams = 240,
            WaterCelsius = 94,
            Grind = "24",
            BrewTime = TimeSpan.FromSeconds(150),
        })
        .Cup("A", "2025-01-07", 4, "cone dripper", purpose: Purpose.DialIn)
        .Cup("A", "2025-01-09", 5, "cone dripper")
        .Cup("A", "2025-01-10", 2, "press", failed: true)
        .Cup("A", "2025-01-21", 7, "cone dripper")
        .Cup("A", "2025-02-20", null, cup => cup with { FrozenOn = new DateOnly(2025, 1, 11), ThawedOn = new DateOnly(2025, 2, 20) })
        .Cup("B", "2025-01-09", 9).Build();
}
