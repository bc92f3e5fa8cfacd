namespace TastingKit.Tests.Simulation;

/// <summary>Each effect, turned on alone, moves the cups by what the truth says.</summary>
public class EffectTests
{
    private static readonly SimulatedTaster Still = Years.Quiet.Taster;

    [Fact]
    public void With_every_effect_at_nought_every_cup_scores_the_mean() =>
        Assert.All(Years.Log(Years.Quiet).Tastings, cup => Assert.Equal(Still.Mean, cup.Score!.Value, 12));

    [Fact]
    public void A_cup_without_noise_scores_what_the_truth_expects_of_its_coffee_brewer_recipe_and_rest()
    {
        var settings = Years.Quiet with { Quality = new(), Method = new(), Rest = new() };
        for (ulong seed = 1; seed <= 5; seed++)
        {
            var year = SimulatedYear.Create(settings, seed);
            Assert.All(year.Log.Tastings, cup => Assert.Equal(
                year.Truth.ExpectedScore(cup.Bag.Coffee.Id, cup.Brewer!, cup.RecipeFrom!, cup.RestDays!.Value), cup.Score!.Value, 9));
        }
    }

    [Fact]
    public void Attributes_without_noise_are_what_the_truth_expects()
    {
        var settings = Years.Quiet with
        {
            Quality = new(),
            Method = new(),
            Rest = new(),
            Attributes = [.. SimulatedAttribute.Defaults.Select(attribute => attribute with { RepeatStandardDeviation = 0 })],
        };
        var year = SimulatedYear.Create(settings, 3);
        Assert.All(year.Log.Tastings, cup => Assert.Equal(7, cup.Attributes.Count));
        Assert.All(year.Log.Tastings, cup => Assert.All(cup.Attributes, value => Assert.Equal(
            year.Truth.ExpectedValue(value.Key, cup.Bag.Coffee.Id, cup.Brewer!, cup.RecipeFrom!, cup.RestDays!.Value), value.Value, 9)));
    }

    [Fact]
    public void A_coffee_with_two_bags_is_expected_to_score_the_mean_of_its_bags()
    {
        var settings = Years.Quiet with
        {
            Quality = Years.Quiet.Quality with { BagStandardDeviation = 1 },
            Schedule = Years.Quiet.Schedule with { LotsBoughtAgain = 10 },
        };
        var year = SimulatedYear.Create(settings, 4);
        var twice = year.Truth.Coffees.Where(coffee => coffee.Bags.Count == 2).ToArray();
        Assert.Equal(10, twice.Length);
        Assert.All(twice, coffee =>
        {
            var scores = year.Log.Tastings.Where(cup => cup.Bag.Coffee.Id == coffee.CoffeeId).Select(cup => (cup.Bag.Id, cup.Score!.Value)).Distinct().ToArray();
            Assert.Equal(2, scores.Length);
            Assert.Equal(scores.Average(score => score.Value), year.Truth.ExpectedScore(coffee.CoffeeId, "cone dripper", "house", 20), 9);
        });
    }

    [Theory]
    [InlineData("country")]
    [InlineData("process")]
    [InlineData("roaster")]
    [InlineData("lot")]
    [InlineData("bag")]
    public void Coffees_differ_by_the_standard_deviation_that_is_set(string what)
    {
        var quality = Years.Quiet.Quality;
        var settings = Years.Quiet with
        {
            Cups = 60,
            Bags = 60,
            Quality = what switch
            {
                "country" => quality with { CountryStandardDeviation = 0.5 },
                "process" => quality with { ProcessStandardDeviation = 0.5 },
                "roaster" => quality with { RoasterStandardDeviation = 0.5 },
                "lot" => quality with { LotStandardDeviation = 0.5 },
                _ => quality with { BagStandardDeviation = 0.5 },
            },
        };
        Func<Tasting, string> level = what switch
        {
            "country" => cup => cup.Bag.Coffee.Countries[0],
            "process" => cup => cup.Bag.Coffee.Process!,
            "roaster" => cup => cup.Bag.Coffee.Roaster!,
            _ => cup => cup.Bag.Id,
        };
        var departures = new List<double>();
        for (ulong seed = 0; seed < 300; seed++)
        {
            foreach (var group in Years.Log(settings, seed).Tastings.GroupBy(level))
            {
                Assert.Single(group.Select(cup => Math.Round(cup.Score!.Value, 9)).Distinct());
                departures.Add(group.First().Score!.Value - Still.Mean);
            }
        }

        // Three standard errors of a standard deviation from 1,000 draws are 7 %.
        Years.Near(0.5, Years.StandardDeviation(departures), 0.07);
    }

