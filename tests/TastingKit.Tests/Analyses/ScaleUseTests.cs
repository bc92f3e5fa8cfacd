using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Logs in which it is known which steps moved: what is told of them, and what must never be said.</summary>
public sealed class ScaleUseTests
{
    private static readonly DateOnly First = new(2025, 1, 1);

    [Fact]
    public void Steps_that_begin_lower_in_one_quarter_are_found_in_that_quarter_and_on_that_side()
    {
        var told = Assert.IsType<StepMovement.Estimated>(Year(top: 4).ScaleUse().Movement);
        Assert.True(told.IsTold, $"p = {told.P}");
        // Half a point lower in one quarter of four, of which the mean over the thresholds is taken off.
        var last = told.Thresholds.Where(move => move.Quarter == "2025 Q4").ToArray();
        var part = last.Count(move => move.Step >= 7.5) / (double)last.Length;
        Assert.All(last, move => Assert.InRange(-0.5 * 0.75 * ((move.Step >= 7.5 ? 1 : 0) - part), move.Low - 0.05, move.High + 0.05));
        Assert.All(last.Where(move => move.Step >= 7.5), move => Assert.True(move.Estimate < 0, move.ToString()));
        Assert.Contains(last, move => move.Step >= 7.5 && move.High < 0);
        Assert.True(told.Widths.Single(move => move.Quarter == "2025 Q4").High < 0);
        var finding = Year(top: 4).ScaleUse().Finding;
        Assert.Contains("moved against one another (400 cups, 4 quarters; p < 0.001), most surely in 2025 Q4: ", finding, StringComparison.Ordinal);
        Assert.Contains(" and above began 0.", finding, StringComparison.Ordinal);
    }

    [Fact]
    public void A_movement_that_all_steps_share_is_not_told_and_nothing_is_called_drift()
    {
        var use = Year(driftAYear: 1.2).ScaleUse();
        Assert.False(Assert.IsType<StepMovement.Estimated>(use.Movement).IsTold);
        Assert.StartsWith("No movement of the steps of the score against one another can be told (400 cups, 4 quarters; p = ", use.Finding, StringComparison.Ordinal);
        Assert.Contains("all steps share is not read here, since other coffee would show alike", use.Summary[1], StringComparison.Ordinal);
        foreach (var one in new[] { use, Year(top: 4).ScaleUse() })
            Assert.DoesNotContain(one.Summary.Concat(one.Cautions.Select(c => c.Text)), s => s.Contains("drift", StringComparison.OrdinalIgnoreCase) || s.Contains("inflat", StringComparison.OrdinalIgnoreCase));
    }

    [Fact]
    public void Shares_add_up_and_steps_never_used_and_taken_together_are_named()
    {
        var log = Year();
        var use = log.ScaleUse();
        foreach (var quarter in use.Quarters)
        {
            var own = log.Tastings.Where(cup => $"{cup.TastedOn.Year} Q{((cup.TastedOn.Month - 1) / 3) + 1}" == quarter.Label).ToArray();
            Assert.Equal(own.Length, quarter.Cups);
            Assert.Equal(1, quarter.Shares.Sum(share => share.Share), 10);
            Assert.Equal(1, quarter.Groups.Sum(share => share.Share), 10);
            foreach (var share in quarter.Shares)
            {
                Assert.Equal(own.Count(cup => cup.Score == share.Steps.From), share.Cups);
                Assert.InRange(share.Share, share.Interval!.Low, share.Interval.High);
            }

            var mean = own.Average(cup => cup.Score!.Value);
            Assert.Equal(Math.Sqrt(own.Sum(cup => Math.Pow(cup.Score!.Value - mean, 2)) / (own.Length - 1)), quarter.Spread, 10);
            Assert.InRange(quarter.Spread, quarter.SpreadInterval!.Low, quarter.SpreadInterval.High);
        }

        var used = log.Tastings.Select(cup => cup.Score!.Value).ToHashSet();
        Assert.Equal(Enumerable.Range(2, 17).Select(half => half / 2.0).Where(step => !used.Contains(step)), use.NeverUsed);
        Assert.Equal(400, use.Groups.Sum(group => group.Cups));
        Assert.All(use.Groups.Where(group => group.From != group.To), group => Assert.Contains(use.Summary, s => s.Contains($"{group.Label} ({group.Cups} cups)", StringComparison.Ordinal)));
        Assert.Contains(use.Groups, group => group.From != group.To);
        Assert.Equal(4 * used.Count, use.Table.Rows.Count);
        Assert.Equal(((StepMovement.Estimated)use.Movement).Thresholds.Count + 4, use.MovementTable().Rows.Count);
    }

