namespace TastingKit;

/// <summary>What a report costs its row. A row is rejected if one report on it is; its other reports keep their own severity.</summary>
public enum Severity
{
    /// <summary>Nothing is lost; something about it is worth knowing.</summary>
    Information,

    /// <summary>A cell was left missing, or a value was kept that a person should look at. By itself this does not cost the row.</summary>
    Doubtful,

    /// <summary>The row was not accepted: no analysis sees it.</summary>
    Rejected,
}

/// <summary>One report on one place of a log.</summary>
/// <param name="Severity">What the report costs its row.</param>
/// <param name="Rule">The rule's short name, for example <c>score-off-scale</c>.</param>
/// <param name="File">The file's name, without its folder; where several folders are read, behind the folder's name; a sheet behind its workbook's, as in <c>my-year.xlsx/tastings</c>.</param>
/// <param name="Line">The line of the file on which the record begins, from 1; 0 where the report is on the whole file.</param>
/// <param name="Column">The column's header as written; empty where the report is on the whole row.</param>
/// <param name="RowId">The row's identifier, if it has one that could be read.</param>
/// <param name="Found">The text found, as written.</param>
/// <param name="Why">What is wrong with it, as a sentence.</param>
/// <param name="Expected">What would be accepted.</param>
public sealed record LogProblem(
    Severity Severity, string Rule, string File, int Line, string Column, string? RowId, string Found, string Why, string Expected)
{
    /// <summary>
    /// The other values that the finding rests on, where the text found does not say it all, for example <c>dose_g 15</c>. A confirmation
    /// in <c>accepted.csv</c> holds as long as these and <see cref="Found"/> stay as they were.
    /// </summary>
    public string Beside { get; init; } = "";

    /// <summary>The report on one line: where, what was found, why, and what would be accepted.</summary>
    public override string ToString() =>
        $"{File}:{Line}{(Column.Length > 0 ? $" {Column}" : "")}: {Severity.ToString().ToLowerInvariant()}: {Why} Found '{Found}'. Expected {Expected}.";
}

/// <summary>A doubt that a line of <c>accepted.csv</c> confirms, so that it is not raised.</summary>
/// <param name="Problem">The report as it would stand among the log's.</param>
/// <param name="Remark">The user's reason, if one is given.</param>
public sealed record ConfirmedDoubt(LogProblem Problem, string? Remark);

/// <summary>How the rows of one file were accounted for: rows in = accepted + rejected.</summary>
/// <param name="File">The file's name, without its folder.</param>
/// <param name="Rows">Records read below the header, wholly blank ones left out.</param>
/// <param name="Accepted">Rows that the log holds.</param>
/// <param name="Doubtful">Of the accepted, those with at least one doubtful report.</param>
/// <param name="Rejected">Rows that the log does not hold; each has at least one report.</param>
public sealed record RowAccount(string File, int Rows, int Accepted, int Doubtful, int Rejected);
