namespace TastingKit.Tests;

/// <summary>Scores on one scale: what is taken out, what all cups share, and when nothing is adjusted.</summary>
public sealed class AdjustedScoresTests
{
    private static readonly SimulationSettings Drifting = new()
    {
        Taster = new SimulatedTaster { DriftPerYear = 2, RoundsToSteps = false, StaysWithinScale = false, SessionStandardDeviation = 0, RepeatStandardDeviation = 0.1 },
        Schedule = new SimulatedSchedule { ControlDoses = 24, LotsBoughtAgain = 0 },
        Attributes = [],
        WithTexts = false,
    };

    [Fact]
    public void Each_cup_loses_the_drift_since_the_day_and_all_share_its_error()
    {
        var log = SimulatedYear.Create(Drifting, 11).Log;
        var day = new DateOnly(2025, 1, 1);
        var found = log.AdjustedScores(onScaleOf: day);
        var drift = found.Drift!.AYear;
        Assert.InRange(drift.Estimate, 1.7, 2.3);
        Assert.Equal(ScoredCups.Of(log).Cups.Count, found.Cups.Count);
        Assert.All(found.Cups, cup =>
        {
            var years = (cup.Cup.TastedOn.DayNumber - day.DayNumber) / 365.25;
            Assert.Equal(cup.AsWritten - (years * drift.Estimate), cup.Adjusted, 10);
            Assert.Equal(cup.AsWritten - (years * drift.High), cup.Low, 10);
            Assert.Equal(cup.AsWritten - (years * drift.Low), cup.High, 10);
        });

        // One error for all: perfectly correlated, and none on the day itself.
        var (early, late) = (found.Cups[10], found.Cups[^1]);
        Assert.Equal(Math.Sqrt(found.Covariance(early, early) * found.Covariance(late, late)), found.Covariance(early, late), 10);
        Assert.Equal(late.Years * drift.StandardError, Math.Sqrt(found.Covariance(late, late)), 10);
        Assert.StartsWith("If coffee does not change in the freezer, each cup is brought to the scale of 2025-01-01", found.Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void What_the_user_states_of_rest_takes_the_place_of_an_anchor_and_is_named_as_stated()
    {
        var log = SimulatedYear.Create(Drifting with { Schedule = Drifting.Schedule with { ControlDoses = 0 } }, 11).Log;
        Assert.False(log.AdjustedScores().Support.IsSupported);
        var together = log.ScaleDrift().Sums.Single(sum => sum.Sum == DriftSum.RestAndDrift).Slope;
        var found = log.AdjustedScores(restAMonth: -0.1);
        Assert.Equal(12 * (together.Estimate + 0.1), found.Drift!.AYear.Estimate, 10);
        Assert.Equal(12 * (together.High + 0.1), found.Drift.AYear.High, 10);
        Assert.Equal(12 * together.StandardError, found.Drift.AYear.StandardError, 10);
        Assert.StartsWith("If rest by itself does \u22120.10 points a month (stated), each cup is brought to the scale of ", found.Finding, StringComparison.Ordinal);
        Assert.Contains(found.Cautions, caution => caution.Name == "stated-by-user");
        Assert.StartsWith("If rest by itself does \u22120.10 points a month (stated), and the drift of ", found.Favourites().Finding, StringComparison.Ordinal);
        // With doses in the log the statement is still the user's own choice.
        Assert.IsType<DriftAnchor.StatedRest>(SimulatedYear.Create(Drifting, 11).Log.AdjustedScores(restAMonth: -0.1).Drift!.Anchor);
        Assert.Throws<ArgumentOutOfRangeException>(() => log.AdjustedScores(restAMonth: double.NaN));
    }

    [Fact]
    public void Favourites_show_both_orders_and_the_adjusted_one_is_nearer_the_truth()
    {
        var year = SimulatedYear.Create(Drifting, 12);
        var favourites = year.Log.AdjustedScores().Favourites();
        Assert.Equal(favourites.Coffees.Count, favourites.Coffees.Select(coffee => coffee.RankAsWritten).Distinct().Count());
        Assert.Equal(year.Log.Favourites().Coffees[0].Coffee.Id, favourites.Coffees.Single(coffee => coffee.RankAsWritten == 1).Coffee.Id);
        double[] truth = [.. favourites.Coffees.Select(coffee => year.Truth.CoffeeOf(coffee.Coffee.Id).Quality)];
        var (adjusted, written) = (Scatter(favourites.Coffees.Select(c => c.Estimate)), Scatter(favourites.Coffees.Select(c => c.EstimateAsWritten)));
        Assert.True(adjusted < 0.6 * written, $"Adjusted estimates scatter by {adjusted} about the truth, those as written by {written}.");

        // A coffee of the year's end leans on the drift by nearly half a year, one of its beginning the other way.
        Assert.InRange(favourites.Coffees.Max(c => c.Years), 0.3, 0.6);
        Assert.InRange(favourites.Coffees.Min(c => c.Years), -0.6, -0.3);
        var (first, last) = (favourites.Coffees.MaxBy(c => c.Years)!, favourites.Coffees.MinBy(c => c.Years)!);
        Assert.True(favourites.SharedCovariance(first, last) < 0);
        Assert.DoesNotContain(favourites.Cautions, caution => caution.Name == "scale-drift");
        Assert.Contains(favourites.Summary, sentence => sentence.StartsWith("Furthest moved: ", StringComparison.Ordinal));

        double Scatter(IEnumerable<double> estimates)
        {
            double[] off = [.. estimates.Zip(truth, (estimate, one) => estimate - one)];
            return Math.Sqrt(off.Average(value => Math.Pow(value - off.Average(), 2)));
        }
    }

    [Fact]
    public void Without_an_identified_drift_nothing_is_adjusted()
    {
        var log = SimulatedYear.Create(Drifting with { Schedule = new SimulatedSchedule { ControlDoses = 0, LotsBoughtAgain = 0 } }, 13).Log;
        var found = log.AdjustedScores();
        Assert.False(found.Support.IsSupported);
        Assert.Empty(found.Cups);
        Assert.Contains("nothing in this log tells its drift apart from rest", found.Finding, StringComparison.Ordinal);
        Assert.False(found.Favourites().Support.IsSupported);
        Assert.Empty(found.Favourites().Table.Rows);
    }

    [Fact]
    public void A_stated_loss_is_named_and_an_attribute_has_no_favourites()
    {
        var log = SimulatedYear.Create(Drifting with { Attributes = SimulatedAttribute.Defaults }, 14).Log;
        Assert.StartsWith("If doses lose 0.50 points a year (stated), each cup is brought", log.AdjustedScores(freezerLossAYear: 0.5).Finding, StringComparison.Ordinal);
        var body = log.AdjustedScores(TastingAttribute.Body);
        Assert.Throws<InvalidOperationException>(() => body.Favourites());
        Assert.Throws<ArgumentOutOfRangeException>(() => log.AdjustedScores(freezerLossAYear: double.NaN));
    }
}
