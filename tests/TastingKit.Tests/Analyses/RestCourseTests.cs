using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class RestCourseTests
{
    [Fact]
    public void A_planted_peak_is_found_with_an_interval_that_holds_it()
    {
        var course = Year(day => -0.004 * (day - 20) * (day - 20)).RestCourse();

        var peak = Assert.IsType<RestShape.Peak>(course.Shape);
        Assert.InRange(peak.Day, 17, 23);
        Assert.InRange(20, peak.Low, peak.High);
        Assert.StartsWith($"Scores peak around day {peak.Day} of rest", course.Finding, StringComparison.Ordinal);

        // The course lies on the truth, 6 at its peak, within a quarter of a point from first day to last.
        Assert.All(course.Points, p => Assert.InRange(p.Estimate - (6 - (0.004 * (p.RestDays - 20) * (p.RestDays - 20))), -0.25, 0.25));
        Assert.All(course.Points, p => Assert.True(p.Low < p.Estimate && p.Estimate < p.High));
        Assert.Equal(course.Computation.CupsUsed, course.Cups.Sum(c => c.Cups));
    }

    [Fact]
    public void A_course_that_only_rises_or_falls_has_no_peak()
    {
        Assert.IsType<RestShape.Rising>(Year(day => 0.05 * day).RestCourse().Shape);
        Assert.IsType<RestShape.Falling>(Year(day => -0.05 * day).RestCourse().Shape);
    }

    [Fact]
    public void A_flat_course_is_undetermined()
    {
        var course = Year(_ => 0).RestCourse();
        var undetermined = Assert.IsType<RestShape.Undetermined>(course.Shape);
        Assert.Contains("flat", undetermined.Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void Bags_that_are_better_and_tasted_later_do_not_make_a_course()
    {
        var course = TestLog.OfBetterBagsTastedLater().Build().RestCourse();
        Assert.IsType<RestShape.Undetermined>(course.Shape);
        Assert.InRange(course.Points[^1].Estimate - course.Points[0].Estimate, -0.45, 0.45);
    }

    [Fact]
    public void With_few_cups_a_bag_the_course_is_still_one_within_bags()
    {
        // Bags drunk late are better; no bag changes. Averaged over logs, since one log of three cups a bag says little.
        var rises = new List<double>();
        for (var seed = 0; seed < 20; seed++)
        {
            var log = new TestLog();
            var random = new RandomStream((ulong)(500 + seed));
            for (var bag = 0; bag < 40; bag++)
            {
                log.Bag($"B{bag}", roasted: new DateOnly(2025, 1, 1));
                for (var cup = 0; cup < 3; cup++)
                {
                    var day = 4 + (bag / 2) + (cup * 4);
                    log.Cup($"B{bag}", new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", null), 5.5 + (0.04 * bag) + (0.6 * random.NextNormal()));
                }
            }

            var points = log.Build().RestCourse().Points;
            rises.Add(points[^1].Estimate - points[0].Estimate);
        }

        Assert.InRange(rises.Average(), -0.4, 0.4);
    }

    [Fact]
    public void No_roast_dates_or_few_cups_are_said_plainly()
    {
        Assert.Contains("no bag has a roast date", new TestLog().Cup("A", "2025-01-01", 6).Build().RestCourse().Finding, StringComparison.Ordinal);
        var few = new TestLog().Bag("A", roasted: new DateOnly(2025, 1, 1)).Cup("A", "2025-01-10", 6).Cup("A", "2025-01-12", 7).Build().RestCourse();
        Assert.Contains("too few to draw a course", few.Finding, StringComparison.Ordinal);
        Assert.Empty(few.Points);
    }

    private static TastingLog Year(Func<int, double> effect)
    {
        var log = new TestLog();
        var random = new RandomStream(2);
        for (var bag = 0; bag < 20; bag++)
        {
            var quality = 0.4 * random.NextNormal();
            log.Bag($"B{bag}", roasted: new DateOnly(2025, 1, 1));
            for (var cup = 0; cup < 12; cup++)
            {
                var day = 4 + (bag % 4) + (cup * 3);
                log.Cup($"B{bag}", new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", null), 6 + quality + effect(day) + (0.3 * random.NextNormal()));
            }
        }

        return log.Build();
    }
}
