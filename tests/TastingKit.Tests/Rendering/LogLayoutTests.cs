namespace TastingKit.Tests.Rendering;

public sealed class LogLayoutTests
{
    private static readonly LogProblem Rejected = new(Severity.Rejected, "no-bag", "tastings.csv", 7, "bag_id", "T7", "B9", "No such bag.", "a bag_id of bags.csv");
    private static readonly LogProblem Doubtful = new(Severity.Doubtful, "off-scale", "tastings.csv", 9, "score", null, "75", "Off its scale.", "1 to 9");
    private static readonly LogProblem Whole = new(Severity.Information, "no-ids", "tastings.csv", 0, "", null, "", "No identifiers.", "tasting_id");

    private static IReadOnlyList<string[]> Rows(LayoutBlock block) => CellText.Of(Assert.IsType<LayoutBlock.Table>(block).Contents);

    private static IReadOnlyList<string[]> RowByRow(ResultLayout layout) => Rows(Assert.Single(Assert.IsType<LayoutBlock.Folded>(layout.Blocks[^1]).Blocks));

    [Fact]
    public void Every_report_has_its_row()
    {
        var layout = LogLayout.OfProblems([Rejected, Doubtful, Whole]);
        Assert.Equal(
            "3 reports: 1 on rows that were rejected, 1 on rows accepted with a doubt, 1 for information.",
            Assert.IsType<LayoutBlock.Lead>(layout.Blocks[0]).Text);
        Assert.Equal(
            [
                ["File", "Line", "Column", "Row was", "Rule", "Found", "Why", "Expected"],
                ["tastings.csv", "7", "bag_id", "rejected", "no-bag", "B9", "No such bag.", "a bag_id of bags.csv"],
                ["tastings.csv", "9", "score", "doubtful", "off-scale", "75", "Off its scale.", "1 to 9"],
                ["tastings.csv", "all", "all", "accepted", "no-ids", "", "No identifiers.", "tasting_id"],
            ],
            RowByRow(layout));
    }

    [Fact]
    public void Rules_come_by_what_they_cost_then_by_how_often_with_their_first_lines()
    {
        var layout = LogLayout.OfProblems(
            [Whole, Whole, Whole, Whole, Whole, Doubtful, Rejected with { Rule = "unknown-bag" }, Rejected with { Rule = "unknown-bag", Line = 8 }, Rejected with { Rule = "unknown-bag", Line = 12, File = "verdicts.csv" }, Rejected with { Rule = "unknown-bag", Line = 13 }, Rejected]);
        Assert.Equal(
            [
                ["Row was", "Rule", "Reports", "First lines", "First found", "What to do"],
                ["rejected", "unknown-bag", "4", "tastings.csv 7, 8; verdicts.csv 12, \u2026", "bag_id 'B9'", "Write it as bags.csv does, or add the bag."],
                ["rejected", "no-bag", "1", "tastings.csv 7", "bag_id 'B9'", "a bag_id of bags.csv"],
                ["doubtful", "off-scale", "1", "tastings.csv 9", "score '75'", "1 to 9"],
                ["accepted", "no-ids", "5", "tastings.csv, \u2026", "", "tasting_id"],
            ],
            Rows(layout.Blocks[1]));
    }

    [Fact]
    public void A_word_without_end_is_cut_and_said_to_be()
    {
        var layout = LogLayout.OfProblems([Rejected with { Found = new string('x', 100_000) }]);
        Assert.Equal(new string('x', 60) + "\u2026", RowByRow(layout)[1][5]);
        Assert.Equal($"bag_id '{new string('x', 24)}\u2026'", Rows(layout.Blocks[1])[1][4]);
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
            Confirmed = [new ConfirmedDoubt(Doubtful, null), new ConfirmedDoubt(Doubtful with { Line = 10 }, "seen")],
        });
        var layout = LogLayout.Of(log);
        Assert.Equal("my-year: no cup was accepted; 0 bags.", Assert.IsType<LayoutBlock.Lead>(layout.Blocks[0]).Text);
        Assert.Equal(["tastings.csv", "10", "8", "3", "2"], Rows(layout.Blocks[1])[1]);
        Assert.Equal("2 doubts confirmed by accepted.csv and not raised: 2 off-scale.", Assert.IsType<LayoutBlock.Paragraph>(layout.Blocks[2]).Text);
        Assert.Contains("No such bag.", TextRenderer.Render(layout), StringComparison.Ordinal);
        Assert.DoesNotContain("No such bag.", TextRenderer.Render(LogLayout.Summary(log)), StringComparison.Ordinal);
    }
}
