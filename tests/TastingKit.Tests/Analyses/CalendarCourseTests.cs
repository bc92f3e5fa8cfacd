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
    public void A_step_of_all_bags_is_placed_and_the_change_of_water_near_it_named()
    {
        var log = Stepping(1.2);
        var course = log.Change("2025-07-01", "water").Change("2025-03-01", "filter").Build().CalendarCourse();
        var order = course.Order!;
        Assert.Equal((24, 1999, false), (order.Bags, order.Permutations, order.IsExact));
        Assert.InRange(order.P, 0.0005, 0.01);
        Assert.True(order.Step.IsTold);
        Assert.InRange(order.Step.After, new DateOnly(2025, 6, 10), new DateOnly(2025, 7, 1));
        Assert.InRange(order.Step.By, new DateOnly(2025, 6, 24), new DateOnly(2025, 7, 15));
        Assert.InRange(order.Step.MeanAfter - order.Step.MeanBefore, 1.0, 1.4);
        Assert.Equal(["water"], order.Step.Near.Select(change => change.What));
        Assert.Contains(course.Summary, s => s.StartsWith("If it was one step, it came between 2025-06-", StringComparison.Ordinal)
            && s.EndsWith("Near it lies a change of water on 2025-07-01: a step across all bags mimics inflation.", StringComparison.Ordinal));
        Assert.Contains(course.Summary, s => s.StartsWith("By their order alone, bag means rise with the days (Kendall\u2019s tau +0.", StringComparison.Ordinal));
        Assert.Contains(Stepping(1.2).Build().CalendarCourse().Summary, s => s.EndsWith("No listed change of water or equipment lies near it.", StringComparison.Ordinal));
        Assert.Equal(order.P, log.Build().CalendarCourse().Order!.P);
        Assert.All(course.Summary, sentence => Assert.False(sentence.Contains("scale drifted", StringComparison.Ordinal) || sentence.Contains("inflated", StringComparison.Ordinal)));
    }

    [Fact]
    public void Cups_of_a_bag_are_one_unit_of_chance_and_six_bags_are_gone_through_in_every_order()
    {
        // Fifty cups of each of six bags: of 720 orders of bags two rise or fall throughout, however many cups there are.
        var log = new TestLog();
        for (var bag = 0; bag < 6; bag++)
        {
            for (var cup = 0; cup < 50; cup++)
                log.Cup($"B{bag}", new DateOnly(2025, 1, 5).AddDays((bag * 30) + (cup % 9)).ToString("yyyy-MM-dd", null), 5 + (bag * 0.3) + (cup % 3 * 0.25));
        }

        var order = log.Build().CalendarCourse().Order!;
        Assert.Equal((720, true, 1.0), (order.Permutations, order.IsExact, order.Tau));
        Assert.Equal(2.0 / 720, order.P, 12);
        Assert.False(order.Step.P < 0.05);
    }

    [Fact]
    public void An_attribute_runs_its_own_course()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 8; bag++)
        {
            for (var cup = 0; cup < 4; cup++)
            {
                log.Cup($"B{bag}", new DateOnly(2025, 1, 5).AddDays((bag * 30) + cup).ToString("yyyy-MM-dd", null), 6,
                    t => t with { Attributes = new Dictionary<TastingAttribute, double> { [TastingAttribute.Body] = 9 - bag + (cup * 0.1) } });
            }
        }

        var course = log.Build().CalendarCourse(TastingAttribute.Body);
        Assert.StartsWith("Raw body fell by 12.1", course.Finding, StringComparison.Ordinal);
        Assert.Equal("How did body run over the calendar?", course.Question);
        Assert.Equal("Raw mean body by month", course.Table.Title);
        Assert.Equal((-1, 40320), ((int)course.Order!.Tau, course.Order.Permutations));
        Assert.Contains("value of sweetness", log.Build().CalendarCourse(TastingAttribute.Sweetness).Finding, StringComparison.Ordinal);
    }

    private static TestLog Stepping(double step)
    {
        var log = new TestLog();
        for (var bag = 0; bag < 24; bag++)
        {
            for (var cup = 0; cup < 4; cup++)
            {
                var day = new DateOnly(2025, 1, 5).AddDays((bag * 15) + (cup * 3));
                log.Cup($"B{bag}", day.ToString("yyyy-MM-dd", null), 6 + (day >= new DateOnly(2025, 7, 1) ? step : 0) + (0.2 * Math.Sin(bag * bag)) + (cup % 2 * 0.25));
            }
        }

        return log;
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
