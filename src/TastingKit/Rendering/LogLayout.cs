namespace TastingKit;

/// <summary>Lays out what was read: how each file's rows were accounted for, and every report.</summary>
public static class LogLayout
{
    /// <summary>Longest text of a cell that is quoted whole; more is cut and said to be.</summary>
    private const int QuotedLength = 60;

    /// <summary>A log in one sentence, and how the rows of each file were accounted for.</summary>
    public static ResultLayout Of(TastingLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        var blocks = new List<LayoutBlock> { new LayoutBlock.Lead(Sentence(log)) };
        if (log.Accounts.Count > 0)
            blocks.Add(new LayoutBlock.Table(Accounts(log.Accounts)));
        if (log.Problems.Count > 0)
            blocks.Add(new LayoutBlock.Folded("Row by row", OfProblems(log.Problems).Blocks));
        return new ResultLayout(blocks);
    }

    /// <summary>Every report as a row: where, what became of the row, what was found, why, and what would be accepted.</summary>
    public static ResultLayout OfProblems(IReadOnlyList<LogProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        if (problems.Count == 0)
            return new ResultLayout([new LayoutBlock.Lead("Every row was read whole; there is nothing to report.")]);
        return new ResultLayout([new LayoutBlock.Lead(Sentence(problems)), new LayoutBlock.Table(Reports(problems))]);
    }

    private static string Sentence(TastingLog log)
    {
        if (log.Tastings.Count == 0)
            return $"{log.Name}: no cup was accepted; {NumberText.Count(log.Bags.Count, "bag")}.";
        var first = log.Tastings[0].TastedAt;
        var last = log.Tastings[^1].TastedAt;
        return $"{log.Name}: {NumberText.Count(log.Tastings.Count, "cup")} of {NumberText.Count(log.Bags.Count, "bag")} " +
            $"({NumberText.Count(log.Coffees.Count, "coffee")}), {first:yyyy-MM-dd} to {last:yyyy-MM-dd}.";
    }

    private static string Sentence(IReadOnlyList<LogProblem> problems)
    {
        var rejected = problems.Count(problem => problem.Severity == Severity.Rejected);
        var doubtful = problems.Count(problem => problem.Severity == Severity.Doubtful);
        return $"{NumberText.Count(problems.Count, "report")}: {rejected} on rows that were rejected, {doubtful} on rows accepted with a doubt, " +
            $"{problems.Count - rejected - doubtful} for information.";
    }

    private static ResultTable Accounts(IReadOnlyList<RowAccount> accounts) => new(
        "Rows of each file",
        [
            new("file", "File", ColumnKind.Text),
            new("rows", "Rows", ColumnKind.Count),
            new("accepted", "Accepted", ColumnKind.Count),
            new("doubtful", "Of these doubtful", ColumnKind.Count),
            new("rejected", "Rejected", ColumnKind.Count),
        ],
        [.. accounts.Select(account => (IReadOnlyList<TableCell>)
            [Text(account.File), new TableCell.Count(account.Rows), new TableCell.Count(account.Accepted), new TableCell.Count(account.Doubtful), new TableCell.Count(account.Rejected)])]);

    private static ResultTable Reports(IReadOnlyList<LogProblem> problems) => new(
        "Reports",
        [
            new("file", "File", ColumnKind.Text),
            new("line", "Line", ColumnKind.Count),
            new("column", "Column", ColumnKind.Text),
            new("row", "Row was", ColumnKind.Text),
            new("found", "Found", ColumnKind.Text),
            new("why", "Why", ColumnKind.Text),
            new("expected", "Expected", ColumnKind.Text),
        ],
        [.. problems.Select(Report)]);

    private static TableCell[] Report(LogProblem problem) =>
    [
        Text(problem.File),
        problem.Line > 0 ? new TableCell.Count(problem.Line) : new TableCell.Missing("all"),
        problem.Column.Length > 0 ? Text(problem.Column) : new TableCell.Missing("all"),
        Text(problem.Severity switch { Severity.Rejected => "rejected", Severity.Doubtful => "doubtful", _ => "accepted" }),
        Text(Quoted(problem.Found)),
        Text(problem.Why),
        Text(problem.Expected),
    ];

    private static string Quoted(string found) => found.Length <= QuotedLength
        ? found
        : string.Concat(found.AsSpan(0, char.IsHighSurrogate(found[QuotedLength - 1]) ? QuotedLength - 1 : QuotedLength), "\u2026");

    private static TableCell.Text Text(string value) => new(value);
}
