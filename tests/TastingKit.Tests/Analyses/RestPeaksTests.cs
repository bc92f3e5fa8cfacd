using TastingKit.Calibration;
using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class RestPeaksTests
{
    private static double Arch(int day) => -0.004 * (day - 20) * (day - 20);

    [Fact]
    public void A_planted_peak_is_found_with_an_interval_that_holds_it()
    {
        var peaks = Year(Arch).RestPeaks();

        var group = Assert.Single(peaks.Groups);
        var peak = Assert.IsType<RestOutcome.Peak>(group.Outcome);
        Assert.InRange(peak.Day, 18, 22);
        Assert.InRange(20, peak.Low, peak.High);
        Assert.InRange(peak.High - peak.Low, 1, 8);
        Assert.StartsWith($"The score peaks around day {peak.Day} of rest", peaks.Finding, StringComparison.Ordinal);
        Assert.True(group.PeakInside > 0.99);

        // The course lies on the truth, 6 at its peak plus what these bags are worth, and its best days are those within a quarter of a point.
        var offset = group.Days.Average(d => d.Estimate - 6 - Arch(d.RestDays));
        Assert.All(group.Days, d => Assert.InRange(d.Estimate - 6 - Arch(d.RestDays) - offset, -0.15, 0.15));
        Assert.All(group.Days, d => Assert.True(d.Low < d.Estimate && d.Estimate < d.High));
        Assert.InRange(group.BestFrom, 10, 14);
        Assert.InRange(group.BestTo, 26, 30);
        Assert.True(group.Days.Single(d => d.RestDays == 20).NearBest > 0.99);
        Assert.True(group.Days[^1].NearBest < 0.01);
        Assert.Equal(240, group.Cups);
        Assert.Equal(20, group.Bags);
    }

    [Fact]
    public void A_drift_moves_the_peak_by_itself_over_the_curvature()
    {
        // Curvature 0.008 a day squared: 1.46 points a year, 0.004 a day, move the peak by half a day; ten times as much by five.
        var group = Assert.Single(Year(Arch).RestPeaks(driftPerYear: 14.6).Groups);
        var peak = Assert.IsType<RestOutcome.Peak>(group.Outcome);
        Assert.Equal([-14.6, 14.6], group.UnderDrift.Select(d => d.PerYear));
        var (down, up) = (Assert.IsType<RestOutcome.Peak>(group.UnderDrift[0].Outcome), Assert.IsType<RestOutcome.Peak>(group.UnderDrift[1].Outcome));

        // A scale that rose made late days look better than they were: the true peak is earlier.
        Assert.InRange(down.Day - peak.Day, 2, 8);
        Assert.InRange(peak.Day - up.Day, 2, 8);
    }

    [Fact]
    public void A_course_that_only_rises_or_falls_has_no_peak_and_says_which()
    {
        var rising = Year(day => 0.05 * day).RestPeaks();
        Assert.IsType<RestOutcome.StillRising>(Assert.Single(rising.Groups).Outcome);
        Assert.Contains("still rising on day", rising.Finding, StringComparison.Ordinal);
        Assert.IsType<RestOutcome.FallingFromTheStart>(Assert.Single(Year(day => -0.05 * day).RestPeaks().Groups).Outcome);
    }

    [Fact]
    public void A_course_that_levels_off_is_neither_a_peak_nor_still_rising()
    {
        var peaks = Year(day => 0.08 * Math.Min(day, 22)).RestPeaks();
        var group = Assert.Single(peaks.Groups);
        Assert.False(group.NamesBestDays);
        Assert.Contains(peaks.Summary, sentence => sentence.StartsWith("No best days can be named.", StringComparison.Ordinal));
        Assert.Contains("it rises at first", Assert.IsType<RestOutcome.Undetermined>(group.Outcome).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_course_without_change_is_flat_where_that_is_sure()
    {
        Assert.IsType<RestOutcome.Flat>(Assert.Single(Year(_ => 0).RestPeaks().Groups).Outcome);
        Assert.IsType<RestOutcome.Undetermined>(Assert.Single(Year(_ => 0).RestPeaks(margin: 0.05).Groups).Outcome);
    }

    [Fact]
    public void Kinds_have_peaks_of_their_own_and_a_thin_kind_has_no_answer()
    {
        var log = new TestLog();
        var random = new RandomStream(4);
        for (var bag = 0; bag < 32; bag++)
        {
            var (process, top) = (bag % 2) == 0 ? ("washed", 16) : ("natural", 28);
            log.Bag($"B{bag}", process: process, roasted: new DateOnly(2025, 1, 1));
            var quality = 0.4 * random.NextNormal();
            for (var cup = 0; cup < 12; cup++)
            {
                var day = 4 + (bag % 4) + (cup * 3);
                log.Cup($"B{bag}", Date(day), 6 + quality - (0.004 * (day - top) * (day - top)) + (0.3 * random.NextNormal()));
            }
        }

        log.Bag("H", process: "honey", roasted: new DateOnly(2025, 1, 1)).Cup("H", Date(9), 6).Cup("H", Date(12), 6.5);
        var peaks = log.Build().RestPeaks(Factor.Process);

        Assert.Equal(["natural", "washed"], peaks.Groups.Select(g => g.Level));
        Assert.InRange(Assert.IsType<RestOutcome.Peak>(peaks.Groups[0].Outcome).Day, 25, 31);
        Assert.InRange(Assert.IsType<RestOutcome.Peak>(peaks.Groups[1].Outcome).Day, 13, 19);
        Assert.Equal("honey", Assert.Single(peaks.Unanswered).Level);
        Assert.StartsWith("A peak within the days tasted is sure for 2 of 2 kinds by process: natural around day", peaks.Finding, StringComparison.Ordinal);
        Assert.Equal(2, peaks.Table.Rows.Count);
    }

    [Fact]
    public void Bags_that_are_better_and_tasted_later_do_not_make_a_course()
    {
        var group = Assert.Single(TestLog.OfBetterBagsTastedLater().Build().RestPeaks().Groups);
        Assert.False(group.Outcome is RestOutcome.Peak or RestOutcome.StillRising or RestOutcome.FallingFromTheStart);
        Assert.InRange(group.Days[^1].Estimate - group.Days[0].Estimate, -0.45, 0.45);
    }

    [Fact]
    public void Bags_of_few_cups_that_are_better_the_later_they_were_opened_do_not_make_a_course()
    {
        // Three cups a bag tell little of a bag and much of when it was opened: each day later is a tenth of a point better from the first cup on.
        var log = new TestLog();
        var random = new RandomStream(14);
        for (var bag = 0; bag < 120; bag++)
        {
            var opened = 5 + (bag % 20);
            log.Bag($"B{bag:000}", roasted: new DateOnly(2025, 1, 1));
            for (var cup = 0; cup < 3; cup++)
                log.Cup($"B{bag:000}", Date(opened + (cup * 3)), 5 + (0.1 * opened) + (0.5 * random.NextNormal()));
        }

        var group = Assert.Single(log.Build().RestPeaks().Groups);
        Assert.InRange(group.Days[^1].Estimate - group.Days[0].Estimate, -0.6, 0.6);
        Assert.IsNotType<RestOutcome.StillRising>(group.Outcome);
    }

    [Fact]
    public void One_bag_of_many_cups_that_falls_does_not_make_a_course_of_all()
    {
        // Eleven bags of six cups stay as they are, and one of sixty falls by two points.
        var log = new TestLog();
        var random = new RandomStream(6);
        for (var bag = 0; bag < 12; bag++)
        {
            log.Bag($"B{bag:00}", roasted: new DateOnly(2025, 1, 1));
            var cups = bag == 0 ? 60 : 6;
            for (var cup = 0; cup < cups; cup++)
            {
                var day = 6 + (cup * 30 / cups);
                log.Cup($"B{bag:00}", Date(day), 6 - (bag == 0 ? day / 15.0 : 0) + (0.3 * random.NextNormal()));
            }
        }

        var group = Assert.Single(log.Build().RestPeaks().Groups);
        Assert.InRange(group.Days[^1].Estimate - group.Days[0].Estimate, -0.5, 0.2);
    }

    [Fact]
    public void Days_in_the_freezer_do_not_count_as_rest()
    {
        var log = Year(Arch, cup => cup with { FrozenOn = cup.TastedOn.AddDays(-100), ThawedOn = cup.TastedOn }, 100);
        Assert.InRange(Assert.IsType<RestOutcome.Peak>(Assert.Single(log.RestPeaks().Groups).Outcome).Day, 18, 22);
    }

    [Fact]
    public void An_attribute_has_a_course_of_its_own()
    {
        var acidity = TastingAttribute.Named("acidity");
        var random = new RandomStream(9);
        var log = Year(Arch, cup => cup with { Attributes = new Dictionary<TastingAttribute, double> { [acidity] = 15 - (0.2 * cup.RestDays!.Value) + (0.5 * random.NextNormal()) } });
        var peaks = log.RestPeaks(attribute: acidity);
        Assert.Equal(acidity, peaks.Attribute);
        Assert.IsType<RestOutcome.FallingFromTheStart>(Assert.Single(peaks.Groups).Outcome);
        Assert.StartsWith("Acidity falls from day", peaks.Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_of_forty_cups_with_many_brewers_is_answered_without_those_it_cannot_hold_apart()
    {
        var log = new TestLog();
        var random = new RandomStream(11);
        for (var cup = 0; cup < 40; cup++)
        {
            var bag = $"B{cup % 5}";
            if (cup < 5)
                log.Bag(bag, roasted: new DateOnly(2025, 1, 1));
            log.Cup(bag, Date(5 + (cup / 5 * 4)), 6 + (0.4 * random.NextNormal()), $"brewer {cup % 4}", cup % 3 == 0 ? "house" : "roaster");
        }

        var peaks = log.Build().RestPeaks();
        Assert.True(peaks.Support.IsSupported, peaks.Finding);
        Assert.Equal(("brewer 0", null), (peaks.StandardBrew.Brewer, peaks.StandardBrew.RecipeFrom));
        Assert.DoesNotContain("whose recipe", peaks.Computation.Model, StringComparison.Ordinal);
        Assert.Contains(peaks.Cautions, c => c.Name == "few-bags");
    }

    [Fact]
    public void A_kind_is_told_under_the_brewer_stated_with_what_it_has_to_itself_there()
    {
        // Every process has its best on another brewer, by 0.9 points; the cone dripper is the common one, and best for washed coffees.
        string[] processes = ["honey", "natural", "washed"], brewers = ["steep-and-release", "flat-bed dripper", "cone dripper"];
        var log = new TestLog();
        var random = new RandomStream(12);
        for (var bag = 0; bag < 36; bag++)
        {
            var quality = 0.2 * random.NextNormal();
            log.Bag($"B{bag}", process: processes[bag % 3], roasted: new DateOnly(2025, 1, 1));
            for (var cup = 0; cup < 10; cup++)
            {
                var brewer = cup < 5 ? 2 : cup % 3;
                log.Cup($"B{bag}", Date(5 + (cup * 7 % 10 * 3)), 6 + quality + (brewer == bag % 3 ? 0.6 : -0.3) + (0.2 * random.NextNormal()), brewers[brewer]);
            }
        }

        var peaks = log.Build().RestPeaks(Factor.Process);
        Assert.Equal("cone dripper", peaks.StandardBrew.Brewer);
        Assert.Contains("process by brewer", peaks.Computation.Model, StringComparison.Ordinal);
        Assert.All(peaks.Groups, group => Assert.InRange(group.Days.Average(day => day.Estimate), group.Level == "washed" ? 6.35 : 5.45, group.Level == "washed" ? 6.85 : 5.95));
    }

    [Fact]
    public void Cups_that_went_wrong_are_set_aside_and_counted()
    {
        var clean = Year(Arch).RestPeaks();
        var spoiled = Year(Arch, cup => cup.Id is "T30" or "T31" or "T117" or "T200" ? cup with { Score = cup.Score - 3 } : cup).RestPeaks();
        Assert.DoesNotContain(clean.Cautions, c => c.Name == "one-offs-set-aside");
        Assert.Contains("4 cups fit nothing else", spoiled.Cautions.Single(c => c.Name == "one-offs-set-aside").Text, StringComparison.Ordinal);
        Assert.Equal((236, 4), (spoiled.Computation.CupsUsed, spoiled.Computation.LeftOut.Single(left => left.Reason == "fitting nothing else").Cups));
        Assert.All(clean.Groups[0].Days.Zip(spoiled.Groups[0].Days), days => Assert.InRange(days.Second.Estimate - days.First.Estimate, -0.1, 0.1));
    }

    [Fact]
    public void Scores_drawn_to_the_last_of_their_bag_are_seen_though_bags_have_lines_of_their_own()
    {
        var cell = CalibrationCells.Named("rest-flat-anchoring");
        Assert.All([0, 1, 2, 3, 4, 5, 6, 7, 8, 9], year => Assert.Contains(SimulatedYear.Create(cell.Settings, cell.SeedOf(year)).Log.RestPeaks().Cautions, c => c.Name == "neighbours-alike"));
    }

    [Fact]
    public void More_sessions_than_are_allowed_for_are_said_of_courses_plans_and_drift()
    {
        var log = new TestLog();
        var random = new RandomStream(13);
        for (var cup = 0; cup < 1020; cup++)
        {
            var bag = cup / 12;
            if (cup % 12 == 0)
                log.Bag($"B{bag}", process: "washed", roasted: new DateOnly(2025, 1, 1));
            log.Cup($"B{bag}", Date(4 + (bag % 12) + (cup % 12 / 2 * 4)), 6 + (0.4 * random.NextNormal()), c => c with { Session = $"S{cup / 2}", Position = 1 + (cup % 2) });
        }

        var built = log.Build();
        foreach (var cautions in new[] { built.RestPeaks().Cautions, built.RestPlan("B0").Cautions, built.ScaleDrift().Cautions })
            Assert.Contains("(510)", cautions.Single(c => c.Name == "sessions-not-allowed-for").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_a_log_cannot_answer_is_said_plainly()
    {
        Assert.Contains("no bag has a roast date", new TestLog().Cup("A", "2025-01-01", 6).Build().RestPeaks().Finding, StringComparison.Ordinal);
        var few = new TestLog().Bag("A", roasted: new DateOnly(2025, 1, 1)).Cup("A", Date(10), 6).Cup("A", Date(12), 7).Build().RestPeaks();
        Assert.Contains("too few to tell how coffees change", few.Finding, StringComparison.Ordinal);
        Assert.Empty(few.Groups);
        Assert.Empty(few.Table.Rows);
        Assert.Contains("no process of them has 15 cups of 3 bags", Year(Arch).RestPeaks(Factor.Process).Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void A_question_that_makes_no_sense_is_refused()
    {
        var log = Year(Arch);
        Assert.Contains("found brewer", Assert.Throws<ArgumentException>(() => log.RestPeaks(Factor.Brewer)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => log.RestPeaks(near: 0));
        Assert.Throws<ArgumentOutOfRangeException>(() => log.RestPeaks(margin: -1));
        Assert.Throws<ArgumentOutOfRangeException>(() => log.RestPeaks(driftPerYear: double.NaN));
    }

    [Fact]
    public void The_same_seed_gives_the_same_answer_and_the_caution_tells_how_bags_were_opened()
    {
        var log = Year(Arch);
        Assert.Equal(log.RestPeaks().ToString(), log.RestPeaks().ToString());
        Assert.Contains(log.RestPeaks().Cautions, c => c.Name == "rest-runs-with-calendar" && c.Text.Contains("much the same age", StringComparison.Ordinal));
    }

    private static string Date(int day) => new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", System.Globalization.CultureInfo.InvariantCulture);

    private static TastingLog Year(Func<int, double> effect, Func<Tasting, Tasting>? with = null, int frozen = 0)
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
                log.Cup($"B{bag}", Date(day + frozen), 6 + quality + effect(day) + (0.3 * random.NextNormal()), with ?? (c => c));
            }
        }

        return log.Build();
    }
}
