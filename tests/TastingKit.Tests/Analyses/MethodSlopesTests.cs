using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class MethodSlopesTests
{
    [Fact]
    public void A_planted_slope_is_found_within_coffees_and_per_step()
    {
        // Good coffees are brewed hotter: between coffees hot looks far better, within one it costs 0.06 points a degree.
        var slopes = Year(30, (coffee, cup) => (coffee % 2 == 0 ? 94 : 90) + (cup % 4), (coffee, celsius) => (coffee % 2 == 0 ? 1.5 : 0) - (0.06 * (celsius - 90))).MethodSlopes([Covariate.WaterTemperature]);

        var slope = Assert.Single(slopes.Slopes);
        Assert.InRange(slope.Answer.Estimate, -0.45, -0.15);
        Assert.Equal(Direction.Lower, slope.Answer.Direction);
        Assert.Equal((30, 240, 90, 97), (slope.Coffees, slope.Cups, (int)slope.Lowest, (int)slope.Highest));
        Assert.IsType<SlopeShape.Straight>(slope.Shape);
        Assert.StartsWith("The score by \u22120.", slopes.Finding, StringComparison.Ordinal);
        Assert.Contains("for each 5 °C more water temperature", slopes.Finding, StringComparison.Ordinal);

        var perDegree = Assert.Single(Year(30, (coffee, cup) => (coffee % 2 == 0 ? 94 : 90) + (cup % 4), (coffee, celsius) => (coffee % 2 == 0 ? 1.5 : 0) - (0.06 * (celsius - 90))).MethodSlopes([Covariate.WaterTemperature.Per(1)]).Slopes);
        Assert.Equal(slope.Answer.Estimate / 5, perDegree.Answer.Estimate, 2);
    }

    [Fact]
    public void A_bend_is_found_where_there_is_one()
    {
        var slope = Assert.Single(Year(20, (_, cup) => 88 + cup, (_, celsius) => -0.06 * (celsius - 91.5) * (celsius - 91.5)).MethodSlopes([Covariate.WaterTemperature]).Slopes);

        var curved = Assert.IsType<SlopeShape.Curved>(slope.Shape);
        Assert.True(curved.AtLowest > 0.5 && curved.AtHighest < -0.5, $"{curved}");
        Assert.Equal(Direction.Undecided, slope.Answer.Direction);
    }

    [Fact]
    public void A_grind_counts_on_its_own_grinder_and_a_column_of_the_log_can_be_asked()
    {
        var log = new TestLog();
        var random = new RandomStream(9);
        for (var coffee = 0; coffee < 20; coffee++)
        {
            for (var cup = 0; cup < 8; cup++)
            {
                var (flat, setting, pours) = (cup < 6, 20 + (cup % 3), 1 + (cup * coffee % 4));
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + (flat ? 0.4 * setting : -0.9 * setting) + (0.5 * pours) + (0.3 * random.NextNormal()), t => t with
                {
                    Grinder = flat ? "flat burrs" : "hand grinder",
                    Grind = cup == 0 ? "coarse" : $"{setting}",
                    OtherColumns = new Dictionary<string, string> { ["pours"] = $"{pours}" },
                });
            }
        }

        var slopes = log.Build().MethodSlopes([Covariate.Grind("flat burrs"), Covariate.Column("pours", 2), Covariate.Ratio, Covariate.Grind("none such")]);
        Assert.Equal(["grind on flat burrs", "pours"], slopes.Slopes.Select(s => s.Covariate.Name));
        Assert.InRange(slopes.Slopes[0].Answer.Estimate, 0.3, 0.5);
        Assert.Equal(100, slopes.Slopes[0].Cups);
        Assert.InRange(slopes.Slopes[1].Answer.Estimate, 0.8, 1.2);
        Assert.Equal(["No cup used states its ratio.", "No cup used states its grind on none such."], slopes.Unanswered.Select(u => u.Reason));
    }

    [Fact]
    public void A_small_log_says_at_which_values_to_brew_on()
    {
        var slopes = Year(4, (_, cup) => 92 + (cup % 2), (_, _) => 0).MethodSlopes([Covariate.WaterTemperature]);

        var slope = Assert.Single(slopes.Slopes);
        Assert.Equal((Direction.Undecided, Size.Undecided), (slope.Answer.Direction, slope.Answer.Size));
        Assert.IsType<FurtherCups.Needed>(slope.Further);
        Assert.Contains("half at 92 and half at 93", slopes.Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void One_coffee_will_do_where_it_has_cups_enough()
    {
        var slope = Assert.Single(Year(1, (_, cup) => 88 + cup, (_, celsius) => -0.2 * (celsius - 90), 40).MethodSlopes([Covariate.WaterTemperature.Per(1)]).Slopes);
        Assert.InRange(slope.Answer.Estimate, -0.25, -0.15);

        var few = Year(1, (_, cup) => 88 + cup, (_, celsius) => -0.2 * (celsius - 90), 20).MethodSlopes([Covariate.WaterTemperature]);
        Assert.Equal("20 cups of coffees brewed with two values of water temperature are too few to tell what it does: 30 are the least.", few.Finding);
    }

    [Fact]
    public void Without_two_values_in_any_coffee_there_is_no_answer()
    {
        var slopes = Year(20, (coffee, _) => 88 + (coffee % 4), (_, _) => 0).MethodSlopes([Covariate.WaterTemperature]);

        Assert.False(slopes.Support.IsSupported);
        Assert.Equal("No coffee was brewed with two values of water temperature: a difference would be one between coffees (160 cups).", slopes.Finding);
        Assert.Throws<ArgumentOutOfRangeException>(() => Covariate.Ratio.Per(0));
        Assert.Throws<ArgumentOutOfRangeException>(() => Year(20, (_, cup) => cup, (_, _) => 0).MethodSlopes(margin: -1));
    }

    private static TastingLog Year(int coffees, Func<int, int, double> celsiusOf, Func<int, double, double> effect, int cups = 8)
    {
        var log = new TestLog();
        var random = new RandomStream(21);
        for (var coffee = 0; coffee < coffees; coffee++)
        {
            for (var cup = 0; cup < cups; cup++)
            {
                var celsius = celsiusOf(coffee, cup % 8);
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup % 28):00}", 6 + effect(coffee, celsius) + (0.3 * random.NextNormal()), t => t with { WaterCelsius = celsius });
            }
        }

        return log.Build();
    }
}
