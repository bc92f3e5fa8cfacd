using TastingKit.Calibration.Planning;

namespace TastingKit.Tests.Calibration;

/// <summary>A small form of the calibration of what to brew next; the full one is run by itself.</summary>
public sealed class NextBrewHoldsTests
{
    [Fact]
    public void Cups_by_the_plan_settle_a_brewer_with_fewer_than_cups_in_turn()
    {
        double[] ratios = [.. Enumerable.Range(1, 7).Select(seed => BrewRace.Of(0.85, 3000 + (ulong)seed).Ratio).Order()];
        Assert.True(ratios[3] <= 0.8, string.Join(", ", ratios));
    }

    [Fact]
    public void The_best_is_named_as_often_as_promised()
    {
        NamingPromise[] years = [.. Enumerable.Range(1, 24).Select(seed => NamingPromise.Of(2000 + (ulong)seed))];
        foreach (var isAfter in new[] { false, true })
        {
            var kept = NamingPromise.Compare(years, isAfter);
            Assert.InRange(kept.Realised, kept.Promised - 0.03 - (2 * kept.ErrorOfDifference), kept.Promised + 0.03 + (2 * kept.ErrorOfDifference));
        }
    }
}
