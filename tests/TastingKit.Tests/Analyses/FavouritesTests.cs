using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class FavouritesTests
{
    [Fact]
    public void A_coffee_planted_far_above_the_rest_is_the_favourite_and_its_estimate_is_drawn_in()
    {
        var favourites = TwelveCoffees(bonus: 1.5).Favourites();

        var first = favourites.Coffees[0];
        Assert.Equal("C07", first.Coffee.Id);
        Assert.Equal(1, first.Rank);
        Assert.True(first.BestProbability > 0.95);
        Assert.True(first.Low < first.Estimate && first.Estimate < first.High);
        var overall = favourites.Coffees.Average(c => c.PlainMean);
        Assert.InRange(first.Estimate, overall + 0.5, first.PlainMean);
        Assert.StartsWith("Coffee C07 is the favourite: the best of 12 coffees", favourites.Finding, StringComparison.Ordinal);
    }

    [Fact]
    public void Probabilities_of_the_top_sum_to_its_size_and_those_of_the_best_to_one()
    {
        var favourites = TwelveCoffees(bonus: 0.3).Favourites();

        Assert.Equal(4, favourites.TopCount);
        Assert.Equal(4, favourites.Coffees.Sum(c => c.TopProbability), 9);
        Assert.Equal(1, favourites.Coffees.Sum(c => c.BestProbability), 9);
        Assert.Equal(Enumerable.Range(1, 12), favourites.Coffees.Select(c => c.Rank));
        Assert.All(favourites.Coffees, c => Assert.InRange(c.Rank, c.RankLow - 2, c.RankHigh + 2));
    }

    [Fact]
    public void A_coffee_is_not_judged_by_the_brewer_it_happened_to_get()
    {
        // Every coffee is the same; those with an even number were brewed mostly on a brewer that costs a point.
        var log = new TestLog();
        var random = new RandomStream(5);
        for (var coffee = 0; coffee < 12; coffee++)
        {
            for (var cup = 0; cup < 6; cup++)
            {
                var poor = coffee % 2 == 0 ? cup < 5 : cup < 1;
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 4):00}", 7 - (poor ? 1 : 0) + (0.25 * random.NextNormal()), poor ? "steep-and-release" : "cone dripper");
            }
        }

        var coffees = log.Build().Favourites().Coffees;
        double Gap(Func<Favourite, double> of) => coffees.Where(c => Number(c) % 2 == 1).Average(of) - coffees.Where(c => Number(c) % 2 == 0).Average(of);
        Assert.True(Gap(c => c.PlainMean) > 0.5);
        Assert.InRange(Gap(c => c.Estimate), -0.15, 0.15);

        static int Number(Favourite c) => int.Parse(c.Coffee.Id[1..], null);
    }

    [Fact]
    public void Kinds_are_ranked_from_the_same_model_with_their_counts()
    {
        var log = new TestLog();
        var random = new RandomStream(6);
        for (var coffee = 0; coffee < 24; coffee++)
        {
            var process = (coffee % 3) switch { 0 => "washed", 1 => "natural", _ => "honey" };
            log.Bag($"C{coffee:00}", process: process, country: coffee % 2 == 0 ? "Peru" : "Rwanda");
            for (var cup = 0; cup < 4; cup++)
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 5):00}", 6 + (process == "natural" ? 1.2 : 0) + (0.3 * random.NextNormal()));
        }

        var favourites = log.Build().Favourites();
        var byProcess = favourites.By(Factor.Process);
        Assert.Equal("natural", byProcess.Groups[0].Level);
        Assert.True(byProcess.Groups[0].BestProbability > 0.9);
        Assert.InRange(byProcess.Groups[0].Estimate - byProcess.Groups[1].Estimate, 0.7, 1.4);
        Assert.All(byProcess.Groups, g => Assert.Equal((32, 8), (g.Cups, g.Coffees)));
        Assert.Equal(1, byProcess.Groups.Sum(g => g.BestProbability), 9);
        Assert.False(favourites.By(Factor.Roaster).Support.IsSupported);
        Assert.Throws<ArgumentException>(() => favourites.By(Factor.Brewer));
    }

    [Fact]
    public void One_cup_a_coffee_ranks_no_coffee_but_still_its_kinds()
    {
        var log = new TestLog();
        var random = new RandomStream(7);
        for (var coffee = 0; coffee < 40; coffee++)
        {
            log.Bag($"C{coffee:00}", country: coffee % 2 == 0 ? "Peru" : "Rwanda");
            log.Cup($"C{coffee:00}", $"2025-03-{1 + (coffee % 28):00}", 6 + (coffee % 2) + (0.3 * random.NextNormal()));
        }

        var favourites = log.Build().Favourites();
        Assert.False(favourites.Support.IsSupported);
        Assert.Empty(favourites.Coffees);
        Assert.Contains("can't be told from a lucky cup", favourites.Finding, StringComparison.Ordinal);
        var byCountry = favourites.By(Factor.Country);
        Assert.Equal("Rwanda", byCountry.Groups[0].Level);
        Assert.Equal([20, 20], byCountry.Groups.Select(g => g.Cups));
    }

    [Fact]
    public void The_same_seed_gives_the_same_figures_and_another_nearly_so()
    {
        var log = TwelveCoffees(bonus: 0.5);
        var once = log.Favourites();
        var again = log.Favourites();
        var other = log.Favourites(seed: 99);
        Assert.Equal(once.Coffees, again.Coffees);
        Assert.NotEqual(once.Coffees, other.Coffees);
        foreach (var coffee in once.Coffees)
        {
            var same = other.Coffees.Single(c => c.Coffee.Id == coffee.Coffee.Id);
            Assert.InRange(same.Estimate, coffee.Estimate - 0.05, coffee.Estimate + 0.05);
        }
    }

    [Fact]
    public void A_log_with_nothing_to_compare_says_so()
    {
        var favourites = new TestLog().Cup("A", "2025-01-01", 6).Build().Favourites();
        Assert.False(favourites.Support.IsSupported);
        Assert.Contains("too few to name a favourite", favourites.Finding, StringComparison.Ordinal);
        Assert.False(favourites.By(Factor.Country).Support.IsSupported);
    }

    private static TastingLog TwelveCoffees(double bonus)
    {
        var log = new TestLog();
        var random = new RandomStream(4);
        for (var coffee = 0; coffee < 12; coffee++)
        {
            var quality = (0.3 * random.NextNormal()) + (coffee == 7 ? bonus : 0);
            for (var cup = 0; cup < 5; cup++)
                log.Cup($"C{coffee:00}", $"2025-03-{1 + (cup * 4):00}", 6 + quality + (0.4 * random.NextNormal()), cup % 2 == 0 ? "cone dripper" : "flat-bed dripper");
        }

        return log.Build();
    }
}