    [Fact]
    public void Of_a_large_log_whole_bags_are_asked_whether_steps_moved_and_every_cup_has_its_share()
    {
        var log = new TestLog();
        for (var cup = 0; cup < 5120; cup++)
            log.Cup($"B{cup / 16:000}", First.AddDays(cup * 360 / 5120).ToString("yyyy-MM-dd", null), 5 + ((cup * 7 % 11 + (cup % 16)) % 5));
        var use = log.Build().ScaleUse();
        Assert.Equal(2560, Assert.IsType<StepMovement.Estimated>(use.Movement).Cups);
        Assert.Equal(5120, use.Quarters.Sum(quarter => quarter.Cups));
        Assert.Contains("2560 cups, those of one bag in 2", Assert.Single(use.Cautions, caution => caution.Name == "some-bags-only").Text, StringComparison.Ordinal);
        Assert.DoesNotContain(Year().ScaleUse().Cautions, caution => caution.Name == "some-bags-only");
    }

    [Fact]
    public void Cups_that_went_wrong_are_set_aside_in_asking_whether_steps_moved_and_counted_in_the_shares()
    {
        var clean = Year().ScaleUse();
        var spoiled = Year(spoiled: cup => cup is 31 or 118 or 202 or 377).ScaleUse();
        Assert.DoesNotContain(clean.Cautions, caution => caution.Name == "one-offs-set-aside");
        Assert.StartsWith("4 cups fit nothing else in the log and are set aside: ", Assert.Single(spoiled.Cautions, caution => caution.Name == "one-offs-set-aside").Text, StringComparison.Ordinal);
        var (before, after) = (Assert.IsType<StepMovement.Estimated>(clean.Movement), Assert.IsType<StepMovement.Estimated>(spoiled.Movement));
        Assert.Equal((400, 396), (before.Cups, after.Cups));
        Assert.Equal(400, spoiled.Quarters.Sum(quarter => quarter.Cups));
        Assert.Equal(spoiled.Quarters.Sum(quarter => quarter.Groups.Sum(share => share.Cups)), spoiled.Groups.Sum(group => group.Cups));
        Assert.All(before.Widths.Zip(after.Widths), width =>
        {
            Assert.InRange(width.Second.Estimate - width.First.Estimate, -0.1, 0.1);
            Assert.InRange((width.Second.High - width.Second.Low) / (width.First.High - width.First.Low), 0.9, 1.1);
        });
    }

