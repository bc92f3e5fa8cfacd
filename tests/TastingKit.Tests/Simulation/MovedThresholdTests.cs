namespace TastingKit.Tests.Simulation;

public sealed class MovedThresholdTests
{
    private static readonly SimulationSettings Rounded = Years.Quiet with
    {
        Taster = Years.Quiet.Taster with { RoundsToSteps = true, RepeatStandardDeviation = 0.8 },
    };

    [Fact]
    public void Only_the_steps_meant_begin_elsewhere_and_only_in_their_quarter()
    {
        var asItIs = Years.Log(Rounded).Tastings;
        var lower = Years.Log(Rounded with { Taster = Rounded.Taster with { MovedThresholds = [new(2, 7, 0.25)] } }).Tastings;
        var higher = Years.Log(Rounded with { Taster = Rounded.Taster with { MovedThresholds = [new(2, 7, -0.25)] } }).Tastings;
        Assert.Equal(asItIs.Count, lower.Count);
        var (raised, dropped) = (0, 0);
        for (var i = 0; i < asItIs.Count; i++)
        {
            var (was, low, high) = (asItIs[i].Score!.Value, lower[i].Score!.Value, higher[i].Score!.Value);
            if (asItIs[i].TastedOn.Month is < 4 or > 6)
            {
                Assert.Equal(was, low);
                Assert.Equal(was, high);
                continue;
            }

            // Half a step, so that a cup moves by one step or not at all.
            Assert.True(low == was || (low == was + 0.5 && low >= 7), $"{was} became {low}");
            Assert.True(high == was || (high == was - 0.5 && was >= 7), $"{was} became {high}");
            raised += low > was ? 1 : 0;
            dropped += high < was ? 1 : 0;
        }

        Assert.True(raised > 10 && dropped > 10, $"{raised} raised, {dropped} dropped");
    }

    [Fact]
    public void A_quarter_that_no_year_has_is_refused() =>
        Assert.Throws<ArgumentException>(() => Years.Log(Rounded with { Taster = Rounded.Taster with { MovedThresholds = [new(5, 7, 0.25)] } }));
}
