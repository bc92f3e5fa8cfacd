using System.Text;

namespace TastingKit.Reading;

/// <summary>
/// Reads one file row by row: records from the parser, cells by the columns that its header names, each row handed on with the reports
/// on it. Every cell of a row is judged, whatever the others were.
/// </summary>
internal sealed class Table<TRow>
{
    private const int LongestFound = 200;

    // Below this a thread takes longer to begin than the rows do.
    private const int ManyRows = 5000;

    private static readonly CellFault SpreadsheetError =
        new(Rule.SpreadsheetError, "A formula of a spreadsheet failed here and left its error; the cell was left missing.", "the value, or an empty cell");

    private readonly Dictionary<int, CellFault> _missingCells = [];

    /// <summary>The columns the file can have; the first that has <see cref="IdColumn"/> for a name gives the reports their row identifier.</summary>
    public required IReadOnlyList<Column<TRow>> Columns { get; init; }

    /// <summary>The name of the column that identifies a row in reports.</summary>
    public required string IdColumn { get; init; }

    /// <summary>The user's own headers.</summary>
    public required ColumnMap Map { get; init; }

    /// <summary>Makes a row to fill.</summary>
    public required Func<TRow> Begin { get; init; }

    /// <summary>
    /// Empties a row that was taken, so that it can be filled again. Where it is given, rows of a large file are taken on a thread of their own,
    /// in their order; <see cref="End"/> then shares nothing with the columns but the row.
    /// </summary>
    public Action<TRow>? Clear { get; init; }

    /// <summary>Takes a row whose cells are judged. The row may be rejected already, by its reports.</summary>
    public required Action<TRow, JudgedRow> End { get; init; }

    /// <summary>Told of a row whose cells could not be told apart, and which is rejected for it.</summary>
    public Action<RowReports>? NotWhole { get; init; }

    /// <summary>Keeps the cells of columns that the kit has no name for; where it is not given, such columns are reported and let be.</summary>
    public Action<TRow, IReadOnlyDictionary<string, string>>? KeepOthers { get; init; }

    /// <summary>Reads the file.</summary>
    /// <exception cref="LogReadException">The file has no header, or its header lacks a required column.</exception>
    public BoundField<TRow>[] Read(SourceFile file, FileReports reports, CancellationToken cancellation)
    {
        ReportEncoding(file, reports);
        var binding = new HeaderBinding<TRow>(Columns, Map, file.Name);
        var dialect = Dialect.Of(file.Text.Utf8, binding.Knows);
        using var records = Records(file, dialect);
        if (!ReadHeader(records, out var headers))
            throw new LogReadException($"{file.Name} is empty. A header row with {string.Join(", ", Columns.Where(c => c.Required).Select(c => c.Name))} would be right.");
        var fields = binding.Bind(headers, reports, records.Line);
        foreach (var field in fields)
        {
            if (field.Column is { } bound)
                reports.NoteHeader(bound.Name, field.Header);
        }

        ReportOthersLetBe(fields, reports, records.Line);

        var row = new RecordReports(reports, records, IndexOf(fields, IdColumn));
        using var handover = new RowHandover<TRow>(reports, Begin, Clear, End, file.LikelyRows >= ManyRows);
        var headersUtf8 = headers.Select(Encoding.UTF8.GetBytes).ToArray();
        var held = fields.Select((field, i) => new HeldColumn(field.Header, field.Unit, dialect.DecimalComma, visitor => Visit(file, dialect, headersUtf8, i, visitor))).ToArray();
        for (var count = 1; records.Read(); count++)
        {
            if ((count & 0xFFF) == 0)
            {
                cancellation.ThrowIfCancellationRequested();
                reports.Progress?.Report(records.Share);
            }

            if (IsBlank(records))
                continue;
            reports.CountRow();
            if (IsWhole(records, headersUtf8, row))
                ReadCells(records, fields, held, row, handover);
            else
                NotWhole?.Invoke(row);
        }

        cancellation.ThrowIfCancellationRequested();
        handover.Finish();
        reports.Progress?.Report(1);
        return fields;
    }

