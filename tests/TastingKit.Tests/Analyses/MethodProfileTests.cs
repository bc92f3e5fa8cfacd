using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class MethodProfileTests
{
    private static readonly TastingAttribute[] Seven = [.. TastingAttribute.Defaults];

    [Fact]
    public void The_attributes_that_differ_are_selected_and_their_intervals_widened()
    {
        var profile = Log(1, attribute => attribute.Equals(TastingAttribute.Body) ? 2 : attribute.Equals(TastingAttribute.Clarity) ? -1.5 : 0).MethodProfile(Factor.Brewer);

        Assert.Equal(["body", "clarity"], profile.Selected.Select(e => e.Attribute.Name).Order());
        Assert.Equal(1 - (0.05 * 2 / 7), profile.Level, 12);
        var body = profile.Selected.Single(e => e.Attribute.Equals(TastingAttribute.Body));
        Assert.Equal(("cone dripper", Direction.Higher), (body.Contrasts[0].First, body.Contrasts[0].Answer.Direction));
        Assert.Equal("flat-bed dripper", profile.Selected.Single(e => e.Attribute.Equals(TastingAttribute.Clarity)).Contrasts[0].First);
        var alone = Assert.Single(Log(1, attribute => attribute.Equals(TastingAttribute.Body) ? 2 : 0).MethodEffects(Factor.Brewer, TastingAttribute.Body).Contrasts);
        Assert.True(body.Contrasts[0].Answer.High - body.Contrasts[0].Answer.Low > 1.1 * (alone.Answer.High - alone.Answer.Low));
        Assert.StartsWith("The brewer makes a difference in 2 of 7 attributes: ", profile.Finding, StringComparison.Ordinal);
        Assert.Contains("which is not the same as being alike: ", string.Join(' ', profile.Summary), StringComparison.Ordinal);
        Assert.Equal(7, profile.Table.Rows.Count);
    }

    [Fact]
    public void Of_logs_in_which_nothing_differs_few_claim_anything()
    {
        const int Logs = 60;
        var claimed = Enumerable.Range(0, Logs).Count(seed => Log((ulong)(100 + seed), _ => 0).MethodProfile(Factor.Brewer).Selected.Any());

        // With nothing true a discovery is a false one: 5 % of 60 logs is 3, and more than 9 come by chance in one run of a thousand.
        Assert.InRange(claimed, 0, 9);
    }

    [Fact]
    public void Without_attributes_there_is_no_answer()
    {
        var profile = FurtherCupsTests.Log(4, 4, 0, 1).MethodProfile(Factor.Brewer);
        Assert.False(profile.Support.IsSupported);
        Assert.StartsWith("No cup has a value for any attribute", profile.Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => FurtherCupsTests.Log(4, 4, 0, 1).MethodProfile(Factor.Process));
    }

    [Fact]
    public void Coffees_that_differ_in_what_the_brewer_does_are_told_and_drawn_to_the_average()
    {
        var log = FurtherCupsTests.Log(24, 10, 0.3, 4, ofCoffee: 0.8);
        var effects = log.MethodEffects(Factor.Brewer);
        var deviations = effects.ByCoffee("cone dripper", "flat-bed dripper");

        Assert.Equal(24, deviations.Deviations.Count);
        Assert.InRange(deviations.Spread!.Estimate, 0.5, 1.2);
        Assert.Contains(deviations.Deviations, d => d.Answer.Size == Size.Matters);
        var raw = log.Tastings.GroupBy(t => t.Bag.Coffee.Label).ToDictionary(
            g => g.Key, g => g.Where(t => t.Brewer == "cone dripper").Average(t => t.Score!.Value) - g.Where(t => t.Brewer != "cone dripper").Average(t => t.Score!.Value));
        var (top, bottom) = (deviations.Deviations[0], deviations.Deviations[^1]);
        Assert.True(top.Answer.Estimate < raw[top.Level] && bottom.Answer.Estimate > raw[bottom.Level]);
        Assert.True(top.Answer.Estimate - bottom.Answer.Estimate > 0.6 * (raw[top.Level] - raw[bottom.Level]));
        Assert.Equal((5, 5, 1), (top.FirstCups, top.SecondCups, top.Coffees));

        var turned = effects.ByCoffee("flat-bed dripper", "cone dripper");
        Assert.Equal(-top.Answer.Estimate, turned.Deviations[^1].Answer.Estimate, 9);
        Assert.Throws<ArgumentException>(() => effects.ByCoffee("cone dripper", "siphon"));
        Assert.False(effects.ByProcess().Support.IsSupported);
    }

    [Fact]
    public void Processes_that_differ_in_what_the_brewer_does_are_told_apart()
    {
        var log = new TestLog();
        var random = new RandomStream(8);
        string[] processes = ["washed", "natural", "honey"];
        for (var coffee = 0; coffee < 24; coffee++)
        {
            log.Bag($"C{coffee:00}", process: processes[coffee % 3]);
            for (var cup = 0; cup < 8; cup++)
            {
                var cone = cup % 2 == 0;
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6 + (cone && coffee % 3 == 1 ? 1.2 : 0) + (0.3 * random.NextNormal()), cone ? "cone dripper" : "flat-bed dripper");
            }
        }

        var effects = log.Build().MethodEffects(Factor.Brewer);
        var by = effects.ByProcess().Deviations.ToDictionary(d => d.Level);
        Assert.Equal(3, by.Count);
        Assert.Equal(Size.Matters, by["natural"].Answer.Size);
        Assert.Equal("cone dripper", by["natural"].First);
        Assert.Equal(Size.TooSmallToMatter, by["washed"].Answer.Size);
        Assert.Equal(8, by["honey"].Coffees);
    }

    private static TastingLog Log(ulong seed, Func<TastingAttribute, double> effect)
    {
        var log = new TestLog();
        var random = new RandomStream(seed);
        for (var coffee = 0; coffee < 10; coffee++)
        {
            var quality = Seven.ToDictionary(a => a, _ => random.NextNormal());
            for (var cup = 0; cup < 6; cup++)
            {
                var cone = cup % 2 == 0;
                var values = Seven.ToDictionary(a => a, a => 7 + quality[a] + (cone ? effect(a) : 0) + random.NextNormal());
                log.Cup($"C{coffee:00}", $"2025-03-{1 + cup:00}", 6, t => t with { Brewer = cone ? "cone dripper" : "flat-bed dripper", Attributes = values });
            }
        }

        return log.Build();
    }
}
