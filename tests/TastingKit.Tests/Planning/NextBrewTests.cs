using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>What is recommended, within which limits, and what is refused.</summary>
public sealed class NextBrewTests
{
    private static readonly BrewQuestion Brewers = BrewQuestion.BetterBrewer("cone dripper", "flat-bed dripper");

    private static readonly TastingLog Log = Unbalanced();

    [Fact]
    public void The_cup_that_is_missing_beside_others_of_its_coffee_comes_first()
    {
        var next = Log.NextBrew(Brewers);

        Assert.Equal(12 * 2, next.Gains.Count);
        // Coffees 0 to 8 have four cups on the cone dripper and none on the other, 9 to 11 have two on each.
        var first = next.Gains[0].Candidate;
        Assert.Equal("flat-bed dripper", first.Brewer);
        Assert.True(int.Parse(first.Bag.Coffee.Id[1..], System.Globalization.CultureInfo.InvariantCulture) <= 8, next.Finding);
        Assert.True(next.Gains[0].Gain > 2 * next.Gains.First(gain => gain.Candidate.Brewer == "cone dripper" && gain.Candidate.Bag.Coffee.Id == "C03").Gain);
        Assert.Contains("flat-bed dripper has been brewed with 3 of 12 coffees, 6 of 48 cups", next.Gains[0].Reason, StringComparison.Ordinal);
        Assert.True(next.Plan[^1].After.Value < next.Gains[0].After.Value && next.Gains[0].After.Value < next.Now.Value);
        // The other brewer may stand beside it in a sitting, so that what the sitting adds is known.
        Assert.True(next.Plan.Where(step => step.Candidate.Brewer == "flat-bed dripper").Select(step => step.Candidate.Bag.Id).Distinct().Count() >= 3, "further coffees tell more than the same one again");
    }

    [Fact]
    public void A_cup_is_promised_what_a_refit_with_it_gives_the_variances_held()
    {
        var log = Unbalanced(bag => bag with { RoastDate = null });
        var analysis = new MethodAnalysis(log, Factor.Brewer, TastingAttribute.Score, null);
        var (model, cups) = (analysis.Model!, analysis.Cups);
        var (difference, halfWidth, joint) = analysis.Compared("cone dripper", "flat-bed dripper", null, 1)!.Value;
        foreach (var ranked in log.NextBrew(Brewers, seed: 1).Gains.Take(5))
        {
            var cup = cups[0] with { Id = "planned", Session = "new", Position = 1, Brewer = ranked.Candidate.Brewer, Bag = ranked.Candidate.Bag };
            Assert.Equal(1 - (Refit([.. cups, cup]) / Refit(cups)), ranked.Gain, 1e-5);
        }

        foreach (var (coffee, brewer, session) in new[] { ("C02", "flat-bed dripper", "new"), ("C10", "cone dripper", "new"), ("C02", "flat-bed dripper", cups[0].Session!), ("never tasted", "flat-bed dripper", "new") })
        {
            var cup = cups[0] with { Id = "planned", Session = session, Brewer = brewer, Bag = new Bag { Id = coffee, Coffee = new Coffee { Id = coffee } } };
            var promised = BrewState.OfNumber(FurtherObservations.Of(model.Fit, [difference, model.OfCup(cup)!], joint, "coffee"), halfWidth);
            var before = Refit(cups);
            var after = Refit([.. cups, cup]);

            Assert.Equal(halfWidth, promised.Stand.Value);
            Assert.Equal(1 - (after / before), promised.With(0).Gain, 1e-5);
            Assert.Equal(halfWidth * Math.Sqrt(after / before), promised.With(0).After.Value, 1e-5);
        }

        // A coffee's own level is free: what it was without the brewers is no part of their difference.
        double Refit(IReadOnlyList<Tasting> of)
        {
            var residual = Middle(joint.ResidualStandardDeviations());
            var deviations = model.Fit.VarianceComponents.ToDictionary(component => component.Group, component => component.Group == "coffee" ? 1000 * residual : Middle(joint.StandardDeviations(component.Group)));
            return HeldRefit.VarianceOf(deviations, residual, of, "flat-bed dripper", new Dictionary<string, double> { ["brewer"] = 1 });
        }

        static double Middle(double[] drawn) => drawn.Order().ElementAt((drawn.Length - 1) / 2);
    }

