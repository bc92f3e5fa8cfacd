using System.Text;

namespace TastingKit.Reading;

/// <summary>
/// Reads one file row by row: records from the parser, cells by the columns that its header names, each row handed on with the reports
/// on it. Every cell of a row is judged, whatever the others were.
/// </summary>
internal sealed class Table<TRow>
{
    // Below this a thread takes longer to begin than the rows do.
    private const int ManyRows = 5000;

    // Rows are taken on one thread, which can't take more than these judge.
    private const int MostThreads = 4;

    /// <summary>The columns the file can have; the first that has <see cref="IdColumn"/> for a name gives the reports their row identifier.</summary>
    public required IReadOnlyList<Column<TRow>> Columns { get; init; }

    /// <summary>The name of the column that identifies a row in reports.</summary>
    public required string IdColumn { get; init; }

    /// <summary>The user's own headers.</summary>
    public required ColumnMap Map { get; init; }

    /// <summary>Makes a row to fill.</summary>
    public required Func<TRow> Begin { get; init; }

    /// <summary>
    /// Empties a row that was taken, so that it can be filled again. Where it is given, rows of a large file are judged ahead on other threads
    /// while <see cref="End"/> takes those before them.
    /// </summary>
    public Action<TRow>? Clear { get; init; }

    /// <summary>Takes a row whose cells are judged. The row may be rejected already, by its reports.</summary>
    public required Action<TRow, RowReports> End { get; init; }

    /// <summary>Told of a row that is none as a whole, its cells not to be told apart or cut off too soon, and is rejected for it.</summary>
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

        var headersUtf8 = headers.Select(Encoding.UTF8.GetBytes).ToArray();
        var held = fields.Select((field, i) => new HeldColumn(field.Header, field.Unit, dialect.DecimalComma, visitor => Visit(file, dialect, headersUtf8, i, visitor))).ToArray();
        var idIndex = IndexOf(fields, IdColumn);
        var judge = new RowJudge<TRow>(fields, headersUtf8, held, new RecordReports(reports, records, idIndex), KeepOthers);
        var text = file.Text.Utf8[dialect.Start..];
        var taking = new RowTaking<TRow>(this, judge, text.Length, cancellation);
        var threads = Math.Min(Environment.ProcessorCount, MostThreads);
        if (Clear is null || threads == 1 || file.LikelyRows < ManyRows || reports.Written is not null || records.HasCut)
        {
            taking.TakeAll(records);
        }
        else
        {
            var stretches = new Stretches(records, text.Length);
            (int Offset, int Line) rest;
            using (var ahead = new JudgedAhead<TRow>(stretches, threads, Open, OnTrial, () => new JudgedStretch<TRow>(Begin, Clear, reports)))
                rest = taking.TakeAhead(ahead, Open) ?? stretches.Rest;
            using var restRecords = Part(rest.Offset, text.Length, rest.Line);
            taking.TakeAll(restRecords, rest.Offset);
        }

        reports.Progress?.Report(1);
        return fields;

        RecordReader Part(int start, int end, int line) => new(text[start..end], dialect.Delimiter, line, file.RowOfLine);

        RecordReader Open(Stretch stretch) => Part(stretch.Start, stretch.End, stretch.Line);

        RowJudge<TRow> OnTrial() =>
            new(fields, headersUtf8, [.. held.Select(column => column.ForAnotherThread())], new RecordReports(reports.Apart(), records, idIndex), KeepOthers);
    }

    /// <summary>Passes over a column of the held file once more, rows left out that are no whole rows.</summary>
    private static void Visit(SourceFile file, Dialect dialect, byte[][] headers, int column, CellVisitor visitor)
    {
        using var records = Records(file, dialect);
        if (!ReadHeader(records, out _))
            return;
        while (records.Read())
        {
            if (records.QuoteFault == QuoteFault.UnclosedQuote || RowJudge<TRow>.HasCellsPast(records, headers.Length) || RowJudge<TRow>.IsHeaderAgain(records, headers))
                continue;
            var text = Cell.Of(records[column]).Utf8;
            if (!text.IsEmpty)
                visitor(text, records.Line);
        }
    }

    private static RecordReader Records(SourceFile file, Dialect dialect) => new(file.Text.Utf8[dialect.Start..], dialect.Delimiter, dialect.FirstLine, file.RowOfLine);

    private static bool ReadHeader(RecordReader records, out List<string> headers)
    {
        headers = [];
        while (records.Read())
        {
            if (RowJudge<TRow>.IsBlank(records))
                continue;
            for (var i = 0; i < records.FieldCount; i++)
                headers.Add(Encoding.UTF8.GetString(Cell.Of(records[i]).Utf8));
            return true;
        }

        return false;
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
}