    [Fact]
    public void Cups_of_a_session_share_its_form()
    {
        var log = Years.Log(Years.Quiet with { Cups = 4000, Taster = Still with { SessionStandardDeviation = 0.3 } });
        var sessions = log.Tastings.GroupBy(cup => cup.Session).ToArray();
        Assert.All(sessions, session => Assert.Single(session.Select(cup => cup.Score).Distinct()));
        Years.Near(0.3, Years.StandardDeviation(sessions.Select(session => session.First().Score!.Value)), 0.15);
    }

    [Fact]
    public void Cups_of_a_bag_share_its_day()
    {
        var log = Years.Log(Years.Quiet with { Cups = 4000, Taster = Still with { BagDayStandardDeviation = 0.3 } });
        var days = log.Tastings.GroupBy(cup => (cup.Bag.Id, cup.TastedOn)).ToArray();
        Assert.All(days, day => Assert.Single(day.Select(cup => cup.Score).Distinct()));
        Years.Near(0.3, Years.StandardDeviation(days.Select(day => day.First().Score!.Value)), 0.08);
    }

    [Fact]
    public void Repeat_error_has_the_spread_that_is_set()
    {
        var log = Years.Log(Years.Quiet with { Cups = 20000, Taster = Still with { RepeatStandardDeviation = 0.4 } });
        Years.Near(Still.Mean, log.Tastings.Average(cup => cup.Score!.Value), 0.002);
        Years.Near(0.4, Years.StandardDeviation(log.Tastings.Select(cup => cup.Score!.Value)), 0.02);
    }

    [Fact]
    public void A_place_later_in_a_session_costs_what_is_set()
    {
        var log = Years.Log(Years.Quiet with { Taster = Still with { PositionEffect = -0.1 } });
        Assert.Contains(log.Tastings, cup => cup.Position == 3);
        Assert.All(log.Tastings, cup => Assert.Equal(Still.Mean - 0.1 * (cup.Position!.Value - 1), cup.Score!.Value, 9));
    }

    [Fact]
    public void A_drifting_scale_moves_by_its_slope_about_mid_year()
    {
        var log = Years.Log(Years.Quiet with { Taster = Still with { DriftPerYear = 0.6 } });
        Assert.All(log.Tastings, cup => Assert.Equal(
            Still.Mean + 0.6 * (cup.TastedOn.DayNumber - new DateOnly(2025, 7, 2).DayNumber) / 365.0, cup.Score!.Value, 9));
    }

    [Fact]
    public void Better_buying_follows_the_roast_date_and_is_quality()
    {
        var year = SimulatedYear.Create(Years.Quiet with { Quality = Years.Quiet.Quality with { BuyingTrendPerYear = 0.6 } }, 1);
        Assert.All(year.Log.Tastings, cup =>
        {
            var expected = Still.Mean + 0.6 * (cup.Bag.RoastDate!.Value.DayNumber - new DateOnly(2025, 7, 2).DayNumber) / 365.0;
            Assert.Equal(expected, cup.Score!.Value, 9);
            Assert.Equal(expected, year.Truth.ExpectedScore(cup.Bag.Coffee.Id, "cone dripper", "house", 20), 9);
        });
    }

