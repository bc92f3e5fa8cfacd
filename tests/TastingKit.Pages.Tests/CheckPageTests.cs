namespace TastingKit.Pages.Tests;

public sealed class CheckPageTests
{
    private static TastingLog Log(params LogProblem[] problems) => new(new LogContents
    {
        Name = "<year>",
        Bags = [],
        Tastings = [],
        Problems = problems,
        Accounts = [new RowAccount("tastings.csv", 20, 20 - problems.Count(problem => problem.Severity == Severity.Rejected), problems.Count(problem => problem.Severity == Severity.Doubtful), problems.Count(problem => problem.Severity == Severity.Rejected))],
    });

    private static LogProblem Problem(Severity severity, int line) => new(severity, "unknown-bag", "tastings.csv", line, "bag_id", null, "<script>B9", "No such bag.", "a bag");

    [Fact]
    public void The_title_says_what_became_of_the_rows_and_every_report_stands_open()
    {
        var page = CheckPage.Write(Log([.. Enumerable.Range(2, 13).Select(line => Problem(Severity.Rejected, line)), Problem(Severity.Doubtful, 19)]));
        Assert.Contains("<h1>&lt;year&gt;: 13 of 20 rows rejected, 1 more doubtful</h1>", page, StringComparison.Ordinal);
        Assert.Equal(13 + 1, page.Split("<td>No such bag.</td>").Length - 1);
        Assert.DoesNotContain("<details", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>B9", page, StringComparison.Ordinal);
        Assert.Contains(TableScript.Html, page, StringComparison.Ordinal);
    }

    [Fact]
    public void A_sound_log_is_said_to_be_sound()
    {
        var page = CheckPage.Write(Log());
        Assert.Contains(": all 20 rows accepted without a doubt</h1>", page, StringComparison.Ordinal);
        Assert.DoesNotContain("<script>", page, StringComparison.Ordinal);
        Assert.Contains(": all 20 rows accepted, 1 of them doubtful</h1>", CheckPage.Write(Log(Problem(Severity.Doubtful, 3))), StringComparison.Ordinal);
    }
}
