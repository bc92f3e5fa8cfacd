namespace TastingKit.Tests.Simulation;

/// <summary>Each habit, turned on alone, does what it says and nothing else.</summary>
public class HabitTests
{
    private static readonly SimulationSettings Plain = new() { WithTexts = false, Attributes = [] };

    private static TastingLog With(SimulatedHabits habits, ulong seed = 1) => Years.Log(Plain with { Habits = habits }, seed);

    private static Tasting[] Verdicts(TastingLog log, Bag bag) =>
        [.. log.Tastings.Where(cup => cup.Bag.Id == bag.Id && cup is { Purpose: Purpose.Verdict, Failed: false, Score: not null })];

    [Fact]
    public void A_poor_bag_is_brewed_no_more_and_others_take_its_place()
    {
        var dropped = 0;
        for (ulong seed = 1; seed <= 10; seed++)
        {
            var log = With(new SimulatedHabits { DropBagsBelow = 6.0 }, seed);
            foreach (var bag in log.Bags)
            {
                var cups = Verdicts(log, bag);
                if (cups.Length < 2 || (cups[0].Score + cups[1].Score) / 2 >= 6.0)
                    continue;
                dropped++;
                // The second half of a pair of repeats was brewed already when its first was found poor.
                Assert.True(cups.Length == 2 || cups[2].BlindTo != BlindTo.Nothing);
            }

            Assert.InRange(log.Tastings.Count, 440, 480);
        }

        Assert.InRange(dropped, 70, 250);
    }

    [Fact]
    public void A_poor_cup_is_followed_at_once_by_another_of_the_same_brew()
    {
        var plain = With(new SimulatedHabits());
        var log = With(new SimulatedHabits { BrewAgainBelow = 6.5 });
        Assert.Equal(plain.Tastings.Count, log.Tastings.Count);
        var again = 0;
        for (var i = 0; i + 1 < log.Tastings.Count; i++)
        {
            var (cup, next) = (log.Tastings[i], log.Tastings[i + 1]);
            if (cup is not { Purpose: Purpose.Verdict, Failed: false, BlindTo: BlindTo.Nothing, Score: < 6.5 }
                || !log.Tastings.Skip(i + 1).Any(later => later.Bag.Id == cup.Bag.Id && later.BlindTo == BlindTo.Nothing))
                continue;
            Assert.Equal((cup.Session, cup.Bag.Id, cup.Brewer, cup.RecipeFrom), (next.Session, next.Bag.Id, next.Brewer, next.RecipeFrom));
            again++;
            // The second cup stands, however poor.
            i++;
        }

        Assert.True(again > 30, $"{again} cups were brewed again.");
    }

    [Fact]
    public void A_poor_cup_called_failed_leaves_the_models()
    {
        var plain = With(new SimulatedHabits { BrewAgainBelow = 6.5 });
        var log = With(new SimulatedHabits { BrewAgainBelow = 6.5, PoorCupCalledFailed = 1 });
        Assert.Equal(plain.Tastings.Select(cup => cup.Score), log.Tastings.Select(cup => cup.Score));
        var called = plain.Tastings.Zip(log.Tastings).Where(pair => pair.First.Failed != pair.Second.Failed).ToArray();
        Assert.True(called.Length > 30);
        Assert.All(called, pair => Assert.True(pair.Second.Score < 6.5 && pair.Second.Failed));
    }

    [Fact]
    public void The_last_brewer_is_used_late_in_the_rest()
    {
        var log = With(new SimulatedHabits { LastBrewerLate = true, LateFromRestDays = 25 });
        double Share(Func<Tasting, bool> when)
        {
            var cups = log.Tastings.Where(cup => cup is { Purpose: Purpose.Verdict, BlindTo: BlindTo.Nothing } && when(cup)).ToArray();
            return cups.Count(cup => cup.Brewer == "steep-and-release") / (double)cups.Length;
        }

        Assert.InRange(Share(cup => cup.RestDays < 25), 0.0, 0.08);
        Assert.InRange(Share(cup => cup.RestDays >= 25), 0.68, 0.90);
    }