    [Fact]
    public void Frozen_doses_keep_their_rest_and_lose_what_the_freezer_costs()
    {
        var settings = Years.Quiet with
        {
            Rest = new SimulatedRest { PeakBagStandardDeviation = 0 },
            Schedule = Years.Quiet.Schedule with { ControlDoses = 12, FreezerLossPerYear = 0.5 },
        };
        var year = SimulatedYear.Create(settings, 1);
        var doses = year.Log.Tastings.Where(cup => cup.Purpose == Purpose.Control).ToArray();
        Assert.Equal(12, doses.Length);
        Assert.All(doses, dose =>
        {
            Assert.Equal(14, dose.RestDays);
            Assert.True(dose.BlindTo.HasFlag(BlindTo.Coffee));
            Assert.Equal(
                year.Truth.ExpectedScore(dose.Bag.Coffee.Id, dose.Brewer!, dose.RecipeFrom!, 14) - 0.5 * dose.FrozenDays / 365.0, dose.Score!.Value, 9);
        });
        Assert.True(doses[^1].TastedOn.DayNumber - doses[0].TastedOn.DayNumber > 300);
    }

    [Fact]
    public void A_change_of_water_is_a_step_for_every_cup_after_it()
    {
        var change = new SimulatedChange(new DateOnly(2025, 9, 1), "water", "filtered tap", "remineralised", 0.7);
        var log = Years.Log(Years.Quiet with { Schedule = Years.Quiet.Schedule with { Changes = [change] } });
        Assert.All(log.Tastings, cup =>
        {
            var after = cup.TastedOn >= change.ChangedOn;
            Assert.Equal(Still.Mean + (after ? 0.7 : 0), cup.Score!.Value, 9);
            Assert.Equal(after ? "remineralised" : "filtered tap", cup.Water);
        });
        Assert.Equal(new EquipmentChange(change.ChangedOn, "water", "filtered tap", "remineralised"), Assert.Single(log.Changes));
    }

    [Fact]
    public void A_renowned_label_adds_its_premium_unless_hidden()
    {
        var settings = Years.Quiet with { Taster = Still with { LabelPremium = 0.4 }, Schedule = Years.Quiet.Schedule with { BlindRepeats = 60 } };
        var log = Years.Log(settings);
        Assert.All(log.Tastings.Where(cup => cup.BlindTo != BlindTo.Nothing), cup => Assert.Equal(Still.Mean, cup.Score!.Value, 9));
        var byRoaster = log.Tastings.Where(cup => cup.BlindTo == BlindTo.Nothing).GroupBy(cup => cup.Bag.Coffee.Roaster).ToArray();
        Assert.All(byRoaster, roaster => Assert.Single(roaster.Select(cup => Math.Round(cup.Score!.Value, 9)).Distinct()));
        Assert.Equal([Still.Mean, Still.Mean + 0.4], byRoaster.Select(roaster => Math.Round(roaster.First().Score!.Value, 9)).Distinct().Order());
    }

    [Fact]
    public void Temperature_and_ratio_move_the_score_by_their_slopes()
    {
        var settings = Years.Quiet with { Method = Years.Quiet.Method with { EffectPerDegree = 0.05, EffectPerRatioUnit = -0.3, RoasterRecipeShare = 0.5 } };
        var log = Years.Log(settings);
        Assert.True(log.Tastings.Select(cup => cup.WaterCelsius).Distinct().Count() > 3);
        Assert.All(log.Tastings, cup => Assert.Equal(
            Still.Mean + 0.05 * (cup.WaterCelsius!.Value - 94) - 0.3 * (cup.Ratio!.Value - 16), cup.Score!.Value, 9));
    }

