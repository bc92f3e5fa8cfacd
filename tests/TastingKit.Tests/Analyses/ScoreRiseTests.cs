namespace TastingKit.Tests;

/// <summary>Logs whose change is made of stated parts: each must come back as its own, and all together as the change.</summary>
public sealed class ScoreRiseTests
{
    private static readonly DateOnly First = new(2025, 1, 1);

    [Fact]
    public void A_mix_that_changed_is_credited_with_what_it_is_worth_and_the_parts_sum_to_the_change()
    {
        // A country worth a point goes from a quarter of the coffees to three quarters; a brewer worth half a point from all cups to none.
        var rise = Made(country: 1, brewer: -0.5).ScoreRise(earlier: Half(0), later: Half(1));
        Near(0.5, Part(rise, "country"));
        Near(0.5, Part(rise, "brewer"));
        Near(0.5, rise.Purchasing!);
        Near(0.5, rise.Brewing!);
        Near(0, Part(rise, RiseSource.CoffeesAndDrift));
        Near(0, rise.BeyondMix!);
        Assert.InRange(rise.Change!.Points, 0.9, 1.1);
        Assert.Equal(rise.Later!.Mean - rise.Earlier!.Mean, rise.Parts.Sum(part => part.Points), 9);
        Assert.Equal(rise.Change.Points, rise.Later.Mean - rise.Earlier.Mean, 12);
        Assert.StartsWith("Cups\u2019 mean score rose from ", rise.Finding, StringComparison.Ordinal);
        Assert.Contains(rise.Summary, s => s.Contains("another mix of coffees bought +0.", StringComparison.Ordinal) && s.Contains("another mix of brews +0.", StringComparison.Ordinal));
        Assert.Contains(rise.Summary, s => s.EndsWith("Nothing in this log tells the two apart.", StringComparison.Ordinal));
        Assert.DoesNotContain("inflat", string.Join(" ", rise.Summary), StringComparison.OrdinalIgnoreCase);
    }

    [Fact]
    public void Better_coffee_of_like_kinds_and_drift_stay_together_without_an_anchor()
    {
        foreach (var (coffee, drift) in new[] { (1.2, 0.0), (0.0, 1.2) })
        {
            var rise = Made(coffeeAYear: coffee, driftAYear: drift).ScoreRise(earlier: Half(0), later: Half(1));
            Assert.IsType<RiseDrift.NotTold>(rise.Drift);
            Assert.InRange(Part(rise, RiseSource.CoffeesAndDrift).Points, 0.45, 0.7);
            Assert.True(rise.BeyondMix!.IsToldFromNone);
            Assert.DoesNotContain(rise.Parts, part => part.Source is RiseSource.Drift or RiseSource.Coffees);
            Assert.Contains(rise.Summary, s => s.StartsWith("It is more than which coffees happened to be bought", StringComparison.Ordinal));
        }
    }

    [Fact]
    public void Frozen_doses_let_the_drift_stand_alone_under_their_assumption()
    {
        var better = Made(coffeeAYear: 1.2, doses: true).ScoreRise(earlier: Half(0), later: Half(1));
        Assert.IsType<RiseDrift.Anchored>(better.Drift);
        Near(0, Part(better, RiseSource.Drift), 0.2);
        Near(0.6, Part(better, RiseSource.Coffees), 0.2);
        var drifting = Made(driftAYear: 1.2, doses: true).ScoreRise(earlier: Half(0), later: Half(1));
        Near(0.6, Part(drifting, RiseSource.Drift), 0.2);
        Near(0, Part(drifting, RiseSource.Coffees), 0.2);
        Assert.Equal(drifting.Change!.Points, drifting.Parts.Sum(part => part.Points), 9);
        Assert.Contains(drifting.Summary, s => s.StartsWith("If coffee does not change in the freezer, drift of the scale: +0.", StringComparison.Ordinal));
    }