    [Fact]
    public void The_best_brewer_so_far_is_kept()
    {
        double Kept(TastingLog log)
        {
            var (kept, asked) = (0, 0);
            foreach (var bag in log.Bags)
            {
                var cups = Verdicts(log, bag);
                for (var i = 3; i < cups.Length; i++)
                {
                    if (cups[i].BlindTo != BlindTo.Nothing)
                        continue;
                    var means = cups[..i].GroupBy(cup => cup.Brewer).Select(group => (group.Key, Mean: group.Average(cup => cup.Score!.Value))).ToArray();
                    asked++;
                    kept += means.Any(mean => mean.Key == cups[i].Brewer && mean.Mean >= means.Max(other => other.Mean) - 1e-9) ? 1 : 0;
                }
            }

            return kept / (double)asked;
        }

        Assert.True(Kept(With(new SimulatedHabits { BestBrewerKept = true })) > 0.72);
        Assert.True(Kept(With(new SimulatedHabits())) < 0.55);
    }

    [Fact]
    public void No_score_passes_the_tasters_own_ceiling_and_the_truth_stays()
    {
        var plain = SimulatedYear.Create(Plain, 1);
        var year = SimulatedYear.Create(Plain with { Habits = new SimulatedHabits { Ceiling = 7 } }, 1);
        Assert.Equal(plain.Log.Tastings.Select(cup => cup.Score > 7 ? 7 : cup.Score), year.Log.Tastings.Select(cup => cup.Score));
        Assert.True(year.Log.Tastings.Count(cup => cup.Score == 7) > 100);
        Assert.Equal(plain.Truth.Coffees.Select(coffee => coffee.Quality), year.Truth.Coffees.Select(coffee => coffee.Quality));
    }

    [Fact]
    public void Three_brews_in_a_hundred_are_spoiled_and_nobody_says_so()
    {
        var settings = Years.Quiet with { Cups = 10000 };
        var log = Years.Log(settings with { Habits = new SimulatedHabits { SpoiledShare = 0.03 } });
        var spoiled = log.Tastings.Where(cup => cup.Score < settings.Taster.Mean - 1).ToArray();
        Assert.InRange(spoiled.Length, 250, 350);
        Assert.All(spoiled, cup => Assert.Equal(settings.Taster.Mean - 2.5, cup.Score!.Value, 9));
        Assert.All(spoiled, cup => Assert.False(cup.Failed));
    }

    [Fact]
    public void One_cup_colours_the_next_of_its_session()
    {
        var settings = Years.Quiet with { Taster = Years.Quiet.Taster with { RepeatStandardDeviation = 0.5 } };
        var plain = Years.Log(settings);
        var coloured = Years.Log(settings with { Taster = settings.Taster with { CarryOver = 0.4 } });
        for (var i = 0; i < plain.Tastings.Count; i++)
        {
            var before = coloured.Tastings[i].Position == 1 ? 0 : 0.4 * (coloured.Tastings[i - 1].Score!.Value - settings.Taster.Mean);
            Assert.Equal(plain.Tastings[i].Score!.Value + before, coloured.Tastings[i].Score!.Value, 9);
        }
    }

    [Fact]
    public void A_cup_is_drawn_to_the_last_score_of_its_bag()
    {
        var settings = Years.Quiet with { Taster = Years.Quiet.Taster with { RepeatStandardDeviation = 0.5 } };
        var plain = Years.Log(settings);
        var anchored = Years.Log(settings with { Taster = settings.Taster with { AnchoringOnLastScore = 0.4 } });
        var last = new Dictionary<string, double>();
        for (var i = 0; i < plain.Tastings.Count; i++)
        {
            var cup = anchored.Tastings[i];
            var own = plain.Tastings[i].Score!.Value;
            Assert.Equal(last.TryGetValue(cup.Bag.Id, out var anchor) ? 0.6 * own + 0.4 * anchor : own, cup.Score!.Value, 9);
            last[cup.Bag.Id] = cup.Score!.Value;
        }
    }

    [Fact]
    public void Years_that_differ_in_a_habit_share_their_coffees_and_first_cups()
    {
        var plain = SimulatedYear.Create(Plain, 9);
        var dropping = SimulatedYear.Create(Plain with { Habits = new SimulatedHabits { DropBagsBelow = 6.0 } }, 9);
        Assert.Equal(plain.Truth.Coffees.Select(coffee => coffee.LotEffect), dropping.Truth.Coffees.Select(coffee => coffee.LotEffect));
        Assert.Equal(plain.Log.Bags.Select(bag => (bag.Id, bag.RoastDate, bag.Coffee.Label)), dropping.Log.Bags.Select(bag => (bag.Id, bag.RoastDate, bag.Coffee.Label)));
        Assert.Equal(plain.Log.Tastings.Take(2).Select(cup => (cup.Bag.Id, cup.Score)), dropping.Log.Tastings.Take(2).Select(cup => (cup.Bag.Id, cup.Score)));
    }
}
