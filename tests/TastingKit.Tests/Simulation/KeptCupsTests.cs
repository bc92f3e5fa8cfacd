namespace TastingKit.Tests.Simulation;

/// <summary>Coded cups beside seen ones, fresh cups beside frozen ones, and a sitting of frozen doses at the year's end.</summary>
public sealed class KeptCupsTests
{
    private static readonly SimulatedSchedule Still = Years.Quiet.Schedule;

    [Fact]
    public void A_label_adds_to_the_seen_cup_of_a_pair_what_the_truth_says_and_lot_decides_the_order()
    {
        var settings = Years.Quiet with
        {
            Taster = Years.Quiet.Taster with { LabelEffect = 0.3, LabelPremium = 0.4, LabelPremiumByPrice = 0.1 },
            Schedule = Still with { LabelPairs = 40 },
        };
        var year = SimulatedYear.Create(settings, 3);
        var effect = year.Log.LabelEffect();
        // Chance puts two pairs of one bag and brew at one sitting now and then.
        Assert.InRange(effect.Pairs.Count, 36, 40);
        Assert.All(effect.Pairs, pair => Assert.Equal(year.Truth.LabelAdds(pair.Bag), pair.Difference, 9));
        Assert.True(effect.Pairs.Select(pair => Math.Round(pair.Difference, 6)).Distinct().Count() > 5);
        Assert.InRange(effect.Pairs.Count(pair => pair.PlacesLater > 0), 8, 32);
        Assert.Equal(settings.Cups, year.Log.Tastings.Count);
        Assert.Equal(40, year.Log.Tastings.Count(cup => cup.BlindTo.HasFlag(BlindTo.Label)));
    }

    [Fact]
    public void Freezing_adds_its_step_and_takes_its_loss_and_the_dose_does_not_rest_meanwhile()
    {
        var year = SimulatedYear.Create(
            Years.Quiet with { Schedule = Still with { FreshFrozenPairs = 30, FreezingStep = -0.5, FreezerLossPerYear = 0.4 } }, 4);
        var frozen = year.Log.Tastings.Where(cup => cup.FrozenOn is not null).ToArray();
        Assert.Equal(30, frozen.Length);
        Assert.All(frozen, cup =>
        {
            Assert.Equal(Purpose.Control, cup.Purpose);
            Assert.Equal(cup.Bag.OpenedOn, cup.FrozenOn);
            Assert.Equal(cup.Bag.OpenedOn!.Value.DayNumber - cup.Bag.RoastDate!.Value.DayNumber, cup.RestDays);
            Assert.Equal(Years.Quiet.Taster.Mean - 0.5 - (0.4 * cup.FrozenDays / 365), cup.Score!.Value, 9);
            Assert.Contains(year.Log.Tastings, other => other.Bag.Id == cup.Bag.Id && other.Session == cup.Session && other.FrozenOn is null && other.Brewer == cup.Brewer);
        });
        Assert.All(year.Log.Tastings.Where(cup => cup.FrozenOn is null), cup => Assert.Equal(Years.Quiet.Taster.Mean, cup.Score!.Value, 9));
    }

    [Fact]
    public void The_years_end_has_one_blind_sitting_of_a_frozen_dose_of_each_bag_meant()
    {
        var year = SimulatedYear.Create(Years.Quiet with { Taster = Years.Quiet.Taster with { RepeatStandardDeviation = 0.4 }, Schedule = Still with { FlightBags = 12 } }, 5);
        var flight = year.Log.Tastings.Where(cup => cup.FrozenOn is not null).ToArray();
        Assert.Equal(12, flight.Select(cup => cup.Bag.Id).Distinct().Count());
        Assert.Single(flight.Select(cup => cup.Session).Distinct());
        Assert.Equal(year.Log.Tastings[^1].TastedOn, flight[0].TastedOn);
        Assert.All(flight, cup => Assert.True(cup.BlindTo.HasFlag(BlindTo.Coffee) && cup.RestDays <= 18));
        Assert.Contains(year.Log.ScaleDrift().Sums, sum => sum.Sum == DriftSum.CoffeeLessFreezer);
    }
}