    [Fact]
    public void Drift_within_a_bag_is_taken_off_the_share_of_rest_where_it_is_known()
    {
        // All drift: cups of the later half were rested ten days longer, which is worth a thirtieth of a year of drift and no rest.
        var rise = Made(driftAYear: 1.2, doses: true, laterRest: 10).ScoreRise(earlier: Half(0), later: Half(1));
        Near(0, Part(rise, "days of rest at tasting"), 0.08);
        var together = Made(driftAYear: 1.2, laterRest: 10).ScoreRise(earlier: Half(0), later: Half(1));
        Assert.Contains("10 days longer", Assert.Single(together.Cautions, c => c.Name == "rest-runs-with-calendar").Text, StringComparison.Ordinal);
    }

    [Fact]
    public void What_is_stated_of_rest_gives_a_drift_under_that_statement()
    {
        var rise = Made(driftAYear: 1.2).ScoreRise(earlier: Half(0), later: Half(1), restAMonth: 0);
        Near(0.6, Part(rise, RiseSource.Drift), 0.4);
        Assert.Contains(rise.Summary, s => s.StartsWith("If rest by itself does 0.00 points a month (stated), drift of the scale: +0.", StringComparison.Ordinal));
        Assert.Contains(rise.Cautions, c => c.Name == "stated-by-user");
    }

    [Fact]
    public void A_change_of_water_is_a_part_of_its_own()
    {
        var rise = Made(water: 0.8).ScoreRise(earlier: Half(0), later: Half(1));
        Near(0.8, Part(rise, RiseSource.Equipment), 0.3);
        Assert.InRange(Part(rise, RiseSource.CoffeesAndDrift).Points, -0.3, 0.3);
        Assert.Contains("water on 2025-07-02", Part(rise, RiseSource.Equipment).What, StringComparison.Ordinal);
        Assert.Contains(rise.Cautions, c => c.Name == "equipment-changed");
    }

