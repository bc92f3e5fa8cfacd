using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class TastingPrecisionTests
{
    private static readonly Lazy<TastingPrecision> OfAYear = new(() => SimulatedYear.Create(
        new SimulationSettings { Attributes = [], WithTexts = false, Schedule = new SimulatedSchedule { BlindRepeats = 60, SightedRepeats = 30 } }, 12).Log.Repeatability());

    [Fact]
    public void Blind_repeats_give_the_repeatability_that_a_year_was_made_with()
    {
        var precision = OfAYear.Value;
        var repeatability = Given(precision.Repeatability);

        Assert.InRange(repeatability.Estimate, 0.3, 0.5);
        Assert.True(repeatability.Low < 0.4 && 0.4 < repeatability.High);
        Assert.True(repeatability.High / repeatability.Low < 1.6);
        Assert.Equal(1.96 * Math.Sqrt(2) * repeatability.Estimate, Given(precision.RepeatabilityLimit).Estimate, 1e-4);
        Assert.Equal(precision.Sets.Where(set => set.IsBlind).Sum(set => set.Scores.Count), repeatability.Cups);
        Assert.StartsWith("Two blind cups of one brew on one day are scored within", precision.Finding, StringComparison.Ordinal);
        Assert.Equal(0.5, precision.Step);
        Assert.Equal(precision.Sets.Count, precision.RepeatsTable().Rows.Count);
        Assert.Equal(11, precision.Table.Rows.Count);
    }

    [Fact]
    public void The_scatter_from_day_to_day_holds_that_between_sittings_and_is_not_called_repeatability()
    {
        var precision = OfAYear.Value;
        var day = Given(precision.DayToDay);
        var sittings = Given(precision.BetweenSittings);

        Assert.InRange(day.Estimate, 0.4, 0.55);
        Assert.InRange(sittings.Estimate, 0.05, 0.32);
        Assert.True(day.Low > sittings.High);
        var said = precision.Summary.Single(sentence => sentence.StartsWith("From day to day", StringComparison.Ordinal));
        Assert.EndsWith("is no repeatability.", said, StringComparison.Ordinal);
        Assert.InRange(Given(precision.IntraclassCorrelation).Estimate, 0.4, 0.9);
        Assert.InRange(Given(precision.PositionEffect).Estimate, -0.1, 0.02);
        Assert.InRange(Given(precision.SightedAgainstBlind).Estimate, 0.6, 1.6);
        Assert.InRange(Given(precision.FirstCup).Estimate, 0.3, 0.99);
        Assert.InRange(Given(precision.CupsForAVerdict).Estimate, 3, 5);
    }

    [Fact]
    public void Sittings_that_share_more_of_a_score_are_found_to()
    {
        var settings = new SimulationSettings { Attributes = [], WithTexts = false, Taster = new SimulatedTaster { SessionStandardDeviation = 0.6 } };
        var precision = SimulatedYear.Create(settings, 12).Log.Repeatability();

        Assert.InRange(Given(precision.BetweenSittings).Estimate, 0.45, 0.75);
        // Both cups of a pair share their sitting: repeatability stays what it was, and the scatter from day to day does not.
        Assert.InRange(Given(precision.DayToDay).Estimate, 0.62, 0.85);
        Assert.InRange(Given(precision.Repeatability).Estimate, 0.25, 0.55);
    }

    [Fact]
    public void Cups_that_differ_in_anything_chosen_are_no_repeats()
    {
        Assert.Equal(6, Sets(cup => cup));
        Assert.Equal(0, Sets(cup => cup with { Grind = cup.Id }));
        Assert.Equal(0, Sets(cup => cup with { WaterCelsius = cup.Position == 1 ? 92 : 96 }));
        Assert.Equal(0, Sets(cup => cup with { TdsPercent = cup.Position == 1 ? 1.2 : 1.4 }));
        Assert.Equal(0, Sets(cup => cup with { Session = cup.Position == 1 ? "morning" : "evening" }));
        Assert.Equal(0, Sets(cup => cup with { TastedAt = cup.TastedAt.AddDays(cup.Position!.Value) }));
        // The kettle's degrees and the scale's grams are not known closer.
        Assert.Equal(6, Sets(cup => cup with { WaterCelsius = cup.Position == 1 ? 93.9 : 94, DoseGrams = cup.Position == 1 ? 15 : 15.1 }));

        static int Sets(Func<Tasting, Tasting> change) => Pairs(6, change).Repeatability().Sets.Count;
    }

    [Fact]
    public void A_column_of_the_logs_own_is_asked_to_be_alike_unless_it_names_the_cups()
    {
        Assert.Equal(0, Sets(cup => Own("extraction", cup.Position == 1 ? "18" : "22")));
        Assert.Equal(6, Sets(cup => Own("extraction", "18")));
        Assert.Equal(6, Sets(cup => Own("code", cup.Id)));
        Assert.Equal(6, Sets(cup => Own("Replicate", cup.Position == 1 ? "1" : "2")));

        static int Sets(Func<Tasting, Dictionary<string, string>> own) => Pairs(6, cup => cup with { OtherColumns = own(cup) }).Repeatability().Sets.Count;
        static Dictionary<string, string> Own(string header, string value) => new() { [header] = value };
    }

    [Fact]
    public void Repeats_that_were_known_do_not_count_as_blind()
    {
        var precision = Pairs(6, cup => cup with { BlindTo = BlindTo.Brewer }).Repeatability();

        Assert.Contains("Blind repeats of one brew on one day: 0", Refusal(precision.Repeatability).Reason, StringComparison.Ordinal);
        Assert.Equal(12, Given(precision.SightedRepeats).Cups);
        Assert.StartsWith("How repeatable the scores are can't be said: blind repeats", precision.Finding, StringComparison.Ordinal);
        Assert.IsType<PartAnswer.Refused>(precision.SightedAgainstBlind);
    }

    [Fact]
    public void Tasters_are_not_thrown_together()
    {
        var log = Pairs(12, cup => cup with { Taster = cup.TastedOn.Day % 2 == 0 ? "first" : "second" });

        Assert.StartsWith("2 tasters scored these cups (first, second)", log.Repeatability().Finding, StringComparison.Ordinal);
        var first = log.Repeatability("first");
        Assert.Equal(6, first.Sets.Count);
        Assert.Contains(new LeftOut("of other tasters", 12), first.Computation.LeftOut);
        Assert.Throws<ArgumentException>(() => log.Repeatability("third"));
    }

    [Fact]
    public void Sittings_of_one_cup_do_not_tell_a_sittings_form()
    {
        var log = new TestLog();
        var random = new RandomStream(4);
        for (var coffee = 0; coffee < 6; coffee++)
        {
            for (var cup = 0; cup < 5; cup++)
                log.Cup($"C{coffee}", $"2025-{1 + coffee:00}-{1 + cup:00}", 6 + Math.Round(random.NextNormal(), 1));
        }

        var precision = log.Build().Repeatability();
        Assert.Contains("Most sittings hold one cup (30 of 30)", Refusal(precision.BetweenSittings).Reason, StringComparison.Ordinal);
        Assert.IsType<PartAnswer.Estimated>(precision.DayToDay);
        // The coffees are too few, and it is coffees that the refusals count.
        Assert.Contains("6 coffees have 3 scored cups or more after the first, where 8", Refusal(precision.FirstCup).Reason, StringComparison.Ordinal);
        Assert.Contains("6 coffees, where 8", Refusal(precision.IntraclassCorrelation).Reason, StringComparison.Ordinal);
    }

    [Fact]
    public void A_log_without_repeats_of_any_kind_is_told_why_and_what_to_log()
    {
        var precision = new TestLog().Cup("A", "2025-01-01", 6).Cup("B", "2025-01-02", 7).Build().Repeatability();

        Assert.False(precision.Support.IsSupported);
        Assert.Empty(precision.Table.Rows);
        Assert.StartsWith("2 scored cups, 0 of them beyond the first of their bags", precision.Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TestLog().Cup("A", "2025-01-01", 6).Build().Repeatability(halfWidth: 0));
    }

    private static PartAnswer.Estimated Given(PartAnswer answer) => Assert.IsType<PartAnswer.Estimated>(answer);

    private static PartAnswer.Refused Refusal(PartAnswer answer) => Assert.IsType<PartAnswer.Refused>(answer);

    /// <summary>Pairs of blind cups of one brew, one pair a day, of a bag each; each cup changed as asked.</summary>
    private static TastingLog Pairs(int pairs, Func<Tasting, Tasting> change)
    {
        var random = new RandomStream(9);
        var cups = new List<Tasting>();
        for (var pair = 0; pair < pairs; pair++)
        {
            var bag = new Bag { Id = $"b{pair}", Coffee = new Coffee { Id = $"c{pair}", Name = $"Coffee {pair}" } };
            for (var place = 1; place <= 2; place++)
            {
                cups.Add(change(new Tasting
                {
                    Id = $"t{pair}-{place}",
                    Bag = bag,
                    TastedAt = new DateTime(2025, 3, 1 + pair, 9, 0, 0),
                    Session = $"s{pair}",
                    Position = place,
                    Brewer = "cone dripper",
                    Grind = "22",
                    DoseGrams = 15,
                    WaterCelsius = 94,
                    BlindTo = BlindTo.Label | BlindTo.Coffee,
                    Score = 6 + (Math.Round(random.NextNormal()) / 2),
                }));
            }
        }

        return new TastingLog(new LogContents { Name = "pairs", Bags = [.. cups.Select(cup => cup.Bag).Distinct()], Tastings = cups });
    }
}
