namespace TastingKit.Reading;

/// <summary>
/// Finds rows that say the same as an earlier one in all but their identifier. They are worth knowing and no fault: a cup can be scored alike twice.
/// </summary>
internal sealed class LikeRows
{
    private readonly Dictionary<ulong, int> _lines = [];

    /// <summary>Makes room for rows.</summary>
    public void Expect(int rows) => _lines.EnsureCapacity(rows);

    /// <summary>Reports a row whose content was met before.</summary>
    public void Report(RowReports reports)
    {
        var content = reports.Content;
        if (_lines.TryAdd(content, reports.Line))
            return;
        reports.Row(Severity.Information, "", new CellFault(Rule.RepeatedRow,
            FormattableString.Invariant($"It says the same as line {_lines[content]}, the identifier left out."), "nothing, if it is no copy"));
    }
}