    [Fact]
    public void A_verdict_is_promised_what_a_refit_gives_the_variances_held()
    {
        var cups = ScoredCups.Of(Unbalanced(bag => bag with { RoastDate = null })).Cups;
        var model = CoffeeModel.Of(ScoreColumns.Of(cups), FavouritesAnalysis.KindFactors, 5, WorkWatch.None)!;
        var asked = model.OfCoffee(new StandardBrew("cone dripper", null, null), [.. cups.Where(cup => cup.Bag.Id == "C05")]);
        foreach (var (coffee, brewer, session) in new[] { ("C05", "cone dripper", "new"), ("C05", "cone dripper", cups[0].Session!), ("C10", "flat-bed dripper", cups.Last(cup => cup.Bag.Id == "C05").Session!), ("never tasted", "flat-bed dripper", "new") })
        {
            var cup = cups[0] with { Id = "planned", Session = session, TastedAt = (cups.LastOrDefault(other => other.Session == session) ?? cups[0]).TastedAt, Brewer = brewer, Bag = new Bag { Id = coffee, Coffee = new Coffee { Id = coffee } } };
            var promised = BrewState.Of(FurtherObservations.Of(model.Fit, [asked, model.OfCup(cup)!]), 1, 1);
            var (before, after) = (Refit(cups), Refit([.. cups, cup]));

            Assert.Equal(1.959963984540054 * Math.Sqrt(before), promised.Stand.Value, 1e-8);
            Assert.Equal(1 - (after / before), promised.With(0).Gain, 1e-8);
        }

        double Refit(IReadOnlyList<Tasting> of)
        {
            var weights = new Dictionary<string, double> { ["intercept"] = 1, ["position"] = 1, ["coffee=C05"] = 1 };
            if (model.Fit.VarianceComponents.Any(component => component.Group == "coffee:brewer"))
                weights["coffee:brewer=C05:cone dripper"] = 1;
            return HeldRefit.VarianceOf(
                model.Fit.VarianceComponents.ToDictionary(component => component.Group, component => component.StandardDeviations[0]), model.Fit.ResidualStandardDeviation, of, "flat-bed dripper", weights);
        }
    }

    [Fact]
    public void The_interval_to_narrow_is_the_one_that_is_shown_of_what_the_brewer_does()
    {
        var shown = Assert.Single(Log.MethodEffects(Factor.Brewer).Contrasts).Answer;
        var next = Log.NextBrew(Brewers);
        Assert.Equal((shown.High - shown.Low) / 2, next.Now.Value, 1e-12);

        var own = Log.MethodEffects(Factor.Brewer).ByCoffee().Deviations.First(row => row.Level == "Coffee C10").Answer;
        Assert.Equal((own.High - own.Low) / 2, Log.NextBrew(BrewQuestion.BetterBrewer("cone dripper", "flat-bed dripper", "C10")).Now.Value, 1e-12);
    }

