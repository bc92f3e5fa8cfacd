using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Parts of the method are adjusted for each other, and what can't be told from the rest is said.</summary>
public sealed class MethodAdjustmentTests
{
    [Fact]
    public void A_brewer_that_mostly_gets_the_better_water_is_not_better_for_it()
    {
        // Within each coffee the cone has soft water four times of five, the flat bed once of five; soft water adds a point.
        var effects = Year((coffee, cup) => (Brewer: cup < 5 ? "cone dripper" : "flat-bed dripper", Soft: cup is < 4 or 9), (_, soft) => soft ? 1 : 0)
            .MethodEffects(Factor.Brewer);

        var contrast = Assert.Single(effects.Contrasts);
        Assert.Equal(Direction.Undecided, contrast.Answer.Direction);
        Assert.InRange(contrast.Answer.Estimate, 0, 0.25);
        Assert.Contains("water", effects.Computation.Model, StringComparison.Ordinal);
    }

    [Fact]
    public void What_always_changes_with_a_brewer_is_said_to_be_part_of_its_difference()
    {
        var effects = Year((_, cup) => (cup < 5 ? "cone dripper" : "flat-bed dripper", cup < 5), (cone, _) => cone ? 0.8 : 0).MethodEffects(Factor.Brewer);

        Assert.Equal("cone dripper", Assert.Single(effects.Contrasts).First);
        Assert.Equal("The water always changed with the brewer: a difference is that of all of them together.", Assert.Single(effects.Cautions, c => c.Name == "part-of-it").Text);
    }

    [Fact]
    public void A_recipe_keeps_its_own_temperature_and_ratio_as_part_of_it()
    {
        var log = new TestLog();
        var random = new RandomStream(5);
        for (var coffee = 0; coffee < 20; coffee++)
        {
            for (var cup = 0; cup < 8; cup++)
            {
                var house = cup % 2 == 0;
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + (house ? 0 : 0.6) + (0.3 * random.NextNormal()), t => t with
                {
                    RecipeFrom = house ? "house" : "roaster",
                    WaterCelsius = house ? 94 : 90 + (coffee % 3),
                    DoseGrams = 15,
                    WaterGrams = house ? 240 : 255,
                });
            }
        }

