namespace TastingKit;

/// <summary>Lays out what was read: how each file's rows were accounted for, and every report.</summary>
public static class LogLayout
{
    /// <summary>Longest text of a cell that is quoted whole; more is cut and said to be.</summary>
    private const int QuotedLength = 60;

    /// <summary>The same where one of many is shown.</summary>
    private const int FoundLength = 24;

    /// <summary>Lines named of each rule.</summary>
    private const int LinesNamed = 3;

    /// <summary>A log in one sentence, how the rows of each file were accounted for, what was reported by rule, and every report folded away.</summary>
    public static ResultLayout Of(TastingLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        List<LayoutBlock> blocks = [.. Summary(log).Blocks];
        if (log.Problems.Count > 0)
            blocks.Add(new LayoutBlock.Folded("Row by row", [new LayoutBlock.Table(Reports(log.Problems))]));
        return new ResultLayout(blocks);
    }

    /// <summary>The same without the list of every report: what a person reads in ten seconds.</summary>
    public static ResultLayout Summary(TastingLog log)
    {
        ArgumentNullException.ThrowIfNull(log);
        var blocks = new List<LayoutBlock> { new LayoutBlock.Lead(Sentence(log)) };
        if (log.Accounts.Count > 0)
            blocks.Add(new LayoutBlock.Table(Accounts(log.Accounts)));
        if (log.Confirmed.Count > 0)
        {
            blocks.Add(new LayoutBlock.Paragraph(
                $"{NumberText.Count(log.Confirmed.Count, "doubt")} confirmed by accepted.csv and not raised: {ByRuleInWords(log.Confirmed.Select(confirmed => confirmed.Problem))}."));
        }

        if (log.Problems.Count > 0)
        {
            blocks.Add(new LayoutBlock.Paragraph(Sentence(log.Problems)));
            blocks.Add(new LayoutBlock.Table(ByRule(log.Problems)));
        }

        return new ResultLayout(blocks);
    }

    /// <summary>What was reported by rule, and folded away every report as a row: where, what became of the row, what was found, why, and what would be accepted.</summary>
    public static ResultLayout OfProblems(IReadOnlyList<LogProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        if (problems.Count == 0)
            return new ResultLayout([new LayoutBlock.Lead("Every row was read whole; there is nothing to report.")]);
        return new ResultLayout(
        [
            new LayoutBlock.Lead(Sentence(problems)),
            new LayoutBlock.Table(ByRule(problems)),
            new LayoutBlock.Folded("Row by row", [new LayoutBlock.Table(Reports(problems))]),
        ]);
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

    private static string ByRuleInWords(IEnumerable<LogProblem> problems) => string.Join(", ", problems.GroupBy(problem => problem.Rule)
        .OrderByDescending(group => group.Count()).ThenBy(group => group.Key, StringComparer.Ordinal).Select(group => FormattableString.Invariant($"{group.Count()} {group.Key}")));

    /// <summary>One row a rule, what costs most first.</summary>
    private static ResultTable ByRule(IReadOnlyList<LogProblem> problems) => new(
        "Reports by rule",
        [
            new("row", "Row was", ColumnKind.Text),
            new("rule", "Rule", ColumnKind.Text),
            new("reports", "Reports", ColumnKind.Count),
            new("lines", "First lines", ColumnKind.Text),
            new("found", "First found", ColumnKind.Text),
            new("fix", "What to do", ColumnKind.Text),
        ],
        [.. problems.GroupBy(problem => (problem.Severity, problem.Rule))
            .OrderByDescending(group => group.Key.Severity).ThenByDescending(group => group.Count()).ThenBy(group => group.Key.Rule, StringComparer.Ordinal)
            .Select(group => (IReadOnlyList<TableCell>)
            [
                Text(Word(group.Key.Severity)),
                Text(group.Key.Rule),
                new TableCell.Count(group.Count()),
                Text(FirstLines([.. group])),
                FirstFound(group.First()),
                Text(LogRule.Named(group.Key.Rule)?.Fix ?? group.First().Expected),
            ])]);

    private static string FirstLines(IReadOnlyList<LogProblem> problems)
    {
        var places = problems.Take(LinesNamed).GroupBy(problem => problem.File)
            .Select(file => file.Any(problem => problem.Line > 0) ? $"{file.Key} {string.Join(", ", file.Where(problem => problem.Line > 0).Select(problem => problem.Line).Distinct())}" : file.Key);
        return string.Join("; ", places) + (problems.Count > LinesNamed ? ", \u2026" : "");
    }

    private static TableCell FirstFound(LogProblem problem)
    {
        var found = $"{(problem.Column.Length > 0 ? problem.Column + " " : "")}{(problem.Found.Length > 0 ? $"'{LongText.Cut(problem.Found, FoundLength)}'" : "")}".TrimEnd();
        return found.Length > 0 ? Text(found) : new TableCell.Missing("");
    }

    private static string Word(Severity severity) => severity switch { Severity.Rejected => "rejected", Severity.Doubtful => "doubtful", _ => "accepted" };

    private static ResultTable Reports(IReadOnlyList<LogProblem> problems) => new(
        "Reports",
        [
            new("file", "File", ColumnKind.Text),
            new("line", "Line", ColumnKind.Count),
            new("column", "Column", ColumnKind.Text),
            new("row", "Row was", ColumnKind.Text),
            new("rule", "Rule", ColumnKind.Text),
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
        Text(Word(problem.Severity)),
        Text(problem.Rule),
        Text(LongText.Cut(problem.Found, QuotedLength)),
        Text(problem.Why),
        Text(problem.Expected),
    ];

    private static TableCell.Text Text(string value) => new(value);
}
