namespace TastingKit.Tests;

/// <summary>Logs made from stated slopes of rest, calendar, roast date and days frozen: what is told of them, and what must never be told.</summary>
public sealed class ScaleDriftTests
{
    // Points a year; rest points a month.
    private const double Rest = -0.18;
    private const double Drift = 0.9;
    private const double Coffee = 0.5;
    private const double Freezer = -0.4;
    private const double Year = 365.25;

    private static readonly DateOnly First = new(2025, 1, 1);

    [Fact]
    public void The_sums_of_slopes_are_those_that_made_the_log()
    {
        var found = WithDoses(12).Build().ScaleDrift();
        Near(Rest + (Drift / 12), Slope(found, DriftSum.RestAndDrift));
        Near(Drift + Coffee, Slope(found, DriftSum.CoffeeAndDrift));
        Near(Drift + Freezer, Slope(found, DriftSum.FreezerAndDrift));
        Assert.Equal([DriftSum.RestAndDrift, DriftSum.CoffeeAndDrift, DriftSum.FreezerAndDrift], found.Sums.Select(sum => sum.Sum));
    }

    [Fact]
    public void Days_frozen_are_no_rest_in_a_log_too_small_for_a_curve()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 3; bag++)
        {
            log.Bag($"B{bag}", roasted: First.AddDays(90 * bag));
            foreach (var rest in new[] { 6, 15, 22, 30, 37 })
                log.Cup($"B{bag}", Day((90 * bag) + rest), ScoreOf(90 * bag, (90 * bag) + rest, 0, bag + rest));
        }

        log.Bag("control", roasted: First.AddDays(-14));
        for (var dose = 0; dose < 11; dose++)
        {
            var day = 10 + (32 * dose);
            log.Cup("control", Day(day), ScoreOf(-14, day, day, dose), t => t with { Purpose = Purpose.Control, FrozenOn = First, ThawedOn = First.AddDays(day), BlindTo = BlindTo.Coffee });
        }

        var slope = Slope(log.Build().ScaleDrift(), DriftSum.FreezerAndDrift);
        Assert.InRange(slope.Estimate, Drift + Freezer - 0.4, Drift + Freezer + 0.4);
        Assert.InRange(Drift + Freezer, slope.Low, slope.High);
    }

    [Fact]
    public void Frozen_doses_give_a_drift_under_their_assumption_and_at_a_stated_loss()
    {
        var found = WithDoses(12).Build().ScaleDrift(freezerLossAYear: -Freezer);
        var drifts = Assert.IsType<DriftCase.Anchored>(found.Case).Drifts;
        Assert.Equal(2, drifts.Count);
        Near(Drift + Freezer, drifts[0].AYear);
        Near(Drift, drifts[1].AYear);
        Near(Rest, drifts[1].RestAMonth!);
        Assert.StartsWith("If coffee does not change in the freezer, the scale drifted up: +", found.Finding, StringComparison.Ordinal);
        Assert.StartsWith("If doses lose 0.40 points a year (stated), the scale drifted up: +", found.Summary[1], StringComparison.Ordinal);
        Assert.Contains("12 frozen doses of 1 bag", found.Finding, StringComparison.Ordinal);
        Assert.DoesNotContain(found.Summary, s => s.Contains("hides as much", StringComparison.Ordinal));
        Assert.Contains(WithDoses(12).Build().ScaleDrift().Summary, s => s.Contains("each tenth of a point lost in a year adds a tenth", StringComparison.Ordinal));
    }

    [Fact]
    public void Without_an_anchor_no_drift_is_named_and_the_line_is_shown()
    {
        var found = Fresh().Build().ScaleDrift();
        Assert.IsType<DriftCase.NoAnchor>(found.Case);
        Near(Rest + (Drift / 12), Slope(found, DriftSum.RestAndDrift));
        Assert.DoesNotContain(found.Summary, s => s.Contains("scale drifted", StringComparison.Ordinal) || s.StartsWith("If ", StringComparison.Ordinal));
        Assert.DoesNotContain(found.Table.Rows, row => row[0] is TableCell.Text { Value: "drift of the scale" or "rest by itself" });
        Assert.Contains("can\u2019t tell a drifting scale from rest", found.Finding, StringComparison.Ordinal);
        Assert.Contains(found.Summary, s => s.Contains("only set aside ages", StringComparison.Ordinal) && s.Contains("Tasting blind takes the label away, not the drift", StringComparison.Ordinal));
    }

    [Fact]
    public void A_stated_slope_of_rest_gives_its_drift_as_the_users_own()
    {
        var found = Fresh().Build().ScaleDrift();
        var one = found.GivenRestSlope(Rest);
        Assert.InRange(one.Lowest, Drift - 0.4, Drift + 0.4);
        Assert.InRange(Drift, one.Low, one.High);
        Assert.Equal(one.Lowest, one.Highest);
        Assert.StartsWith("If rest by itself does \u22120.18 points a month", one.Finding, StringComparison.Ordinal);
        Assert.Contains("as you state, the scale drifted by", one.Finding, StringComparison.Ordinal);
        Assert.Contains(one.Cautions, c => c.Name == "stated-by-user");

        // Of a range the ends change places: the more rest takes away, the more the scale must have given.
        var range = found.GivenRestSlope(-0.3, 0);
        Assert.Equal(found.GivenRestSlope(0).Lowest, range.Lowest, 10);
        Assert.Equal(found.GivenRestSlope(-0.3).Highest, range.Highest, 10);
        Assert.Equal(found.GivenRestSlope(0).Low, range.Low, 10);
        Assert.Equal(found.GivenRestSlope(-0.3).High, range.High, 10);
        Assert.Throws<ArgumentOutOfRangeException>(() => found.GivenRestSlope(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => found.GivenRestSlope(0.1, 0));
    }

    [Fact]
    public void Doses_set_aside_unfrozen_are_left_out_and_are_no_anchor()
    {
        var log = Fresh();
        log.Bag("set aside", roasted: First);
        for (var dose = 0; dose < 12; dose++)
            log.Cup("set aside", Day(15 + (30 * dose)), 6, t => t with { Purpose = Purpose.Control });
        var found = log.Build().ScaleDrift();
        Assert.IsType<DriftCase.NoAnchor>(found.Case);
        Assert.Contains("12 control doses were set aside unfrozen", Assert.Single(found.Cautions, c => c.Name == "set-aside").Text, StringComparison.Ordinal);
        Assert.Contains(found.Computation.LeftOut, left => left is { Reason: ScoredCups.NotFrozen, Cups: 12 });
    }

    [Fact]
    public void Two_doses_or_doses_of_one_month_are_no_anchor()
    {
        var two = WithDoses(2).Build().ScaleDrift();
        Assert.Contains("2 frozen doses were tasted, which is too few", string.Join(' ', Assert.IsType<DriftCase.NoAnchor>(two.Case).WhatIsMissing), StringComparison.Ordinal);
        Assert.IsType<DriftCase.NoAnchor>(WithDoses(6, 7).Build().ScaleDrift().Case);
    }

    [Fact]
    public void A_step_of_the_equipment_is_no_drift()
    {
        var change = First.AddDays(240);
        var log = WithDoses(12, score: (roast, day, frozen, i) => ScoreOf(roast, day, frozen, i) + (First.AddDays(day) >= change ? 1.5 : 0));
        var found = log.Change(change.ToString("yyyy-MM-dd", null), "water").Build().ScaleDrift();
        Near(Drift + Freezer, Slope(found, DriftSum.FreezerAndDrift));
        Near(Rest + (Drift / 12), Slope(found, DriftSum.RestAndDrift));
        Assert.Contains("water on 2025-08-29", Assert.Single(found.Cautions, c => c.Name == "equipment-changed").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Lots_roasted_again_give_the_drift_with_few_degrees_of_freedom()
    {
        var log = Fresh();
        for (var lot = 0; lot < 4; lot++)
        {
            for (var roasting = 0; roasting < 2; roasting++)
                AddBag(log, $"lot {lot} roasting {roasting}", (20 * lot) + (180 * roasting), $"lot {lot}", (0.03 * (lot % 2 == roasting ? 1 : -1)) - (Coffee * ((20 * lot) + (180 * roasting)) / Year));
        }

        var found = log.Build().ScaleDrift();
        var drift = Assert.Single(Assert.IsType<DriftCase.Anchored>(found.Case).Drifts);
        Assert.Equal(new DriftAnchor.RoastedAgain(4, 8), drift.Anchor);
        Assert.Equal(3, drift.AYear.DegreesOfFreedom);
        Near(Drift, drift.AYear);
        Assert.StartsWith("If batches of a lot are alike on average, the scale drifted up", found.Finding, StringComparison.Ordinal);

        // Batches that differ at random widen the interval: deviations of ±d in pairs half a year apart have a known standard error.
        Assert.InRange(drift.AYear.High - drift.AYear.Low, 0.2, 1.5);
    }

    [Fact]
    public void One_lot_roasted_again_is_no_anchor()
    {
        var log = Fresh();
        AddBag(log, "x1", 10, "x", 0);
        AddBag(log, "x2", 200, "x", 0);
        Assert.Contains("how much batches differ", string.Join(' ', Assert.IsType<DriftCase.NoAnchor>(log.Build().ScaleDrift().Case).WhatIsMissing), StringComparison.Ordinal);
    }

    [Fact]
    public void A_blind_flight_compares_coffees_without_the_calendar()
    {
        var log = Fresh();
        for (var bag = 0; bag < 24; bag += 2)
        {
            var roast = 12 * bag;
            log.Cup($"B{bag}", Day(350), ScoreOf(roast, 350, 350 - roast - 14, bag),
                t => t with { Purpose = Purpose.Control, FrozenOn = First.AddDays(roast + 14), ThawedOn = First.AddDays(350), BlindTo = BlindTo.Coffee, Session = "flight" });
        }

        var found = log.Build().ScaleDrift();
        Near(Coffee - Freezer, Slope(found, DriftSum.CoffeeLessFreezer));

        // Held against the same bags' fresh cups, the flight is frozen doses of many bags: freezer and drift, and a step on freezing of nought.
        Near(Drift + Freezer, Slope(found, DriftSum.FreezerAndDrift));
        Near(0, Slope(found, DriftSum.FreezingStep));
    }

    [Fact]
    public void A_log_of_single_cups_is_refused_in_plain_words()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 60; bag++)
            log.Cup($"B{bag}", Day(6 * bag), 6 + (0.02 * bag) + (bag % 3 * 0.5));
        var found = log.Build().ScaleDrift();
        Assert.False(found.Support.IsSupported);
        Assert.Contains("60 scored cups of 60 bags", found.Finding, StringComparison.Ordinal);
        Assert.DoesNotContain("drifted", string.Join(' ', found.Summary), StringComparison.Ordinal);
        Assert.False(found.GivenRestSlope(0).Support.IsSupported);
    }

    [Fact]
    public void Weeks_of_one_coffee_without_a_roast_date_are_read_by_the_week_and_not_called_drift()
    {
        var log = new TestLog();
        for (var cup = 0; cup < 90; cup++)
            log.Cup("only", Day(7 * (cup % 3)), 6 - (0.24 * (cup % 3)) + (0.3 * Math.Sin(7 * cup)));
        var found = log.Build().ScaleDrift();
        Assert.False(found.RestIsKnown);
        Assert.IsType<DriftCase.NoAnchor>(found.Case);
        Assert.Contains("what time does to a bag", found.Finding, StringComparison.Ordinal);
        Assert.Contains(found.Summary, s => s.StartsWith("Within a bag, a week changed the score by \u22120.2", StringComparison.Ordinal));
        Assert.DoesNotContain("drifted", string.Join(' ', found.Summary), StringComparison.Ordinal);
    }

    [Fact]
    public void Water_that_got_hotter_and_a_number_that_is_named_are_no_part_of_what_a_month_did()
    {
        // Both go with rest, and neither wholly: a degree more adds a tenth of a point, and so does a per cent of extraction.
        static double Wave(Tasting t, int by) => Math.Sin(by * t.TastedAt.DayOfYear);
        var log = Fresh(with: t =>
        {
            var (degrees, percent) = (90 + (t.RestDays!.Value / 6.0) + Wave(t, 7), 20 - (t.RestDays.Value / 6.0) + (2 * Wave(t, 10)));
            return t with
            {
                WaterCelsius = degrees,
                OtherColumns = new Dictionary<string, string> { ["extraction_pct"] = percent.ToString("R", System.Globalization.CultureInfo.InvariantCulture) },
                Score = t.Score + (0.1 * degrees) + (0.1 * percent) - 11,
            };
        }).Build();
        var extraction = Covariate.Column("extraction_pct");
        var found = log.ScaleDrift(adjustedFor: [extraction]);
        Near(Rest + (Drift / 12), Slope(found, DriftSum.RestAndDrift));
        Assert.Contains("extraction_pct, water temperature", found.Computation.Model, StringComparison.Ordinal);

        // Not named, the extraction is left to what a month did: it fell by five a month.
        Assert.InRange(Slope(log.ScaleDrift(), DriftSum.RestAndDrift).Estimate, Rest + (Drift / 12) - 0.62, Rest + (Drift / 12) - 0.38);
        Assert.Throws<ArgumentException>(() => log.ScaleDrift(adjustedFor: [Covariate.Calendar]));
    }

    [Fact]
    public void An_attribute_is_asked_for_by_itself()
    {
        var log = WithDoses(12, with: t => t with { Attributes = new Dictionary<TastingAttribute, double> { [TastingAttribute.Body] = 12 - t.Score!.Value } });
        var found = log.Build().ScaleDrift(TastingAttribute.Body);
        Near(-Drift - Freezer, Slope(found, DriftSum.FreezerAndDrift));
        Assert.Equal("Did the scale of body drift?", found.Question);
        Assert.Throws<ArgumentOutOfRangeException>(() => log.Build().ScaleDrift(freezerLossAYear: double.PositiveInfinity));
    }

    private static void Near(double truth, DriftSlope slope)
    {
        Assert.InRange(slope.Estimate, truth - 0.12, truth + 0.12);
        Assert.InRange(truth, slope.Low, slope.High);
    }

    private static DriftSlope Slope(ScaleDrift found, DriftSum sum) => Assert.Single(found.Sums, one => one.Sum == sum).Slope;

    private static string Day(int day) => First.AddDays(day).ToString("yyyy-MM-dd", null);

    /// <summary>A score by its slopes; the noise is small, even and the same every time.</summary>
    private static double ScoreOf(int roast, int day, int frozen, int i)
    {
        var rest = day - roast - frozen;
        return 6 + (Rest * 12 * rest / Year) + (Drift * day / Year) + (Coffee * roast / Year) + (Freezer * frozen / Year) + (0.08 * Math.Sin(1.7 * i * (i + 3)));
    }

    private static TestLog Fresh(Func<int, int, int, int, double>? score = null, Func<Tasting, Tasting>? with = null)
    {
        var log = new TestLog();
        for (var bag = 0; bag < 24; bag++)
            AddBag(log, $"B{bag}", 12 * bag, null, 0.15 * Math.Sin(5 * bag), score, with);
        return log;
    }

    private static void AddBag(TestLog log, string id, int roast, string? lot, double more, Func<int, int, int, int, double>? score = null, Func<Tasting, Tasting>? with = null)
    {
        log.Bag(id, roasted: First.AddDays(roast), coffee: lot);
        foreach (var rest in new[] { 6, 10, 15, 20, 26, 31, 37 })
            log.Cup(id, Day(roast + rest), (score ?? ScoreOf)(roast, roast + rest, 0, (roast * 31) + rest) + more, with ?? (t => t));
    }

    private static TestLog WithDoses(int doses, int apart = 0, Func<int, int, int, int, double>? score = null, Func<Tasting, Tasting>? with = null)
    {
        var log = Fresh(score, with).Bag("control", roasted: First.AddDays(-14));
        for (var dose = 0; dose < doses; dose++)
        {
            var day = 10 + (dose * (apart > 0 ? apart : 330 / doses));
            log.Cup("control", Day(day), (score ?? ScoreOf)(-14, day, day, dose) + 1,
                t => (with ?? (same => same))(t) with { Purpose = Purpose.Control, FrozenOn = First, ThawedOn = First.AddDays(day), BlindTo = BlindTo.Coffee });
        }

        return log;
    }
}