    [Fact]
    public void Contrasts_of_brewers_and_recipes_are_the_mean_differences_between_cups()
    {
        var settings = Years.Quiet with
        {
            Cups = 20000,
            Bags = 60,
            Method = new SimulatedMethod { BrewerByCoffeeStandardDeviation = 0, RecipeByCoffeeStandardDeviation = 0, RoasterRecipeShare = 0.5 },
        };
        var year = SimulatedYear.Create(settings, 5);
        foreach (var process in year.Log.Coffees.Select(coffee => coffee.Process!).Distinct())
        {
            var cups = year.Log.Tastings.Where(cup => cup.Bag.Coffee.Process == process).ToArray();
            double Mean(string brewer, string recipe) => cups.Where(cup => cup.Brewer == brewer && cup.RecipeFrom == recipe).Average(cup => cup.Score!.Value);
            Assert.Equal(Mean("flat-bed dripper", "house") - Mean("cone dripper", "house"), year.Truth.BrewerContrast("flat-bed dripper", "cone dripper", process), 9);
            Assert.Equal(Mean("cone dripper", "roaster") - Mean("cone dripper", "house"), year.Truth.RoasterRecipeContrast(process), 9);
        }

        // Over all processes the contrast weighs each coffee once.
        Assert.Equal(
            year.Log.Coffees.Average(coffee => year.Truth.BrewerContrast("thick-paper carafe", "cone dripper", coffee.Process)),
            year.Truth.BrewerContrast("thick-paper carafe", "cone dripper"), 12);
    }

    [Fact]
    public void What_a_roasters_water_and_ratio_do_is_part_of_its_recipe()
    {
        var still = Years.Quiet.Method with { EffectPerDegree = 0.05, EffectPerRatioUnit = -0.3, RoasterRecipeShare = 0.5, RoasterRecipeEffect = 0.2 };
        var year = SimulatedYear.Create(Years.Quiet with { Method = still, Bags = 60, Cups = 20000 }, 5);
        var differences = year.Log.Tastings.GroupBy(cup => cup.Bag.Coffee.Id).ToDictionary(
            coffee => coffee.Key,
            coffee => coffee.Where(cup => cup.RecipeFrom == "roaster").Average(cup => cup.Score!.Value) - coffee.Where(cup => cup.RecipeFrom == "house").Average(cup => cup.Score!.Value));
        Assert.True(differences.Values.Max() - differences.Values.Min() > 0.1);
        Assert.Equal(differences.Values.Average(), year.Truth.RoasterRecipeContrast(), 9);
        foreach (var (coffee, difference) in differences)
        {
            Assert.Equal(
                difference, year.Truth.ExpectedScore(coffee, "cone dripper", "roaster", 10) - year.Truth.ExpectedScore(coffee, "cone dripper", "house", 10), 9);
        }
    }

    [Fact]
    public void The_rest_curve_is_highest_at_the_peak_and_loses_a_fifth_at_half_and_double_of_it()
    {
        var bag = new BagTruth("b", 0, 0, 2.0, 20);
        Assert.Equal(0, bag.RestEffect(20));
        Assert.Equal(-0.4, bag.RestEffect(10), 12);
        Assert.Equal(-0.4, bag.RestEffect(40), 12);
        Assert.Equal(-2, bag.RestEffect(0), 12);
    }

    [Fact]
    public void Peaks_depend_on_process_fermentation_and_roast_level_and_scatter_by_bag()
    {
        var year = SimulatedYear.Create(Years.Quiet with { Rest = new SimulatedRest { PeakBagStandardDeviation = 0 } }, 1);
        Assert.All(year.Log.Bags, bag => Assert.Equal(
            year.Truth.PeakRestDays(bag.Coffee.Process!, bag.Coffee.Fermentation is not null, bag.RoastLevel!),
            year.Truth.CoffeeOf(bag.Coffee.Id).Bags.Single(truth => truth.BagId == bag.Id).PeakRestDays));
        Assert.Equal(17, year.Truth.PeakRestDays("washed", false, "light"));
        Assert.Equal(25 + 4 - 8, year.Truth.PeakRestDays("natural", true, "dark"));

        var scattered = SimulatedYear.Create(Years.Quiet with { Bags = 2000, Cups = 2000, Rest = new SimulatedRest { PeakBagStandardDeviation = 0.1 } }, 1);
        var shares = scattered.Log.Bags.Select(bag =>
            scattered.Truth.CoffeeOf(bag.Coffee.Id).Bags[0].PeakRestDays / scattered.Truth.PeakRestDays(bag.Coffee.Process!, bag.Coffee.Fermentation is not null, bag.RoastLevel!)).ToArray();
        Years.Near(1, shares.Average(), 0.01);
        Years.Near(0.1, Years.StandardDeviation(shares), 0.06);
    }
}