    [Fact]
    public void A_kind_bought_in_one_stretch_alone_is_said_to_rest_on_other_coffees()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 24; bag++)
        {
            log.Bag($"B{bag}", country: bag < 12 ? "Peru" : "Kenya", process: bag % 2 == 0 ? "washed" : "natural");
            for (var cup = 0; cup < 4; cup++)
                log.Cup($"B{bag}", Day((15 * bag) + (3 * cup)), 6 + (0.2 * Math.Sin(bag * bag)) + (0.1 * Math.Cos((7 * bag) + cup)));
        }

        var caution = Assert.Single(log.Build().ScoreRise().Cautions, c => c.Name == "one-period-only");
        Assert.StartsWith("Country: 100 % of these cups", caution.Text, StringComparison.Ordinal);
        Assert.Contains("Kenya, Peru", caution.Text, StringComparison.Ordinal);
    }

    [Fact]
    public void Without_stated_stretches_quarters_are_held_against_each_other_or_halves_where_these_are_thin()
    {
        var large = Made(country: 1).ScoreRise();
        Assert.Equal((40, 40), (large.Earlier!.Cups, large.Later!.Cups));
        Assert.Equal(First.AddDays(6), large.Earlier.Days.From);

        var small = new TestLog();
        for (var bag = 0; bag < 8; bag++)
        {
            for (var cup = 0; cup < 5; cup++)
                small.Cup($"B{bag}", Day((40 * bag) + cup), 6 + (0.3 * Math.Sin((3 * bag) + cup)));
        }

        var halves = small.Build().ScoreRise();
        Assert.Equal((20, 20), (halves.Earlier!.Cups, halves.Later!.Cups));
        Assert.Contains(halves.Cautions, c => c.Name == "few-bags");
        Assert.Equal(halves.Change!.Points, halves.Parts.Sum(part => part.Points), 9);
    }

    [Fact]
    public void Too_few_cups_are_refused_with_their_counts_and_stretches_must_be_in_order()
    {
        var few = new TestLog().Cup("A", "2025-01-03", 6).Cup("A", "2025-02-03", 7).Build();
        Assert.Contains("2 scored cups of 1 bag", few.ScoreRise().Finding, StringComparison.Ordinal);
        Assert.Empty(few.ScoreRise().Table.Rows);
        var log = Made();
        Assert.Contains("0 scored cups of 0 bags", log.ScoreRise(earlier: new DaySpan(new(2020, 1, 1), new(2020, 2, 1)), later: Half(1)).Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => log.ScoreRise(earlier: Half(1), later: Half(0)));
        Assert.Throws<ArgumentException>(() => log.ScoreRise(earlier: Half(1)));
        Assert.Throws<ArgumentException>(() => new DaySpan(new(2025, 2, 1), new(2025, 1, 1)));
        Assert.Throws<ArgumentOutOfRangeException>(() => log.ScoreRise(restAMonth: double.NaN));
    }

    [Fact]
    public void Single_cups_of_coffees_leave_a_coffees_own_part_with_chance()
    {
        var log = new TestLog();
        for (var bag = 0; bag < 80; bag++)
            log.Bag($"B{bag}", country: bag % 2 == 0 ? "Peru" : "Kenya", roasted: First.AddDays(4 * bag)).Cup($"B{bag}", Day((4 * bag) + 10), 6 + (bag % 2) + (0.2 * Math.Sin(bag * bag)));
        var rise = log.Build().ScoreRise();
        Assert.False(rise.CoffeesRepeat);
        Assert.Contains("can\u2019t be told apart", Part(rise, RiseSource.Chance).What, StringComparison.Ordinal);
    }

    private static void Near(double truth, RisePart part, double within = 0.1)
    {
        Assert.InRange(part.Points, truth - within, truth + within);
        Assert.InRange(truth, part.Low, part.High);
    }

    private static RisePart Part(ScoreRise rise, string what) => Assert.Single(rise.Parts, part => part.What == what);

    private static RisePart Part(ScoreRise rise, RiseSource source) => Assert.Single(rise.Parts, part => part.Source == source);

    private static DaySpan Half(int half) => new(First.AddDays(half * 182), First.AddDays((half * 182) + 181 + half));

    private static string Day(int day) => First.AddDays(day).ToString("yyyy-MM-dd", null);

    /// <summary>
    /// Thirty-two bags over a year in two halves. Of the first half's a quarter is of the better country, of the second half's three quarters; the
    /// first half is brewed on one brewer, but for a cup in each bag. Noise is small and the same every time.
    /// </summary>
    private static TastingLog Made(double country = 0, double brewer = 0, double coffeeAYear = 0, double driftAYear = 0, double water = 0, bool doses = false, int laterRest = 0)
    {
        var log = new TestLog();
        for (var bag = 0; bag < 32; bag++)
        {
            var (half, place) = (bag / 16, bag % 16);
            var roast = (half * 182) + (10 * place);
            var isBetter = half == 0 ? place % 4 == 3 : place % 4 != 3;
            log.Bag($"B{bag}", country: isBetter ? "Kenya" : "Peru", roasted: First.AddDays(roast));
            for (var cup = 0; cup < 5; cup++)
            {
                var day = roast + 6 + (4 * cup) + (half * laterRest);
                var isFirstBrewer = (cup + place) % 5 == 0 ? half == 1 : half == 0;
                var score = 6 + (isBetter ? country : 0) + (isFirstBrewer ? brewer / 0.6 : 0) + (coffeeAYear * (roast - 182) / 365.25) + (driftAYear * (day - 182) / 365.25)
                    + (day >= 182 ? water : 0) + (0.1 * Math.Sin(bag * bag)) + (0.1 * Math.Sin(1.7 * ((bag * 5) + cup) * (cup + 3)));
                log.Cup($"B{bag}", Day(day), score, brewer: isFirstBrewer ? "cone dripper" : "flat-bed dripper");
            }
        }

        if (doses)
        {
            log.Bag("control", roasted: First.AddDays(-14));
            for (var dose = 0; dose < 24; dose++)
            {
                var day = 8 + (14 * dose);
                log.Cup("control", Day(day), 6.5 + (driftAYear * (day - 182) / 365.25) + (0.1 * Math.Sin(1.7 * dose * (dose + 3))),
                    t => t with { Brewer = "cone dripper", Purpose = Purpose.Control, FrozenOn = First, ThawedOn = First.AddDays(day), BlindTo = BlindTo.Coffee });
            }
        }

        if (water != 0)
            log.Change("2025-07-02", "water");
        return log.Build();
    }
}
