namespace TastingKit.Tests;

public sealed class CalendarCourseTests
{
    [Fact]
    public void A_month_is_the_plain_mean_of_its_cups_with_bags_as_the_unit_of_chance()
    {
        var course = new TestLog()
            .Cup("A", "2025-01-03", 6).Cup("A", "2025-01-05", 7).Cup("B", "2025-01-20", 5).Cup("B", "2025-01-21", 4).Cup("C", "2025-01-22", 5).Cup("C", "2025-01-23", 6)
            .Cup("C", "2025-02-01", 8)
            .Build().CalendarCourse();

        Assert.Equal("month", course.PeriodName);
        Assert.Equal(["2025-01", "2025-02"], course.Periods.Select(p => p.Label));
        var january = course.Periods[0];
        Assert.Equal((5.5, 6, 3), (january.Mean, january.Cups, january.Bags));

        // Bag means 6.5, 4.5 and 5.5: standard error 1 / √3, two degrees of freedom, t at 97.5 % = 4.3026527.
        Assert.Equal(5.5 - (4.302652729911275 / Math.Sqrt(3)), january.Interval!.Low, 6);
        Assert.Equal(5.5 + (4.302652729911275 / Math.Sqrt(3)), january.Interval.High, 6);
        Assert.Null(course.Periods[1].Interval);
        Assert.Contains(course.Cautions, c => c.Name == "few-bags");
    }

    [Fact]
    public void Dial_in_failed_unscored_and_control_cups_are_left_out_and_counted()
    {
        var course = new TestLog()
            .Cup("A", "2025-01-03", 6).Cup("B", "2025-02-05", 7)
            .Cup("A", "2025-01-04", 1, purpose: Purpose.DialIn).Cup("A", "2025-01-04", 1, failed: true)
            .Cup("A", "2025-01-04", null).Cup("A", "2025-01-06", 1, purpose: Purpose.Control).Cup("A", "2025-01-06", 1, purpose: Purpose.Cupping)
            .Build().CalendarCourse();

        Assert.Equal(2, course.Computation.CupsUsed);
        Assert.Equal(
            ["control doses 1", "cupping bowls 1", "failed 1", "for dialling in 1", "without a score 1"],
            course.Computation.LeftOut.Select(l => $"{l.Reason} {l.Cups}"));
        Assert.Equal([6.0, 7.0], course.Periods.Select(p => p.Mean));
    }

    [Fact]
    public void A_planted_rise_is_said_to_be_one_and_not_to_be_inflation()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 24; bag++)
        {
            var day = new DateOnly(2025, 1, 5).AddDays(bag * 14);
            for (var cup = 0; cup < 4; cup++)
                log.Cup($"B{bag}", day.AddDays(cup * 3).ToString("yyyy-MM-dd", null), 5 + (bag * 0.1) + (((bag + cup) % 3) * 0.25));
        }

        var course = log.Build().CalendarCourse();
        Assert.NotNull(course.Trend);

        // A tenth of a point every fourteen days is 2.609 points a year of 365.25 days.
        Assert.InRange(course.Trend.PointsAYear, 2.5, 2.7);
        Assert.InRange(course.Trend.Low, 2.3, course.Trend.PointsAYear);
        Assert.Equal(Bend.None, course.Trend.Bend);
        Assert.StartsWith("Raw scores rose", course.Finding, StringComparison.Ordinal);
        Assert.Contains(course.Summary, s => s.Contains("not by itself inflation", StringComparison.Ordinal));
    }

    [Fact]
    public void A_course_that_dips_is_called_bent_and_no_rise()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 25; bag++)
        {
            var off = bag - 12;
            for (var cup = 0; cup < 3; cup++)
                log.Cup($"B{bag}", new DateOnly(2025, 1, 5).AddDays((bag * 14) + cup).ToString("yyyy-MM-dd", null), 5 + (off * off * 0.01) + (((bag + cup) % 3) * 0.25));
        }

        var course = log.Build().CalendarCourse();
        Assert.Equal(Bend.Hollow, course.Trend!.Bend);
        Assert.InRange(0, course.Trend.Low, course.Trend.High);
        Assert.StartsWith("Raw scores show no steady rise or fall", course.Finding, StringComparison.Ordinal);
        Assert.Contains(course.Summary, s => s.Contains("lower in the middle", StringComparison.Ordinal));
    }

    [Fact]
    public void A_long_log_is_cut_into_years_and_a_change_of_water_is_named()
    {
        var course = new TestLog()
            .Cup("A", "2015-01-03", 6).Cup("B", "2018-02-05", 7).Cup("C", "2021-05-05", 7).Change("2018-01-01", "water")
            .Build().CalendarCourse();

        Assert.Equal("year", course.PeriodName);
        Assert.Equal(["2015", "2018", "2021"], course.Periods.Select(p => p.Label));
        Assert.Contains("water on 2018-01-01", Assert.Single(course.Cautions, c => c.Name == "equipment-changed").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void One_month_or_no_score_is_said_plainly()
    {
        Assert.False(new TestLog().Cup("A", "2025-01-03", 6).Cup("B", "2025-01-05", 7).Build().CalendarCourse().Support.IsSupported);
        var none = new TestLog().Cup("A", "2025-01-03", null).Build().CalendarCourse();
        Assert.Contains("no scored cup", none.Finding, StringComparison.Ordinal);
        Assert.Empty(none.Table.Rows);
    }
}