    private void ReadCells(RecordReader records, BoundField<TRow>[] fields, HeldColumn[] held, RecordReports reports, RowHandover<TRow> handover)
    {
        var row = handover.Next();
        reports.Begin();
        Dictionary<string, string>? others = null;
        var written = reports.File.Written;
        written?.AddRow(reports.Line);
        for (var i = 0; i < fields.Length; i++)
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

                if (KeepOthers is not null && TextCell.Cleaned(cell, reports) is { Length: > 0 } text)
                    (others ??= new Dictionary<string, string>(StringComparer.Ordinal))[field.Header] = text;
            }
        }

        if (others is not null)
            KeepOthers!(row, others);
        handover.HandOn(reports);
    }

    /// <summary>Passes over a column of the held file once more, rows left out that are no whole rows.</summary>
    private static void Visit(SourceFile file, Dialect dialect, byte[][] headers, int column, CellVisitor visitor)
    {
        using var records = Records(file, dialect);
        if (!ReadHeader(records, out _))
            return;
        while (records.Read())
        {
            if (records.QuoteFault == QuoteFault.UnclosedQuote || HasCellsPast(records, headers.Length) || IsHeaderAgain(records, headers))
                continue;
            var text = Cell.Of(records[column]).Utf8;
            if (!text.IsEmpty)
                visitor(text, records.Line);
        }
    }

    private static RecordReader Records(SourceFile file, Dialect dialect) => new(file.Text.Utf8[dialect.Start..], dialect.Delimiter, dialect.FirstLine, file.RowOfLine);

    /// <summary>Whether the record's cells can be told apart and belong to columns; reports what speaks against it.</summary>
    private bool IsWhole(RecordReader records, byte[][] headers, RecordReports reports)
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
            reports.Row(Severity.Doubtful, Found(records), MissingCells(records.FieldCount, headers.Length));

        return true;
    }

    /// <summary>The fault of a row with too few cells, one object for all rows with as many: a file of scraps has millions of them.</summary>
    private CellFault MissingCells(int cells, int headers)
    {
        if (!_missingCells.TryGetValue(cells, out var fault))
        {
            _missingCells.Add(cells, fault = new CellFault(Rule.MissingCells,
                FormattableString.Invariant($"It has {cells} cells under {headers} headers; those at the end were left missing."), "as many cells as headers"));
        }

        return fault;
    }

    private static bool ReadHeader(RecordReader records, out List<string> headers)
    {
        headers = [];
        while (records.Read())
        {
            if (IsBlank(records))
                continue;
            for (var i = 0; i < records.FieldCount; i++)
                headers.Add(Encoding.UTF8.GetString(Cell.Of(records[i]).Utf8));
            return true;
        }

        return false;
    }

    private static bool IsBlank(RecordReader records)
    {
        for (var i = 0; i < records.FieldCount; i++)
        {
            if (!Cell.Of(records[i]).IsEmpty)
                return false;
        }

        return true;
    }

    private static bool HasCellsPast(RecordReader records, int count)
    {
        for (var i = count; i < records.FieldCount; i++)
        {
            if (!Cell.Of(records[i]).IsEmpty)
                return true;
        }

        return false;
    }

    private static bool IsHeaderAgain(RecordReader records, byte[][] headers)
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

    private void ReportOthersLetBe(IReadOnlyList<BoundField<TRow>> fields, FileReports reports, int line)
    {
        if (KeepOthers is not null)
            return;
        foreach (var field in fields.Where(field => field.Column is null && !field.IsNameless))
        {
            reports.AboutFile(line, field.Header, field.Header, new CellFault(
                Rule.UnknownColumn, "The column is not one of this file's and was not read.", $"one of {string.Join(", ", Columns.Select(column => column.Name))}"));
        }
    }

    private static void ReportEncoding(SourceFile file, FileReports reports)
    {
        if (file.Text.IsUnmarkedUtf16)
            reports.AboutFile(1, "", "a nought in every other byte", new CellFault(Rule.Encoding, "The file is UTF-16 without the mark that says so; it was read as that.", "a file saved as UTF-8"));
        if (file.Text.Foreign is not { } foreign)
            return;
        reports.AboutFile(foreign.FirstLine, "",
            FormattableString.Invariant($"byte 0x{foreign.FirstByte:X2} at offset {foreign.FirstOffset}, the first of {foreign.Count}"),
            new CellFault(Rule.Encoding, "The file is not UTF-8; bytes that are not were read as Windows-1252.", "a file saved as UTF-8"));
    }

    private static int IndexOf(IReadOnlyList<BoundField<TRow>> fields, string name)
    {
        for (var i = 0; i < fields.Count; i++)
        {
            if (fields[i].Column?.Name == name)
                return i;
        }

        return -1;
    }

    private static string Found(RecordReader records) =>
        records.RawText is { Length: > LongestFound } raw ? raw[..LongestFound] + "…" : records.RawText;
}
