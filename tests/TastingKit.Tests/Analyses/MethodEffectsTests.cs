using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class MethodEffectsTests
{
    [Fact]
    public void A_planted_difference_is_found_with_its_sign_and_size()
    {
        var effects = Year(coneBonus: 0.8, coneShareOfGoodCoffees: 0.5).MethodEffects(Factor.Brewer);

        var contrast = Assert.Single(effects.Contrasts);
        Assert.Equal(("cone dripper", "flat-bed dripper"), (contrast.First, contrast.Second));
        Assert.InRange(contrast.Answer.Estimate, 0.6, 1.0);
        Assert.True(contrast.Answer.Low < contrast.Answer.Estimate && contrast.Answer.Estimate < contrast.Answer.High);
        Assert.Equal(Direction.Higher, contrast.Answer.Direction);
        Assert.StartsWith("Cone dripper scores", effects.Finding, StringComparison.Ordinal);
        Assert.Equal(20, contrast.SharedCoffees);
        Assert.Equal(effects.Computation.CupsUsed, contrast.FirstCups + contrast.SecondCups);
    }

    [Fact]
    public void Better_coffees_on_one_brewer_do_not_make_the_brewer_better()
    {
        var log = Year(coneBonus: 0, coneShareOfGoodCoffees: 0.9);
        var naive = log.Tastings.Where(t => t.Brewer == "cone dripper").Average(t => t.Score!.Value)
            - log.Tastings.Where(t => t.Brewer != "cone dripper").Average(t => t.Score!.Value);
        Assert.True(naive > 0.8);

        var contrast = Assert.Single(log.MethodEffects(Factor.Brewer).Contrasts);
        Assert.Equal(Direction.Undecided, contrast.Answer.Direction);
        Assert.InRange(contrast.Answer.Estimate, 0, 0.25);
    }

    [Fact]
    public void With_few_cups_a_coffee_the_difference_is_still_one_within_coffees()
    {
        // The good half of the coffees had the cone twice and the flat bed once, the poor half the other way round: between coffees
        // the cone looks far better, within one it is not. Averaged over logs, since one log of three cups a coffee says little.
        var estimates = new List<double>();
        for (var seed = 0; seed < 20; seed++)
        {
            var log = new TestLog();
            var random = new RandomStream((ulong)(300 + seed));
            for (var coffee = 0; coffee < 30; coffee++)
            {
                var good = coffee % 2 == 0;
                for (var cup = 0; cup < 3; cup++)
                    log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 5):00}", (good ? 6.4 : 5.6) + (0.6 * random.NextNormal()), (cup < 2) == good ? "cone dripper" : "flat-bed dripper");
            }

            var contrast = Assert.Single(log.Build().MethodEffects(Factor.Brewer).Contrasts);
            estimates.Add(contrast.First == "cone dripper" ? contrast.Answer.Estimate : -contrast.Answer.Estimate);
        }

        // A log's estimate scatters by about 0.19, so that the mean of twenty has a standard error of about 0.04.
        Assert.InRange(estimates.Average(), -0.13, 0.13);
    }

    [Fact]
    public void A_difference_known_to_lie_within_the_margin_is_too_small_to_matter()
    {
        var contrast = Assert.Single(Year(coneBonus: 0, coneShareOfGoodCoffees: 0.5).MethodEffects(Factor.Brewer).Contrasts);
        Assert.Equal(Size.TooSmallToMatter, contrast.Answer.Size);
        Assert.Equal(Size.Undecided, Assert.Single(Year(0, 0.5).MethodEffects(Factor.Brewer, margin: 0.01).Contrasts).Answer.Size);
        Assert.Equal(Size.Undecided, Assert.Single(Year(0.8, 0.5).MethodEffects(Factor.Brewer, margin: 0.8).Contrasts).Answer.Size);
        Assert.Equal(Size.Matters, Assert.Single(Year(0.8, 0.5).MethodEffects(Factor.Brewer, margin: 0.1).Contrasts).Answer.Size);
    }

    [Fact]
    public void The_margin_is_half_a_point_of_nine_scaled_to_the_logs_scale()
    {
        Assert.Equal(0.5, Year(0, 0.5).MethodEffects(Factor.Brewer).Margin, 12);
        Assert.Throws<ArgumentOutOfRangeException>(() => Year(0, 0.5).MethodEffects(Factor.Brewer, margin: 0));
    }

    [Fact]
    public void What_two_single_cups_differ_by_anyway_stands_beside_a_difference_of_the_score_and_is_not_its_margin()
    {
        var log = SimulatedYear.Create(new SimulationSettings { WithTexts = false, Schedule = new SimulatedSchedule { BlindRepeats = 20 } }, 12).Log;
        var effects = log.MethodEffects(Factor.Brewer);

        var limit = Assert.IsType<PartAnswer.Estimated>(effects.BetweenTwoCups);
        Assert.Equal(log.Repeatability().RepeatabilityLimit, limit);
        Assert.NotEqual(effects.Margin, limit.Estimate);
        Assert.Contains($"Noticeable between two single cups is what exceeds {limit.Estimate:0.00} points", effects.ToString(), StringComparison.Ordinal);

        var sweetness = log.MethodEffects(Factor.Brewer, log.Attributes.First(attribute => !attribute.Equals(TastingAttribute.Score)));
        Assert.IsType<PartAnswer.Refused>(sweetness.BetweenTwoCups);
        Assert.DoesNotContain("Noticeable", sweetness.ToString(), StringComparison.Ordinal);
    }

    [Fact]
    public void What_was_never_compared_within_a_coffee_is_not_compared()
    {
        var log = new TestLog();
        for (var coffee = 0; coffee < 10; coffee++)
        {
            for (var cup = 0; cup < 4; cup++)
                log.Cup($"C{coffee}", $"2025-03-{1 + cup:00}", 6 + (cup % 2), coffee < 5 ? "cone dripper" : "flat-bed dripper");
        }

        var effects = log.Build().MethodEffects(Factor.Brewer);
        Assert.False(effects.Support.IsSupported);
        Assert.Contains("No coffee was brewed with two levels of brewer", effects.Finding, StringComparison.Ordinal);
        Assert.Empty(effects.Contrasts);

        var one = new TestLog().Cup("A", "2025-01-01", 6, "cone dripper").Cup("B", "2025-01-01", 6, "cone dripper").Build().MethodEffects(Factor.Brewer);
        Assert.Contains("the same brewer (cone dripper)", one.Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => log.Build().MethodEffects(Factor.Country));
    }

    private static TastingLog Year(double coneBonus, double coneShareOfGoodCoffees)
    {
        var log = new TestLog();
        var random = new RandomStream(11);
        for (var coffee = 0; coffee < 20; coffee++)
        {
            var good = coffee % 2 == 0;
            for (var cup = 0; cup < 10; cup++)
            {
                var share = good ? coneShareOfGoodCoffees : 1 - coneShareOfGoodCoffees;
                var cone = cup < Math.Round(10 * share);
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 2):00}", 5.5 + (good ? 1.5 : 0) + (cone ? coneBonus : 0) + (0.3 * random.NextNormal()), cone ? "cone dripper" : "flat-bed dripper");
            }
        }

        return log.Build();
    }
}