    [Fact]
    public void Brewers_that_no_coffee_was_brewed_with_both_of_are_sent_to_a_first_such_coffee()
    {
        var next = Unbalanced(cup: cup => cup with { Brewer = cup.Bag.Id is "C09" or "C10" or "C11" ? "flat-bed dripper" : "cone dripper" }).NextBrew(Brewers);
        Assert.False(next.Support.IsSupported);
        Assert.Contains("with two levels of brewer", next.Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void The_best_coffee_is_settled_between_those_that_may_be()
    {
        var next = Log.NextBrew(BrewQuestion.BestCoffee());

        Assert.True(next.Now.IsProbability);
        var rivals = next.Coffees.Select(coffee => coffee.Id).ToArray();
        Assert.InRange(rivals.Length, 2, 11);
        Assert.Contains(next.Gains[0].Candidate.Bag.Coffee.Id, rivals.Take(3));
        var highest = cupsMean().MaxBy(each => each.Mean).Id;
        Assert.Equal(highest, next.Named?.Id);
        // Coffees that can't be the best gain next to nothing.
        Assert.All(next.Gains.Where(gain => !rivals.Contains(gain.Candidate.Bag.Coffee.Id)), gain => Assert.True(gain.Gain < 0.5 * next.Gains[0].Gain));
        Assert.True(next.Plan[^1].After.Value > next.Now.Value);

        static IEnumerable<(string Id, double Mean)> cupsMean() => Log.Tastings.GroupBy(cup => cup.Bag.Coffee.Id).Select(g => (g.Key, g.Average(cup => cup.Score!.Value)));
    }

    [Fact]
    public void A_verdict_is_settled_by_cups_of_its_coffee()
    {
        var next = Log.NextBrew(BrewQuestion.Verdict("C05"));

        Assert.Equal("C05", next.Gains[0].Candidate.Bag.Coffee.Id);
        Assert.True(next.Plan.Count(step => step.Candidate.Bag.Coffee.Id == "C05") >= 2, string.Join(' ', next.Summary));
        Assert.Contains("how good Coffee C05 is", next.Question, StringComparison.Ordinal);
    }

    [Fact]
    public void A_plan_keeps_to_the_grams_and_to_the_cups_a_day()
    {
        var eight = new BrewCandidates { Cups = 8, CupsADay = 2 };
        var any = Log.NextBrew(BrewQuestion.Verdict("C05"), eight);
        Assert.Equal([2, 2, 2, 2], any.Plan.GroupBy(step => step.Candidate.Day).Select(day => day.Count()));
        Assert.Equal([1, 2, 1], any.Plan.Take(3).Select(step => step.Candidate.Position));

        var few = eight with { Bags = ["C05"], GramsLeft = new Dictionary<string, double> { ["C05"] = 31 } };
        Assert.Equal([31.0, 16], Log.NextBrew(BrewQuestion.Verdict("C05"), few).Plan.Select(step => step.Candidate.GramsLeft));
        // Half doses take half the grams, and both they and shared ones half of the day's allowance.
        var half = Log.NextBrew(BrewQuestion.Verdict("C05"), few with { Serving = Serving.HalfDose });
        Assert.Equal([31.0, 23.5, 16, 8.5], half.Plan.Select(step => step.Candidate.GramsLeft));
        Assert.Single(half.Plan.Select(step => step.Candidate.Day).Distinct());
        var shared = Log.NextBrew(BrewQuestion.Verdict("C05"), eight with { Serving = Serving.Shared });
        Assert.Equal([4, 4], shared.Plan.GroupBy(step => step.Candidate.Day).Select(day => day.Count()));
        Assert.Equal(2, Log.NextBrew(BrewQuestion.Verdict("C05"), few with { Serving = Serving.Shared }).Plan.Count);
        Assert.Contains(shared.Cautions, caution => caution.Name == "caffeine");
    }

    [Fact]
    public void Cups_of_the_day_count_and_a_late_hour_waits_for_the_next_day()
    {
        var lastDay = Log.Tastings.Max(cup => cup.TastedAt).Date;
        var today = Log.Tastings.Count(cup => cup.TastedAt.Date == lastDay);
        Assert.Equal(2, today);

        var sameDay = Log.NextBrew(Brewers, new BrewCandidates { From = lastDay, Cups = 3, CupsADay = 3 });
        Assert.Equal([lastDay, lastDay.AddDays(1), lastDay.AddDays(1)], sameDay.Plan.Select(step => step.Candidate.Day.ToDateTime(TimeOnly.MinValue)));
        Assert.Equal([3, 1, 2], sameDay.Plan.Select(step => step.Candidate.Position));
        var late = Log.NextBrew(Brewers, new BrewCandidates { From = lastDay.AddHours(17), LatestHour = new TimeOnly(16, 0), Cups = 1 });
        Assert.Equal(lastDay.AddDays(1), Assert.Single(late.Plan).Candidate.Day.ToDateTime(TimeOnly.MinValue));
    }

    [Fact]
    public void A_bag_without_grams_is_left_out_and_said_so()
    {
        var next = Unbalanced(bag => bag.Id switch
        {
            "C00" => bag with { NetWeightGrams = null },
            "C01" => bag with { NetWeightGrams = 70 },
            "C02" => bag with { RoastDate = new DateOnly(2026, 1, 1) },
            _ => bag,
        }).NextBrew(Brewers);

        Assert.DoesNotContain(next.Gains, gain => gain.Candidate.Bag.Id is "C00" or "C01" or "C02");
        Assert.Equal(3, next.LeftOut.Sum(left => left.Bags));
        Assert.Contains("1 bag without a net weight or grams left", string.Join(' ', next.Summary), StringComparison.Ordinal);
        Assert.Contains("1 bag with less than a dose left", string.Join(' ', next.Summary), StringComparison.Ordinal);
        Assert.Contains("1 bag roasted later than that day", string.Join(' ', next.Summary), StringComparison.Ordinal);
    }

    [Fact]
    public void Rest_is_carried_on_by_a_week_with_a_caution_and_no_further_unless_asked()
    {
        Assert.Contains(Log.NextBrew(Brewers).Cautions, caution => caution.Name == "rest-beyond-tasted");
        var muchLater = new BrewCandidates { From = new DateTime(2025, 7, 1) };
        Assert.Contains("12 bags rested over a week longer than any cup tasted", Log.NextBrew(Brewers, muchLater).Finding, StringComparison.Ordinal);
        Assert.True(Log.NextBrew(Brewers, muchLater with { RestBeyondTasted = true }).Support.IsSupported);
    }

    [Fact]
    public void A_frozen_bag_rests_no_further()
    {
        var frozen = Unbalanced(cup: cup => cup.Bag.Id == "C07" ? cup with { FrozenOn = cup.TastedOn } : cup).NextBrew(Brewers);
        var last = Log.Tastings.Where(cup => cup.Bag.Id == "C07").Max(cup => cup.TastedOn);
        var roasted = Log.Bags.Single(bag => bag.Id == "C07").RoastDate!.Value;

        Assert.All(frozen.Gains.Where(gain => gain.Candidate.Bag.Id == "C07"), gain => Assert.Equal(last.DayNumber - roasted.DayNumber, gain.Candidate.RestDays));
        Assert.Contains(frozen.Cautions, caution => caution.Name == "frozen-by-the-last-cup");
    }

    [Fact]
    public void A_name_that_the_log_does_not_have_is_refused_with_those_it_has()
    {
        Assert.Contains("'cone dripper'", Assert.Throws<ArgumentException>(() => Log.NextBrew(BrewQuestion.BetterBrewer("cone", "flat-bed dripper"))).Message, StringComparison.Ordinal);
        Assert.Contains("'C05'", Assert.Throws<ArgumentException>(() => Log.NextBrew(BrewQuestion.Verdict("C77"))).Message, StringComparison.Ordinal);
        Assert.Contains("'C05'", Assert.Throws<ArgumentException>(() => Log.NextBrew(Brewers, new BrewCandidates { Bags = ["C77"] })).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => Log.NextBrew(BrewQuestion.BestCoffee("C05")));
        Assert.Throws<ArgumentException>(() => Log.NextBrew(BrewQuestion.BetterBrewer("cone dripper", "cone dripper")));
        Assert.Throws<ArgumentOutOfRangeException>(() => Log.NextBrew(Brewers, new BrewCandidates { CupsADay = 0 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Log.NextBrew(Brewers, new BrewCandidates { Cups = 0 }));
        Assert.Throws<ArgumentOutOfRangeException>(() => Log.NextBrew(Brewers, new BrewCandidates { GramsLeft = new Dictionary<string, double> { ["C05"] = -1 } }));
    }

    [Fact]
    public void A_log_that_can_t_answer_says_so()
    {
        Assert.False(new TestLog().Bag("a").Build().NextBrew().Support.IsSupported);
        Assert.False(new TestLog().Cup("a", "2025-01-01", 6).Cup("b", "2025-01-02", 7).Build().NextBrew().Support.IsSupported);
        Assert.Contains("no bag can be brewed", Unbalanced(bag => bag with { NetWeightGrams = 60 }).NextBrew().Finding, StringComparison.OrdinalIgnoreCase);
        Assert.Contains("only one brewer", Unbalanced(cup: cup => cup with { Brewer = "cone dripper" }).NextBrew(BrewQuestion.BetterBrewer()).Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void Cups_of_brews_that_the_log_cannot_tell_apart_are_counted_and_not_ranked()
    {
        // The roaster's recipe was only ever brewed on the flat-bed dripper, and that dripper only by it: a third brewer tells neither apart.
        var log = Unbalanced(cup: cup => cup with { RecipeFrom = cup.Brewer == "flat-bed dripper" ? "roaster" : "house" });
        var next = log.NextBrew(BrewQuestion.BestCoffee());

        Assert.Equal(12 * 2 * 2, next.Gains.Count + next.Untold);
        Assert.True(next.Untold > 0, "two of four brews can\u2019t be told");
        Assert.Contains(next.Summary, sentence => sentence.StartsWith($"Not ranked: {next.Untold} possible cups of brews", StringComparison.Ordinal));
        Assert.Equal(0, Log.NextBrew(BrewQuestion.BestCoffee()).Untold);
    }

    [Fact]
    public void A_large_log_is_asked_of_its_last_cups_which_is_said()
    {
        // Thirty-two cups of each coffee, two a day.
        var random = new RandomStream(3);
        var cups = Enumerable.Range(0, 3500).Select(i => new Tasting
        {
            Id = $"T{i}",
            Bag = new Bag { Id = $"B{i / 32}", Coffee = new Coffee { Id = $"B{i / 32}" }, NetWeightGrams = 5000 },
            TastedAt = new DateTime(2020, 1, 1).AddHours(12 * i),
            DoseGrams = 15,
            Brewer = i % 2 == 0 ? "cone dripper" : "flat-bed dripper",
            Score = Math.Round(2 * (6 + random.NextNormal())) / 2,
        }).ToArray();
        var log = new TastingLog(new LogContents { Name = "test", Bags = [.. cups.Select(cup => cup.Bag).DistinctBy(bag => bag.Id)], Tastings = cups });
        var next = log.NextBrew(BrewQuestion.Verdict(), new BrewCandidates { Bags = ["B108", "B109"] });

        Assert.Equal(3000, next.Computation.CupsUsed);
        var said = Assert.Single(next.Cautions, caution => caution.Name == "last-cups-only");
        // Cups 0 to 499 are left out: coffees 0 to 14 whole, the sixteenth in part.
        Assert.Contains("3000 scored cups of 3500 are used, those since 2020-09-07: 15 coffees", said.Text, StringComparison.Ordinal);
        // Two brewers are asked of all.
        Assert.Equal(3500, log.NextBrew(Brewers, new BrewCandidates { Bags = ["B108", "B109"] }).Computation.CupsUsed);
    }

    [Fact]
    public void The_best_of_many_cups_is_ranked_in_parts_as_it_is_at_once()
    {
        var cups = ScoredCups.Of(Log).Cups;
        var model = CoffeeModel.Of(ScoreColumns.Of(cups), FavouritesAnalysis.KindFactors, 5, WorkWatch.None)!;
        var brew = new StandardBrew("cone dripper", null, null);
        FurtherFunction[] rivals = [.. cups.GroupBy(cup => cup.Bag.Coffee.Id).Select(coffee => model.OfCoffee(brew, [.. coffee]))];
        FurtherFunction[] once = [.. Log.Bags.Select(bag => model.OfCup(cups.First(cup => cup.Bag.Id == bag.Id) with { Session = "new" })!)];
        var atOnce = BrewState.Of(FurtherObservations.Of(model.Fit, [.. rivals, .. once]), rivals.Length, 1);
        var inParts = BrewState.Of(FurtherObservations.Of(model.Fit, [.. rivals, .. Enumerable.Repeat(once, 25).SelectMany(cup => cup)]), rivals.Length, 1);

        Assert.Equal(atOnce.Leader, inParts.Leader);
        foreach (var cup in new[] { 0, 5, 288, 299 })
        {
            Assert.Equal(atOnce.With(cup % 12).Gain, inParts.With(cup).Gain, 0.01);
            Assert.Equal(inParts.Stand.Value + inParts.With(cup).Gain, inParts.With(cup).After.Value, 1e-12);
        }
    }

    [Fact]
    public void Sittings_that_take_up_the_chance_of_single_cups_are_left_out()
    {
        // 34 scored cups in 26 sittings: with these, the model leaves a cup less chance than the steps of the scale.
        var schedule = new SimulatedSchedule { ControlDoses = 0, BlindRepeats = 0, LotsBoughtAgain = 0 };
        var log = SimulatedYear.Create(new SimulationSettings { Cups = 40, Bags = 8, WithTexts = false, Schedule = schedule }, 1).Log;
        var next = log.NextBrew(BrewQuestion.BetterBrewer());

        Assert.DoesNotContain(", session", next.Computation.Model, StringComparison.Ordinal);
        Assert.Contains(next.Cautions, caution => caution.Name == "sessions-take-up-chance");
        Assert.Contains(log.MethodEffects(Factor.Brewer).Cautions, caution => caution.Name == "sessions-take-up-chance");
        Assert.InRange(next.Plan[^1].After.Value, 0.5 * next.Now.Value, next.Now.Value);
    }

    /// <summary>Twelve coffees of four cups, two a day: nine on the cone dripper alone, three on both.</summary>
    private static TastingLog Unbalanced(Func<Bag, Bag>? bag = null, Func<Tasting, Tasting>? cup = null)
    {
        var random = new RandomStream(12);
        var cups = new List<Tasting>();
        double[] quality = [.. Enumerable.Range(0, 12).Select(_ => 0.8 * random.NextNormal())];
        var bags = Enumerable.Range(0, 12).Select(i => new Bag
        {
            Id = $"C{i:00}",
            Coffee = new Coffee { Id = $"C{i:00}", Name = $"Coffee C{i:00}" },
            NetWeightGrams = 250,
            RoastDate = new DateOnly(2025, 3, 1).AddDays(i % 3),
        }).Select(bag ?? (same => same)).ToArray();
        for (var round = 0; round < 4; round++)
        {
            for (var i = 0; i < 12; i++)
            {
                var onCone = i < 9 || round < 2;
                var day = new DateTime(2025, 3, 20).AddDays((6 * round) + (i / 2));
                cups.Add(new Tasting
                {
                    Id = $"T{cups.Count}",
                    Bag = bags[i],
                    TastedAt = day.AddHours(8 + (i % 2)),
                    Session = $"S{day:MMdd}",
                    Position = 1 + ((i + round) % 2),
                    DoseGrams = 15,
                    Brewer = onCone ? "cone dripper" : "flat-bed dripper",
                    Score = Math.Round(2 * (6 + quality[i] + (0.5 * random.NextNormal()))) / 2,
                });
            }
        }

        return new TastingLog(new LogContents { Name = "test", Bags = bags, Tastings = [.. cups.Select(cup ?? (same => same))] });
    }
}
