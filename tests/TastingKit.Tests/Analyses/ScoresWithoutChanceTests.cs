namespace TastingKit.Tests;

public sealed class ScoresWithoutChanceTests
{
    [Fact]
    public void A_log_whose_cups_of_a_coffee_all_score_the_same_is_answered_in_words()
    {
        var log = new TestLog();
        for (var coffee = 0; coffee < 8; coffee++)
        {
            log.Bag($"C{coffee}", process: coffee % 2 == 0 ? "washed" : "natural", country: coffee < 4 ? "Peru" : "Rwanda", roasted: new DateOnly(2025, 1, 1));
            for (var cup = 0; cup < 6; cup++)
                log.Cup($"C{coffee}", $"2025-02-{1 + (cup * 4):00}", 5 + (coffee * 0.5), cup % 2 == 0 ? "cone dripper" : "flat-bed dripper");
        }

        var year = log.Build();
        var favourites = year.Favourites();
        TastingResult[] results = [favourites, favourites.By(Factor.Process), favourites.By(Factor.Variety), year.MethodEffects(Factor.Brewer), year.RestCourse(), year.CalendarCourse()];
        Assert.All(results, result => Assert.NotEqual("", result.ToString()));
        Assert.False(favourites.Support.IsSupported);
        Assert.Contains("no chance is left over", favourites.Finding, StringComparison.Ordinal);
        Assert.False(year.RestCourse().Support.IsSupported);
    }
}
