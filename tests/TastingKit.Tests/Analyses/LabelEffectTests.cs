using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Logs in which it is known what seeing a label does: what is told of it, from which cups, and what must never enter.</summary>
public sealed class LabelEffectTests
{
    private static readonly DateOnly First = new(2025, 1, 6);

    [Fact]
    public void The_effect_and_what_a_place_does_are_those_that_made_the_log()
    {
        var effect = Year(labelEffect: 0.5, placeEffect: -0.3).LabelEffect();
        Assert.Equal(40, effect.Pairs.Count);
        Near(0.5, effect.Average, 0.12);
        Near(-0.3, effect.Order, 0.12);
        Assert.StartsWith("Seeing the label raised the score of the same brew: +0.", effect.Finding, StringComparison.Ordinal);
        Assert.Contains("40 pairs of 20 coffees, 10 roasters", effect.Finding, StringComparison.Ordinal);
        Assert.DoesNotContain(effect.Cautions, c => c.Name is "order-not-mixed" or "few-roasters" or "order-not-logged" or "code-hides-little");
    }

    [Fact]
    public void Without_an_effect_none_is_told_and_no_premium()
    {
        var effect = Year().LabelEffect();
        Assert.StartsWith("No effect of seeing the label on the score can be told: ", effect.Finding, StringComparison.Ordinal);
        Assert.DoesNotContain(effect.Premiums, premium => premium.IsTold);
    }

    [Fact]
    public void A_premium_by_price_is_told_by_price_with_its_size()
    {
        var effect = Year(perPrice: 0.4).LabelEffect();
        var price = effect.Premiums.Single(premium => premium.What == "the price");
        Near(0.4, price.Answer, 0.1);
        Assert.True(price.IsTold);
        Assert.True(price.AdjustedP >= price.P);
        Assert.Contains(effect.Summary, s => s.StartsWith("The effect goes with the price: +0.", StringComparison.Ordinal) && s.Contains("per EUR a 100 g", StringComparison.Ordinal));
    }

    [Fact]
    public void A_reputation_is_made_of_the_roasters_other_coffees_and_of_no_cup_of_a_pair()
    {
        var log = Year(labelEffect: 0.5);
        var pair = log.LabelEffect().Pairs[0];
        var expected = log.Tastings.Where(cup => cup.BlindTo == BlindTo.Nothing && cup.Position is null
                && cup.Bag.Coffee.Roaster == pair.Bag.Coffee.Roaster && cup.Bag.Coffee.Id != pair.Bag.Coffee.Id)
            .GroupBy(cup => cup.Bag.Coffee.Id).Select(coffee => coffee.Average(cup => cup.Score!.Value)).ToArray();
        Assert.Equal(3, expected.Length);
        Assert.Equal(expected.Average(), pair.Reputation!.Value, 10);
    }

    [Fact]
    public void The_premium_goes_with_reputation_where_it_was_made_so()
    {
        var effect = Year(perReputation: 0.6).LabelEffect();
        var reputation = effect.Premiums.Single(premium => premium.What.EndsWith("reputation", StringComparison.Ordinal));
        var one = Assert.IsType<PartAnswer.Estimated>(reputation.Answer);
        Assert.True(reputation.IsTold && one.Estimate > 0, reputation.ToString());
    }

    [Fact]
    public void Cups_outside_pairs_do_not_enter_and_are_told_apart_with_a_word_of_warning()
    {
        var log = Year(labelEffect: 0.3);
        // Coded cups of other bags, chosen because they were poor.
        var poor = new TestLog();
        for (var cup = 0; cup < 20; cup++)
            poor.Cup($"P{cup}", First.AddDays(10 * cup).ToString("yyyy-MM-dd", null), 3 + (0.1 * (cup % 5)), t => t with { BlindTo = BlindTo.Label });
        var more = poor.Build();
        var both = new TastingLog(new LogContents { Name = "both", Bags = [.. log.Bags, .. more.Bags], Tastings = [.. log.Tastings, .. more.Tastings.Select(t => t with { Id = $"P{t.Id}" })] });
        var (alone, with) = (log.LabelEffect(), both.LabelEffect());
        Assert.Equal(alone.Average, with.Average);
        var outside = Assert.IsType<PartAnswer.Estimated>(with.OutsidePairs);
        Assert.True(outside.Estimate > 1, outside.ToString());
        Assert.Contains(with.Summary, s => s.Contains("chosen and not drawn by lot, so this is weaker, and is no part of the figures above", StringComparison.Ordinal));
        Assert.IsType<PartAnswer.Refused>(alone.OutsidePairs);
    }

