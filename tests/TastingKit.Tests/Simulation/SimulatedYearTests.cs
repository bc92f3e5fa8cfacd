namespace TastingKit.Tests.Simulation;

public class SimulatedYearTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(2)]
    [InlineData(3)]
    public void A_year_holds_the_bags_cups_and_designs_that_were_asked_for(ulong seed)
    {
        var settings = new SimulationSettings();
        var log = Years.Log(settings, seed);
        Assert.Equal(70, log.Bags.Count);
        Assert.Equal(66, log.Coffees.Count);
        Assert.Equal(480, log.Tastings.Count);
        Assert.Equal(12, log.Tastings.Count(cup => cup.Purpose == Purpose.Control));
        Assert.Equal(4, log.Bags.GroupBy(bag => bag.Coffee.Id).Count(coffee => coffee.Count() == 2));
        Assert.Equal(log.Bags.Count, log.Tastings.Select(cup => cup.Bag.Id).Distinct().Count());
        Assert.All(log.Tastings, cup => Assert.Equal(2025, cup.TastedAt.Year));
        Assert.All(log.Tastings, cup => Assert.True(cup.RestDays >= 4 && cup.TastedOn >= cup.Bag.OpenedOn));
        Assert.All(log.Tastings.GroupBy(cup => cup.Bag), bag => Assert.True(bag.Sum(cup => cup.DoseGrams) <= bag.Key.NetWeightGrams));
        Assert.NotEmpty(log.PublishedVerdicts);
        Assert.NotEmpty(log.BlindTests);
        Assert.Contains(log.Tastings, cup => cup.Failed);
        Assert.Contains(log.Tastings, cup => cup.Purpose == Purpose.DialIn);
        Assert.Contains(log.Tastings, cup => cup is { Purpose: Purpose.Cupping, Brewer: null });
    }

    [Fact]
    public void Blind_repeats_are_two_cups_of_one_session_bag_and_brew()
    {
        var log = Years.Log(new SimulationSettings());
        var coded = log.Tastings.Where(cup => cup.Purpose == Purpose.Verdict && cup.BlindTo != BlindTo.Nothing).ToArray();
        Assert.Equal(40, coded.Length);
        Assert.All(coded.GroupBy(cup => (cup.Session, cup.Bag.Id, cup.Brewer, cup.RecipeFrom, cup.Grind)), pair => Assert.Equal(0, pair.Count() % 2));
    }

    [Fact]
    public void Sighted_repeats_are_pairs_too_and_leave_as_many_blind_ones()
    {
        var schedule = new SimulatedSchedule { BlindRepeats = 10 };
        Assert.True(Pairs(schedule with { SightedRepeats = 150 }) >= Pairs(schedule) + 100);

        static int Pairs(SimulatedSchedule schedule)
        {
            var cups = Years.Log(new SimulationSettings { Schedule = schedule }).Tastings.Where(cup => cup.Purpose == Purpose.Verdict).ToArray();
            Assert.Equal(20, cups.Count(cup => cup.BlindTo != BlindTo.Nothing));
            return cups.Where(cup => cup.BlindTo == BlindTo.Nothing)
                .GroupBy(cup => (cup.Session, cup.Bag.Id, cup.Brewer, cup.RecipeFrom, cup.Grind)).Sum(set => set.Count() - 1);
        }
    }

    [Fact]
    public void A_year_has_gaps_and_clumps()
    {
        for (ulong seed = 1; seed <= 5; seed++)
        {
            var days = Years.Log(new SimulationSettings(), seed).Tastings.GroupBy(cup => cup.TastedOn.DayNumber).Select(day => (Day: day.Key, Cups: day.Count())).ToArray();
            Assert.Contains(days.Zip(days.Skip(1)), pair => pair.Second.Day - pair.First.Day >= 6);
            Assert.Contains(days, day => day.Cups >= 5);
            Assert.Contains(days, day => day.Cups == 1);
        }
    }

    [Fact]
    public void Scores_and_attributes_stand_on_the_steps_of_their_scales()
    {
        var log = Years.Log(new SimulationSettings { Taster = new SimulatedTaster { Mean = 8.3 } });
        Assert.All(log.Tastings.Where(cup => cup.Score is not null), cup =>
        {
            var scale = log.ScaleOf(TastingAttribute.Score);
            Assert.True(scale.Contains(cup.Score!.Value) && scale.IsOnStep(cup.Score.Value));
        });
        Assert.Contains(log.Tastings, cup => cup.Score == 9);
        Assert.All(log.Tastings.SelectMany(cup => cup.Attributes), value =>
            Assert.True(log.ScaleOf(value.Key).Contains(value.Value) && log.ScaleOf(value.Key).IsOnStep(value.Value)));
    }

    [Fact]
    public void Notes_come_back_as_often_as_the_truth_says()
    {
        var (found, cups, expected) = (0, 0, 0.0);
        for (ulong seed = 1; seed <= 10; seed++)
        {
            var year = SimulatedYear.Create(new SimulationSettings(), seed);
            foreach (var cup in year.Log.Tastings.Where(cup => !cup.Failed))
            {
                var first = year.Truth.CoffeeOf(cup.Bag.Coffee.Id).Notes[0];
                cups++;
                found += cup.Notes.Contains(first.Note) ? 1 : 0;
                expected += first.Probability;
                Assert.True(cup.Notes.Count <= 5 && cup.Notes.Distinct().Count() == cup.Notes.Count);
            }
        }

        Years.Near(expected / cups, found / (double)cups, 0.02);
    }

    [Fact]
    public void A_guess_at_the_process_is_right_as_often_as_set()
    {
        var settings = new SimulationSettings { Cups = 6000, Schedule = new SimulatedSchedule { BlindRepeats = 2000, ProcessGuessedRight = 0.7 } };
        var guesses = Years.Log(settings).Tastings.Where(cup => cup.GuessedProcess is not null).ToArray();
        Assert.True(guesses.Length >= 4000);
        Years.Near(0.7, guesses.Count(cup => cup.GuessedProcess == cup.Bag.Coffee.Process) / (double)guesses.Length, 0.04);
    }

    [Fact]
    public void Small_and_large_years_can_be_asked_for()
    {
        var few = new SimulationSettings
        {
            Bags = 3,
            Cups = 12,
            Roasters = 1,
            Countries = 1,
            Processes = 1,
            Schedule = new SimulatedSchedule { ControlDoses = 0, BlindRepeats = 1, LotsBoughtAgain = 0, TriangleTests = 0 },
        };
        Assert.Equal(12, Years.Log(few).Tastings.Count);
        Assert.Single(Years.Log(few).Tastings.Select(cup => cup.Bag.Coffee.Process).Distinct());
        var many = Years.Log(new SimulationSettings { Bags = 800, Cups = 20000 });
        Assert.Equal((800, 20000), (many.Bags.Count, many.Tastings.Count));
        var none = few with { Cups = 0, Schedule = few.Schedule with { BlindRepeats = 0 } };
        Assert.Empty(Years.Log(none).Tastings);
    }

    [Fact]
    public void A_setting_out_of_range_is_named()
    {
        static string Error(SimulationSettings settings) => Assert.Throws<ArgumentException>(() => SimulatedYear.Create(settings, 1)).Message;
        Assert.Contains("Bags", Error(new SimulationSettings { Bags = 0 }), StringComparison.Ordinal);
        Assert.Contains("LotStandardDeviation", Error(new SimulationSettings { Quality = new SimulatedQuality { LotStandardDeviation = -1 } }), StringComparison.Ordinal);
        Assert.Contains("SpoiledShare", Error(new SimulationSettings { Habits = new SimulatedHabits { SpoiledShare = 1.5 } }), StringComparison.Ordinal);
        Assert.Contains("DriftPerYear", Error(new SimulationSettings { Taster = new SimulatedTaster { DriftPerYear = double.NaN } }), StringComparison.Ordinal);
        Assert.Contains("Brewers", Error(new SimulationSettings { Method = new SimulatedMethod { Brewers = [] } }), StringComparison.Ordinal);
        Assert.Contains("BlindRepeats", Error(new SimulationSettings { Cups = 40 }), StringComparison.Ordinal);
    }

    [Fact]
    public void A_question_on_what_the_year_does_not_have_is_refused()
    {
        var truth = SimulatedYear.Create(new SimulationSettings(), 1).Truth;
        Assert.Contains("no coffee 'c999'", Assert.Throws<ArgumentException>(() => truth.ExpectedScore("c999", "cone dripper", "house", 20)).Message, StringComparison.Ordinal);
        Assert.Contains("no brewer 'bucket'", Assert.Throws<ArgumentException>(() => truth.BrewerContrast("bucket", "cone dripper")).Message, StringComparison.Ordinal);
        Assert.Contains("recipe is 'mine'", Assert.Throws<ArgumentException>(() => truth.ExpectedScore("c001", "cone dripper", "mine", 20)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => truth.ExpectedScore("c001", "cone dripper", "house", -1));
    }
}