        var contrast = Assert.Single(log.Build().MethodEffects(Factor.RecipeFrom).Contrasts);
        Assert.Equal(("roaster", Direction.Higher), (contrast.First, contrast.Answer.Direction));
        Assert.InRange(contrast.Answer.Estimate, 0.45, 0.75);
    }

    [Fact]
    public void Of_one_coffee_alone_a_difference_is_told_and_said_to_be_its_own()
    {
        var log = new TestLog();
        var random = new RandomStream(19);
        for (var cup = 0; cup < 40; cup++)
            log.Cup("C", $"2025-03-{1 + (cup % 28):00}", 6 + (cup % 2 == 0 ? 1 : 0) + (0.3 * random.NextNormal()), cup % 2 == 0 ? "cone dripper" : "flat-bed dripper");

        var effects = log.Build().MethodEffects(Factor.Brewer);
        var contrast = Assert.Single(effects.Contrasts);
        Assert.InRange(contrast.Answer.Low, 0.6, 0.95);
        Assert.InRange(contrast.Answer.High, 1.05, 1.4);
        Assert.Equal("1 coffee can't tell how coffees differ in what the brewer does: what is said holds for this one.", Assert.Single(effects.Cautions, c => c.Name == "these-coffees-only").Text);
        Assert.False(effects.ByCoffee().Support.IsSupported);
    }

    [Fact]
    public void An_attribute_has_its_own_differences_cups_and_margin()
    {
        var log = new TestLog();
        var random = new RandomStream(7);
        for (var coffee = 0; coffee < 15; coffee++)
        {
            for (var cup = 0; cup < 8; cup++)
            {
                var cone = cup % 2 == 0;
                var acidity = 7 + (cone ? 2 : 0) + (0.8 * random.NextNormal());
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + (0.3 * random.NextNormal()), t => t with
                {
                    Brewer = cone ? "cone dripper" : "flat-bed dripper",
                    Attributes = cup == 7 ? t.Attributes : new Dictionary<TastingAttribute, double> { [TastingAttribute.Acidity] = acidity },
                });
            }
        }

        var read = log.Build();
        var acid = read.MethodEffects(Factor.Brewer, TastingAttribute.Acidity);
        var contrast = Assert.Single(acid.Contrasts);
        Assert.Equal((Direction.Higher, Size.Matters, "cone dripper"), (contrast.Answer.Direction, contrast.Answer.Size, contrast.First));
        Assert.InRange(contrast.Answer.Estimate, 1.6, 2.4);
        Assert.Equal(0.9375, acid.Margin, 12);
        Assert.Equal(105, acid.Computation.CupsUsed);
        Assert.Contains(acid.Computation.LeftOut, left => left is { Reason: "without acidity", Cups: 15 });
        Assert.StartsWith("Cone dripper has", acid.Finding, StringComparison.Ordinal);
        Assert.Contains("higher acidity than flat-bed dripper", acid.Finding, StringComparison.Ordinal);
        Assert.Equal(Direction.Undecided, Assert.Single(read.MethodEffects(Factor.Brewer).Contrasts).Answer.Direction);
    }

    [Fact]
    public void A_recipe_brewed_with_one_roaster_alone_and_a_brewer_that_goes_with_a_water_are_said()
    {
        var log = new TestLog();
        var random = new RandomStream(13);
        for (var coffee = 0; coffee < 24; coffee++)
        {
            log.Bag($"C{coffee:00}", roaster: $"Roaster {coffee % 4}");
            for (var cup = 0; cup < 6; cup++)
            {
                var own = coffee % 4 == 0 && cup < 3;
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + (0.3 * random.NextNormal()), t => t with
                {
                    RecipeFrom = own ? "roaster" : "house",
                    Brewer = cup % 2 == 0 ? "cone dripper" : "flat-bed dripper",
                    Water = cup % 2 == 0 && (coffee, cup) != (1, 0) ? "soft" : "hard",
                });
            }
        }

        var recipe = log.Build().MethodEffects(Factor.RecipeFrom);
        Assert.Equal(
            "18 of 18 cups with roaster are of coffees with the roaster Roaster 0, of the other cups 18 of 126: what is said of roaster holds for these coffees, and is carried over to others on trust.",
            Assert.Single(recipe.Cautions, c => c.Name == "one-kind-only").Text);
        var brewer = log.Build().MethodEffects(Factor.Brewer);
        Assert.Contains(brewer.Cautions, c => c.Name == "goes-with-another" && c.Text.StartsWith("71 of 72 cups with cone dripper had the water soft, of the other cups 0 of 72", StringComparison.Ordinal));
        Assert.DoesNotContain(brewer.Cautions, c => c.Name == "one-kind-only");
    }

    [Theory]
    [InlineData(Direction.Higher, Size.Matters, "enough to matter")]
    [InlineData(Direction.Higher, Size.TooSmallToMatter, "real, but too small to matter (less than 0.50 points)")]
    [InlineData(Direction.Lower, Size.Undecided, "real; whether it is enough to matter (0.50 points) is undecided")]
    [InlineData(Direction.Undecided, Size.TooSmallToMatter, "no difference that matters: less than 0.50 points either way")]
    [InlineData(Direction.Undecided, Size.Undecided, "undecided, which is not the same as no difference")]
    public void Both_answers_are_told_apart_in_words(Direction direction, Size size, string words) =>
        Assert.Equal(words, MethodWords.Verdict(new MethodAnswer(0.3, 0.1, 0.5, 0.15, 0.45, direction, size), 0.5));

    private static TastingLog Year(Func<int, int, (string Brewer, bool Soft)> brewOf, Func<bool, bool, double> effect)
    {
        var log = new TestLog();
        var random = new RandomStream(3);
        for (var coffee = 0; coffee < 20; coffee++)
        {
            var quality = 0.5 * random.NextNormal();
            for (var cup = 0; cup < 10; cup++)
            {
                var (brewer, soft) = brewOf(coffee, cup);
                var score = 6 + quality + effect(brewer == "cone dripper", soft) + (0.3 * random.NextNormal());
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 2):00}", score, t => t with { Brewer = brewer, Water = soft ? "soft" : "hard" });
            }
        }

        return log.Build();
    }
}
