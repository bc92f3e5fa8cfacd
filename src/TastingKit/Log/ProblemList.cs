using System.Globalization;
using System.Text;
using TastingKit.Writing;

namespace TastingKit;

/// <summary>The reports on a log as a CSV file, for a spreadsheet.</summary>
public static class ProblemList
{
    /// <summary>
    /// One row a report, with the columns severity, rule, file, line, row_id, column, found, beside, why, expected, fix. A row that is right after
    /// all goes into the log's <c>accepted.csv</c> as it stands, with a remark if one is wanted.
    /// </summary>
    /// <remarks>Begins with a byte order mark, by which spreadsheets know UTF-8; what they would run as a formula has an apostrophe in front.</remarks>
    public static string ToCsv(IReadOnlyList<LogProblem> problems)
    {
        ArgumentNullException.ThrowIfNull(problems);
        var table = new WrittenTable(
            "",
            ["severity", "rule", "file", "line", "row_id", "column", "found", "beside", "why", "expected", "fix"],
            [.. problems.Select(problem => (IReadOnlyList<string?>)
            [
                problem.Severity.ToString().ToLowerInvariant(), problem.Rule, problem.File, problem.Line == 0 ? "" : problem.Line.ToString(CultureInfo.InvariantCulture),
                Reading.FindingKey.RowIdOf(problem), problem.Column, problem.Found, problem.Beside, problem.Why, problem.Expected, LogRule.Named(problem.Rule)?.Fix,
            ])]);
        return "\uFEFF" + Encoding.UTF8.GetString(LogWriter.File(table).Bytes);
    }
}
