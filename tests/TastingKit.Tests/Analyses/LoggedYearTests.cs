namespace TastingKit.Tests;

public sealed class LoggedYearTests
{
    [Fact]
    public void Counts_are_those_of_the_log()
    {
        var logged = new TestLog()
            .Bag("A", country: "Peru", roaster: "One").Bag("B", country: "Peru", roaster: "Two", coffee: "K").Bag("C", country: "Yemen", roaster: "Two", coffee: "K")
            .Bag("never brewed")
            .Cup("A", "2025-01-03", 6).Cup("B", "2025-03-03", null).Cup("C", "2025-03-04", 7, failed: true).Cup("C", "2025-03-05", 7)
            .Build().Logged();

        Assert.Equal((3, 2, 4, 2, 1), (logged.Bags, logged.Coffees, logged.Cups, logged.Roasters, logged.Countries));
        Assert.Equal(
            [new MonthCounts(new(2025, 1, 1), 1, 0, 1), new MonthCounts(new(2025, 2, 1), 0, 0, 0), new MonthCounts(new(2025, 3, 1), 1, 2, 2)],
            logged.Months);
    }

    [Fact]
    public void Constancy_is_the_share_of_the_coffees_other_cups_that_have_the_note_again()
    {
        var log = new TestLog();
        foreach (var bag in new[] { "A", "B", "C" })
        {
            // plum in every cup; lemon in two of three, so found again in one of the two others; smoke once in each.
            log.Cup(bag, "2025-01-03", 6, notes: ["plum", "Lemon"]).Cup(bag, "2025-01-05", 6, notes: ["plum", "lemon"]).Cup(bag, "2025-01-07", 6, notes: ["plum", "smoke"]);
        }

        var notes = log.Build().Logged().Notes;
        Assert.Equal(["plum", "lemon", "smoke"], notes.Select(n => n.Note));
        Assert.Equal([1.0, 0.5, 0.0], notes.Select(n => n.Constancy));
        Assert.Equal([9, 6, 3], notes.Select(n => n.Cups));
        Assert.All(notes, n => Assert.Equal(3, n.Coffees));
        Assert.All(notes, n => Assert.True(n.Low <= n.Constancy && n.Constancy <= n.High && n.High - n.Low > 0.2, "three coffees can't fix a share so firmly"));
    }

    [Fact]
    public void A_note_in_fewer_than_three_coffees_and_a_coffee_with_one_cup_say_nothing_of_constancy()
    {
        var logged = new TestLog()
            .Cup("A", "2025-01-03", 6, notes: "plum").Cup("A", "2025-01-04", 6, notes: "plum")
            .Cup("B", "2025-01-03", 6, notes: "plum").Cup("B", "2025-01-04", 6, notes: "plum")
            .Cup("C", "2025-01-03", 6, notes: "plum")
            .Build().Logged();

        Assert.Empty(logged.Notes);
        Assert.Contains(logged.Summary, s => s.Contains("nothing can be said of constancy", StringComparison.Ordinal));
    }
}
