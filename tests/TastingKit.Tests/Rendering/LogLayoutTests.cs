namespace TastingKit.Tests.Rendering;

public sealed class LogLayoutTests
{
    private static readonly LogProblem Rejected = new(Severity.Rejected, "no-bag", "tastings.csv", 7, "bag_id", "T7", "B9", "No such bag.", "a bag_id of bags.csv");
    private static readonly LogProblem Doubtful = new(Severity.Doubtful, "off-scale", "tastings.csv", 9, "score", null, "75", "Off its scale.", "1 to 9");
    private static readonly LogProblem Whole = new(Severity.Information, "no-ids", "tastings.csv", 0, "", null, "", "No identifiers.", "tasting_id");

    private static IReadOnlyList<string[]> Rows(ResultLayout layout) => CellText.Of(Assert.IsType<LayoutBlock.Table>(layout.Blocks[1]).Contents);

    [Fact]
    public void Every_report_has_its_row()
    {
        var layout = LogLayout.OfProblems([Rejected, Doubtful, Whole]);
        Assert.Equal(
            "3 reports: 1 on rows that were rejected, 1 on rows accepted with a doubt, 1 for information.",
            Assert.IsType<LayoutBlock.Lead>(layout.Blocks[0]).Text);
        Assert.Equal(
            [
                ["File", "Line", "Column", "Row was", "Found", "Why", "Expected"],
                ["tastings.csv", "7", "bag_id", "rejected", "B9", "No such bag.", "a bag_id of bags.csv"],
                ["tastings.csv", "9", "score", "doubtful", "75", "Off its scale.", "1 to 9"],
                ["tastings.csv", "all", "all", "accepted", "", "No identifiers.", "tasting_id"],
            ],
            Rows(layout));
    }

    [Fact]
    public void A_word_without_end_is_cut_and_said_to_be()
    {
        var found = Rows(LogLayout.OfProblems([Rejected with { Found = new string('x', 100_000) }]))[1][4];
        Assert.Equal(new string('x', 60) + "\u2026", found);
    }

    [Fact]
    public void A_sound_log_is_said_to_be_sound() =>
        Assert.Equal("Every row was read whole; there is nothing to report.\n", TextRenderer.Render(LogLayout.OfProblems([])));

    [Fact]
    public void A_log_shows_how_its_rows_were_accounted_for()
    {
        var log = new TastingLog(new LogContents
        {
            Name = "my-year",
            Bags = [],
            Tastings = [],
            Accounts = [new RowAccount("tastings.csv", 10, 8, 3, 2)],
            Problems = [Rejected],
        });
        var layout = LogLayout.Of(log);
        Assert.Equal("my-year: no cup was accepted; 0 bags.", Assert.IsType<LayoutBlock.Lead>(layout.Blocks[0]).Text);
        Assert.Equal(["tastings.csv", "10", "8", "3", "2"], Rows(layout)[1]);
        Assert.Contains("No such bag.", TextRenderer.Render(layout), StringComparison.Ordinal);
    }
}
