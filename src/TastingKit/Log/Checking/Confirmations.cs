using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>Takes back the doubts that <c>accepted.csv</c> confirms, and reports the lines that confirm nothing.</summary>
internal static class Confirmations
{
    /// <summary>Applies the lines to the reports on all files.</summary>
    /// <param name="entries">The lines.</param>
    /// <param name="acceptedReports">The reports on their file.</param>
    /// <param name="all">The reports on all files.</param>
    /// <param name="unmet">The lines that confirm nothing that this log says by itself.</param>
    /// <returns>The doubts confirmed, in the order of files and lines.</returns>
    public static IReadOnlyList<ConfirmedDoubt> Apply(
        IReadOnlyList<AcceptedEntry> entries, FileReports acceptedReports, IReadOnlyList<FileReports> all, out IReadOnlyList<AcceptedEntry> unmet)
    {
        var confirmed = new List<ConfirmedDoubt>();
        var open = new Dictionary<FindingKey, AcceptedEntry>();
        foreach (var entry in entries)
        {
            if (!open.TryAdd(entry.Finding, entry))
            {
                acceptedReports.Add(Severity.Doubtful, entry.Line, entry.Finding.RowId, "", entry.Finding.Found, new CellFault(Rule.AcceptedNotFound,
                    FormattableString.Invariant($"Line {open[entry.Finding].Line} confirms the same."), "one line a doubt"));
            }
        }

        var met = new HashSet<FindingKey>();
        foreach (var reports in all.Where(reports => reports != acceptedReports))
        {
            confirmed.AddRange(reports.Withdraw(IsConfirmed).OrderBy(problem => problem.Line)
                .Select(problem => new ConfirmedDoubt(problem, open[FindingKey.Of(problem)].Remark)));
        }

        unmet = [.. open.Where(pair => !met.Contains(pair.Key)).Select(pair => pair.Value)];
        foreach (var entry in unmet)
        {
            var finding = entry.Finding;
            acceptedReports.Add(Severity.Doubtful, entry.Line, finding.RowId, "", finding.Found, new CellFault(Rule.AcceptedNotFound,
                Closest(finding, all) is { } now
                    ? $"The doubt was confirmed of other values than are there now: '{now.Found}'{(now.Beside.Length > 0 ? $" beside {now.Beside}" : "")}. It is raised again."
                    : "There is no such doubt now.",
                "the line taken out, or taken over anew from the list of reports"));
        }

        return confirmed;

        bool IsConfirmed(LogProblem problem)
        {
            if (problem.Severity != Severity.Doubtful || FindingKey.Of(problem) is var key && !open.ContainsKey(key))
                return false;
            met.Add(key);
            return true;
        }
    }

    /// <summary>What the rule finds of the same cell now, if it still finds something.</summary>
    private static LogProblem? Closest(FindingKey finding, IReadOnlyList<FileReports> all) =>
        all.SelectMany(reports => reports.Problems).FirstOrDefault(problem =>
            FindingKey.Of(problem) is var key && (key.Rule, key.File, key.RowId, key.Column) == (finding.Rule, finding.File, finding.RowId, finding.Column));
}
