using System.Runtime.CompilerServices;

namespace TastingKit.Reading;

/// <summary>Judges the rows of one file, cell by cell, on one thread. Every cell of a row is judged, whatever the others were.</summary>
/// <typeparam name="TRow">What gathers a row's values.</typeparam>
/// <param name="fields">What each column of the file is read as.</param>
/// <param name="headers">Their headers in UTF-8.</param>
/// <param name="held">The columns.</param>
/// <param name="reports">Where reports on the rows go.</param>
/// <param name="keepOthers">Keeps the cells of columns that the kit has no name for; <see langword="null"/> where they are let be.</param>
internal sealed class RowJudge<TRow>(
    BoundField<TRow>[] fields, byte[][] headers, HeldColumn[] held, RecordReports reports, Action<TRow, IReadOnlyDictionary<string, string>>? keepOthers)
{
    private const int LongestFound = 200;

    private static readonly CellFault SpreadsheetError =
        new(Rule.SpreadsheetError, "A formula of a spreadsheet failed here and left its error; the cell was left missing.", "the value, or an empty cell");

    private readonly Dictionary<int, (Severity, CellFault)> _missingCells = [];

    /// <summary>The reports on the row judged last.</summary>
    public RecordReports Reports => reports;

    /// <summary>Judges the record that a reader stands on, and fills a row with it.</summary>
    /// <returns>Whether it is a whole row: else it is rejected, since its cells can't be told apart or it ends too soon, and the row is as it was.</returns>
    // The longest way that every row goes: compiled with care at once, or the first thousands of rows take several times as long.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    public bool Judge(RecordReader records, TRow row)
    {
        reports.Records = records;
        if (!IsWhole(records))
            return false;
        reports.Begin();
        Dictionary<string, string>? others = null;
        var written = reports.File.Written;
        written?.AddRow(reports.Line);
        // That cells at the end are missing was said in one report.
        var count = Math.Min(records.FieldCount, fields.Length);
        for (var i = 0; i < count; i++)
        {
            var field = fields[i];
            var cell = new Cell(records, i, held[i]);
            reports.AddContent(i, cell);
            if (!cell.IsEmpty)
                written?.Add(reports.Line, field.Column?.Name, field.Header, cell.Utf8);
            if (cell.IsMarked && reports.File.FirstTime(Rule.FormulaMark, field.Header))
            {
                reports.Cell(Severity.Information, cell, new CellFault(Rule.FormulaMark,
                    "The apostrophe in front keeps spreadsheets from running the text as a formula; it was taken off, here and wherever it stands so in the column.", "nothing, if it is meant so"));
            }

            if (Words.IsSpreadsheetError(cell.Utf8))
            {
                reports.Cell(Severity.Doubtful, cell, SpreadsheetError);
                cell = cell.Emptied();
            }

            if (field.Column is { } column)
            {
                column.Read(cell, row, reports);
            }
            else if (!cell.IsEmpty)
            {
                if (field.IsNameless && reports.File.FirstTime(Rule.NamelessColumn, field.Header))
                {
                    reports.Cell(Severity.Information, cell, new CellFault(
                        Rule.NamelessColumn, $"The column has no header; its cells are kept as '{field.Header}'.", "a header for every column that is filled in"));
                }

                if (keepOthers is not null && TextCell.Cleaned(cell, reports) is { Length: > 0 } text)
                    (others ??= new Dictionary<string, string>(StringComparer.Ordinal))[field.Header] = text;
            }
        }

        for (var i = count; i < fields.Length; i++)
            reports.AddNothing(i);
        if (others is not null)
            keepOthers!(row, others);
        return true;
    }

    /// <summary>Whether a record is no row at all.</summary>
    public static bool IsBlank(RecordReader records)
    {
        for (var i = 0; i < records.FieldCount; i++)
        {
            if (!Cell.Trim(records[i]).IsEmpty)
                return false;
        }

        return true;
    }

    /// <summary>Whether a record has cells under no header.</summary>
    public static bool HasCellsPast(RecordReader records, int count)
    {
        for (var i = count; i < records.FieldCount; i++)
        {
            if (!Cell.Trim(records[i]).IsEmpty)
                return true;
        }

        return false;
    }

    /// <summary>Whether a record is the header once more.</summary>
    public static bool IsHeaderAgain(RecordReader records, byte[][] headers)
    {
        var same = 0;
        for (var i = 0; i < headers.Length; i++)
        {
            if (!Cell.Of(records[i]).Utf8.SequenceEqual(headers[i]))
                return false;
            if (headers[i].Length > 0)
                same++;
        }

        return same > 1;
    }

    /// <summary>Whether the record's cells can be told apart and belong to columns, and none is missing that a row needs; reports what speaks against it.</summary>
    private bool IsWhole(RecordReader records)
    {
        switch (records.QuoteFault)
        {
            case QuoteFault.UnclosedQuote:
                reports.Row(Severity.Rejected, Found(records), new CellFault(
                    Rule.UnclosedQuote, "A quote is opened and not closed, so that its cells can't be told apart.", "a closing quote, quotes inside a cell doubled"));
                return false;
            case QuoteFault.TextAfterQuote:
                reports.Row(Severity.Doubtful, Found(records), new CellFault(
                    Rule.TextAfterQuote, "Text follows a closing quote; it was read as part of the cell.", "quotes inside a cell doubled"));
                break;
            case QuoteFault.StrayQuote:
                reports.Row(Severity.Information, Found(records), new CellFault(
                    Rule.StrayQuote, "A quote stands inside a cell that does not begin with one; it was read as text.", "the cell in quotes, the quote inside doubled"));
                break;
        }

        if (HasCellsPast(records, headers.Length))
        {
            reports.Row(Severity.Rejected, Found(records), new CellFault(Rule.ExtraCells,
                FormattableString.Invariant($"It has {records.FieldCount} cells under {headers.Length} headers, so that which belongs where can't be told."),
                "as many cells as headers; a cell that holds the delimiter in quotes"));
            return false;
        }

        if (IsHeaderAgain(records, headers))
        {
            reports.Row(Severity.Rejected, Found(records), new CellFault(Rule.RepeatedHeader, "It is the header again, not a row.", "the header once, on top"));
            return false;
        }

        if (records.FieldCount < headers.Length)
        {
            var (severity, fault) = MissingCells(records.FieldCount);
            reports.Row(severity, Found(records), fault);
            return severity != Severity.Rejected;
        }

        return true;
    }

    /// <summary>
    /// The fault of a row with too few cells, one object for all rows with as many: a file of scraps has millions of them. One report says too
    /// which of the cells that it can't do without are missing.
    /// </summary>
    private (Severity Severity, CellFault Fault) MissingCells(int cells)
    {
        if (_missingCells.TryGetValue(cells, out var known))
            return known;
        const string Expected = "as many cells as headers";
        var has = $"It has {TastingKit.NumberText.Count(cells, "cell")} under {TastingKit.NumberText.Count(headers.Length, "header")}";
        string[] needed = [.. fields[cells..].Where(field => field.Column is { Required: true }).Select(field => field.Header)];
        known = needed.Length == 0
            ? (Severity.Doubtful, new CellFault(Rule.MissingCells, $"{has}; those at the end were left missing.", Expected))
            : (Severity.Rejected, new CellFault(Rule.CutOff, $"{has}, and ends before its {string.Join(" and its ", needed)}, without which it can't be used.", Expected));
        _missingCells.Add(cells, known);
        return known;
    }

    private static string Found(RecordReader records)
    {
        var raw = records.RawText;
        return raw.Length > LongestFound ? raw[..LongestFound] + "…" : raw;
    }
}