    [Theory]
    [InlineData("day")]
    [InlineData("brewer")]
    [InlineData("sitting")]
    [InlineData("recipe")]
    public void Cups_that_differ_otherwise_are_no_pair(string differs)
    {
        var log = Year();
        var changed = log.Tastings.Select(cup => cup.BlindTo == BlindTo.Nothing ? cup : differs switch
        {
            "day" => cup with { TastedAt = cup.TastedAt.AddDays(1) },
            "brewer" => cup with { Brewer = "flat-bed dripper" },
            "sitting" => cup with { Session = cup.Session + " afternoon" },
            _ => cup with { RecipeFrom = "roaster" },
        });
        var effect = new TastingLog(new LogContents { Name = "changed", Bags = log.Bags, Tastings = [.. changed] }).LabelEffect();
        Assert.Empty(effect.Pairs);
        Assert.False(effect.Support.IsSupported);
        Assert.Contains("0 pairs of a coded cup and one whose label was seen are of one bag, brewed alike, at one sitting, where 8 are the fewest", effect.Finding, StringComparison.Ordinal);
        Assert.Contains("someone else codes one cup (blind_to label)", effect.Summary[1], StringComparison.Ordinal);
        Assert.Empty(effect.Table.Rows);
    }

    [Fact]
    public void An_order_that_was_not_mixed_is_cautioned_and_not_told()
    {
        var log = Year(labelEffect: 0.5, seenAlwaysFirst: true);
        var effect = log.LabelEffect();
        Assert.IsType<PartAnswer.Refused>(effect.Order);
        Assert.Contains(effect.Cautions, c => c.Name == "order-not-mixed" && c.Text.Contains("came first in 40 of 40 pairs", StringComparison.Ordinal));
        var unknown = new TastingLog(new LogContents { Name = "unknown", Bags = log.Bags, Tastings = [.. log.Tastings.Select(cup => cup with { Position = null })] }).LabelEffect();
        Assert.Contains(unknown.Cautions, c => c.Name == "order-not-logged");
    }

    [Fact]
    public void Pairs_of_one_roaster_and_of_lone_bags_are_cautioned()
    {
        var log = Year(labelEffect: 0.5, roasters: 1, isAlone: true);
        var effect = log.LabelEffect();
        Assert.Contains(effect.Cautions, c => c.Name == "few-roasters" && c.Text.Contains("The pairs are of 1 roaster", StringComparison.Ordinal));
        Assert.Contains(effect.Cautions, c => c.Name == "code-hides-little");
    }

    private static void Near(double truth, PartAnswer answer, double within)
    {
        var one = Assert.IsType<PartAnswer.Estimated>(answer);
        Assert.InRange(one.Estimate, truth - within, truth + within);
        Assert.InRange(truth, one.Low, one.High);
    }

    /// <summary>Forty pairs of twenty of forty coffees, two at a sitting, with four sighted cups of each coffee beside.</summary>
    private static TastingLog Year(
        double labelEffect = 0, double placeEffect = 0, double perPrice = 0, double perReputation = 0, bool seenAlwaysFirst = false, int roasters = 10, bool isAlone = false)
    {
        var random = new RandomStream(8);
        var cups = new List<Tasting>();
        var bags = new List<Bag>();
        double[] standing = [.. Enumerable.Range(0, roasters).Select(_ => 0.8 * random.NextNormal())];
        for (var i = 0; i < 40; i++)
        {
            var roaster = i % roasters;
            var price = 4 + (i * 7 % 10 / 2.0);
            bags.Add(new Bag
            {
                Id = $"B{i:00}",
                Price = (decimal)(2.5 * price),
                Currency = "EUR",
                NetWeightGrams = 250,
                Obtained = i % 3 == 0 ? "gift" : "bought",
                Coffee = new Coffee { Id = $"B{i:00}", Name = $"Coffee {i}", Roaster = $"Roaster {roaster}", Countries = [i % 2 == 0 ? "Peru" : "Rwanda"] },
            });
            var quality = standing[roaster] + (0.2 * random.NextNormal());
            for (var cup = 0; cup < 4; cup++)
                Add(bags[i], First.AddDays((8 * i) + (2 * cup)), null, BlindTo.Nothing, 6 + quality + (0.2 * random.NextNormal()), "");
            if (i >= 20)
                continue;
            for (var pair = 0; pair < 2; pair++)
            {
                var day = First.AddDays((16 * (i - (isAlone ? 0 : i % 2))) + (7 * pair) + 1);
                var first = seenAlwaysFirst || (i + pair) % 2 == 0;
                var seen = labelEffect + (perPrice * (price - 6)) + (perReputation * standing[roaster]);
                foreach (var isSeen in new[] { first, !first })
                {
                    var place = (isSeen == first ? 1 : 2) + (isAlone ? 0 : 2 * (i % 2));
                    Add(bags[i], day, place, isSeen ? BlindTo.Nothing : BlindTo.Label, 6 + quality + (isSeen ? seen : 0) + (placeEffect * place) + (0.2 * random.NextNormal()), "pairs");
                }
            }
        }

        return new TastingLog(new LogContents { Name = "labels", Bags = bags, Tastings = [.. cups.OrderBy(cup => cup.TastedAt)] });

        void Add(Bag bag, DateOnly day, int? place, BlindTo blindTo, double score, string sitting) => cups.Add(new Tasting
        {
            Id = $"T{cups.Count:000}",
            Bag = bag,
            TastedAt = day.ToDateTime(TimeOnly.MinValue),
            Session = $"{day:yyyy-MM-dd} {sitting}",
            Position = place,
            BlindTo = blindTo,
            Brewer = "cone dripper",
            RecipeFrom = "house",
            Purpose = Purpose.Verdict,
            Score = score,
        });
    }
}