    [Fact]
    public void Values_of_an_attribute_that_went_wrong_are_told_by_that_attribute()
    {
        var acidity = TastingAttribute.Acidity;
        var log = Year();
        Tasting[] cups = [.. log.Tastings.Select((cup, i) => cup with { Attributes = new Dictionary<TastingAttribute, double> { [acidity] = i is 40 or 200 ? 1 : cup.Score!.Value }, Score = 6 + (i % 2 / 2.0) })];
        var use = new TastingLog(new LogContents { Name = "acidity", Bags = log.Bags, Tastings = cups }).ScaleUse(acidity);
        Assert.StartsWith("2 cups fit nothing else", Assert.Single(use.Cautions, caution => caution.Name == "one-offs-set-aside").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void A_score_that_never_changes_has_its_share_and_no_model()
    {
        var log = new TestLog();
        for (var cup = 0; cup < 120; cup++)
            log.Cup($"B{cup % 12}", First.AddDays(3 * cup).ToString("yyyy-MM-dd", null), 6);
        var use = log.Build().ScaleUse();
        Assert.IsType<StepMovement.Refused>(use.Movement);
        Assert.All(use.Quarters, quarter => Assert.Equal(1, Assert.Single(quarter.Shares).Share));
    }

    [Fact]
    public void A_log_of_many_quarters_is_cut_into_years_and_says_so()
    {
        var random = new RandomStream(6);
        var log = new TestLog();
        for (var cup = 0; cup < 320; cup++)
            log.Cup($"B{cup / 8:00}", First.AddDays(4 * cup).ToString("yyyy-MM-dd", null), Math.Clamp(Math.Round(2 * (6.5 + (0.8 * random.NextNormal()))) / 2, 1, 9));
        var use = log.Build().ScaleUse();
        Assert.Equal("year", use.PeriodName);
        Assert.Equal(["2025", "2026", "2027", "2028"], use.Quarters.Select(year => year.Label));
        Assert.Contains("4 years; p = ", use.Finding, StringComparison.Ordinal);
        Assert.Equal(["Steps of the score by year", "Where steps began, against the other steps and over all years"], new[] { use.Table.Title, use.MovementTable().Title });
        Assert.Contains("thresholds by year", use.Computation.Model, StringComparison.Ordinal);
        Assert.DoesNotContain(use.Summary, sentence => sentence.Contains("quarter", StringComparison.Ordinal));
    }

    [Fact]
    public void Bags_that_hold_together_widen_the_interval_of_a_share()
    {
        double Width(bool isOneBagAStep)
        {
            var log = new TestLog();
            for (var cup = 0; cup < 120; cup++)
                log.Cup($"B{cup % 10}", First.AddDays(3 * cup).ToString("yyyy-MM-dd", null), (isOneBagAStep ? cup : (cup / 10) + cup) % 2 == 0 ? 6 : 7);
            var interval = log.Build().ScaleUse().Quarters[0].Shares[0].Interval!;
            return interval.High - interval.Low;
        }

        Assert.True(Width(true) > 1.4 * Width(false), $"{Width(true)} against {Width(false)}");
    }

    [Fact]
    public void A_ceiling_costs_information_and_is_cautioned_and_a_free_top_is_not()
    {
        var free = Year().ScaleUse();
        Assert.InRange(free.Top!.InformationLost, 0, 0.15);
        Assert.DoesNotContain(free.Cautions, c => c.Name == "ceiling");
        var held = Year(ceiling: 7).ScaleUse();
        Assert.Equal(7, held.Top!.HighestGiven);
        Assert.InRange(held.Top.InformationLost, TopOfScale.WarnsFrom, 0.9);
        Assert.Contains(held.Cautions, c => c.Name == "ceiling" && c.Text.Contains("best tenth tells", StringComparison.Ordinal));
    }

    [Fact]
    public void Information_of_many_fine_steps_is_that_of_the_impression_and_one_threshold_at_the_middle_gives_two_over_pi()
    {
        double[] fine = [.. Enumerable.Range(-800, 1601).Select(k => k / 100.0)];
        // Sheppard's correction of the variance by a twelfth of the squared step.
        Assert.Equal(1 / (1 + (0.0001 / 12)), ScaleCeiling.Information(fine, 0.3), 1e-6);
        Assert.Equal(2 / Math.PI, ScaleCeiling.Information([0.7], 0.7), 1e-9);
        Assert.Equal(0, ScaleCeiling.Information([-40], 0), 1e-9);
    }

    [Fact]
    public void On_a_just_right_scale_both_sides_are_told_and_no_end_is_a_ceiling()
    {
        var body = TastingAttribute.Body;
        var random = new RandomStream(5);
        var log = new TestLog();
        for (var cup = 0; cup < 240; cup++)
        {
            var late = cup >= 120;
            var value = Math.Clamp(Math.Round((late ? 0.8 : -0.8) + (1.2 * random.NextNormal())), -3, 3);
            log.Cup($"B{cup / 4}", First.AddDays(cup * 3 / 2).ToString("yyyy-MM-dd", null), 6, t => t with { Attributes = new Dictionary<TastingAttribute, double> { [body] = value } });
        }

        var built = log.Build();
        var use = new TastingLog(new LogContents { Name = "just right", Bags = built.Bags, Tastings = built.Tastings, Scales = [new Scale(body, ScaleKind.JustRight, -3, 3, 1)] }).ScaleUse(body);
        Assert.Null(use.Top);
        Assert.DoesNotContain(use.Cautions, c => c.Name == "ceiling");
        Assert.True(use.Quarters[0].DistanceFromJustRight!.TooLittle > use.Quarters[0].DistanceFromJustRight!.TooMuch);
        Assert.True(use.Quarters[^1].DistanceFromJustRight!.TooMuch > use.Quarters[^1].DistanceFromJustRight!.TooLittle);
        Assert.Contains(use.Summary, s => s.StartsWith("On a just-right scale more is not better, so both sides are told: 2025 Q1 too little in ", StringComparison.Ordinal));
        Assert.DoesNotContain(use.Summary, s => s.Contains("highest step given", StringComparison.Ordinal));
    }

    [Fact]
    public void Too_little_is_refused_with_what_to_log()
    {
        var few = new TestLog().Cup("B1", "2025-01-01", 6).Cup("B2", "2025-05-01", 7).Build().ScaleUse();
        Assert.False(few.Support.IsSupported);
        Assert.Contains("2 scored cups in 2 quarters", few.Finding, StringComparison.Ordinal);
        var log = new TestLog();
        for (var cup = 0; cup < 30; cup++)
            log.Cup($"B{cup % 6}", First.AddDays(6 * cup).ToString("yyyy-MM-dd", null), 5 + (cup % 7 / 2.0));
        var thin = log.Build().ScaleUse();
        Assert.True(thin.Support.IsSupported);
        Assert.IsType<StepMovement.Refused>(thin.Movement);
        Assert.Empty(thin.MovementTable().Rows);
        Assert.NotEmpty(thin.Table.Rows);
    }

    /// <summary>A year of 400 cups of 50 bags on steps of a half; in one quarter 7.5 and above may begin half a point lower, and some cups lose three points.</summary>
    private static TastingLog Year(int top = 0, double driftAYear = 0, double ceiling = 9, Func<int, bool>? spoiled = null)
    {
        var random = new RandomStream(12);
        var log = new TestLog();
        for (var bag = 0; bag < 50; bag++)
        {
            var quality = 0.6 * random.NextNormal();
            for (var cup = 0; cup < 8; cup++)
            {
                var day = (bag * 7) + (cup * 2);
                var date = First.AddDays(Math.Min(day, 364));
                var impression = 6.5 + quality + (driftAYear * day / 365) + (0.45 * random.NextNormal());
                var score = Math.Round(impression * 2, MidpointRounding.AwayFromZero) / 2;
                if (((date.Month - 1) / 3) + 1 == top)
                    score = Math.Max(score, Math.Round((impression + 0.5) * 2, MidpointRounding.AwayFromZero) / 2 is var moved && moved >= 7.5 ? moved : score);
                log.Cup($"B{bag:00}", date.ToString("yyyy-MM-dd", null), Math.Clamp(spoiled?.Invoke((8 * bag) + cup) == true ? score - 3 : score, 1, ceiling));
            }
        }

        return log.Build();
    }
}
