using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>How many cups are asked for where a difference is undecided.</summary>
public sealed class FurtherCupsTests
{
    [Fact]
    public void The_power_is_that_of_logs_as_undecided_as_this_one()
    {
        var plan = new FurtherCupsPlan(0.4, 2, 2, 1.96, 0.5, 0.25, [0], [(2, 2), (2, 2)]);
        var random = new RandomStream(31);
        const double Variance = 0.16 / 3;
        int undecided = 0, told = 0;
        for (var i = 0; i < 200_000; i++)
        {
            var now = 0.5 + (0.4 * random.NextNormal());
            if (Math.Abs(now) > 0.8)
                continue;
            undecided++;
            // Information 6.25 now and 12.5 more, so that the cups to come weigh two thirds.
            var all = (now + (2 * (0.5 + (Math.Sqrt(1 / 12.5) * random.NextNormal())))) / 3;
            told += all > 2 * Math.Sqrt(Variance) ? 1 : 0;
        }

        // 150,000 undecided logs: one standard error is about 0.001.
        Assert.InRange(plan.PowerAt(Variance, 2), ((double)told / undecided) - 0.005, ((double)told / undecided) + 0.005);
    }

    [Fact]
    public void Where_coffees_differ_more_coffees_are_asked_for_and_not_more_cups()
    {
        var alike = Assert.IsType<FurtherCups.Needed>(new FurtherCupsPlan(0.35, 2, 2, 1.96, 0.5, 0.25, [0], [(2, 2), (2, 2), (2, 2)]).Find());
        Assert.False(alike.CoffeesRatherThanCups);
        Assert.InRange(alike.SameCoffees!.Value, alike.Coffees * alike.CupsACoffee * 0.5, alike.Coffees * alike.CupsACoffee * 1.5);

        var differing = Assert.IsType<FurtherCups.Needed>(new FurtherCupsPlan(0.45, 2, 2, 1.96, 0.5, 0.1, [0.5], [(4, 4), (4, 4), (4, 4)]).Find());
        Assert.Null(differing.SameCoffees);
        Assert.True(differing.CoffeesRatherThanCups);
        Assert.True(differing.Coffees > 5);

        Assert.IsType<FurtherCups.OutOfReach>(new FurtherCupsPlan(0.45, 2, 2, 1.96, 0.01, 0.1, [0.5], [(4, 4)]).Find());
    }

    [Fact]
    public void A_small_log_says_what_it_would_take()
    {
        var effects = Log(4, 2, 0, 1).MethodEffects(Factor.Brewer);

        var contrast = Assert.Single(effects.Contrasts);
        var needed = Assert.IsType<FurtherCups.Needed>(contrast.Further);
        Assert.Contains($"{needed.Coffees} further coffees of 4 cups", string.Join(' ', effects.Summary), StringComparison.Ordinal);
        Assert.Contains("undecided, which is not the same as no difference", string.Join(' ', effects.Summary), StringComparison.Ordinal);
        Assert.IsType<FurtherCups.NotNeeded>(Assert.Single(Log(20, 8, 1, 1).MethodEffects(Factor.Brewer).Contrasts).Further);
    }

    internal static TastingLog Log(int coffees, int cups, double effect, ulong seed, double ofCoffee = 0)
    {
        var log = new TestLog();
        var random = new RandomStream(seed);
        for (var coffee = 0; coffee < coffees; coffee++)
        {
            var (quality, own) = (0.5 * random.NextNormal(), ofCoffee * random.NextNormal());
            for (var cup = 0; cup < cups; cup++)
            {
                var cone = cup % 2 == 0;
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + quality + (cone ? effect + own : 0) + (0.5 * random.NextNormal()), cone ? "cone dripper" : "flat-bed dripper");
            }
        }

        return log.Build();
    }
}
