using System.Text;
using TastingKit.Reading;

namespace TastingKit.Writing;

/// <summary>Holds what is written against the canonical form, cell by cell.</summary>
internal sealed class CellChanges
{
    /// <summary>The rule of a change that is none of value.</summary>
    private const string OwnForm = "own-form";

    /// <summary>Letters of the shortest month, such as May.</summary>
    private const int ShortestMonth = 3;

    private readonly ReadingTrace _trace;
    private readonly List<CellChange> _changes = [];
    private readonly Dictionary<string, WrittenTable> _tables;
    private readonly ILookup<(string File, int Line), LogProblem> _rejected;
    private readonly Dictionary<(string File, string Column, int Line), LogProblem> _ofCells = [];
    private readonly Dictionary<(string File, string Column, string Found), LogProblem> _ofWords = [];
    private readonly Dictionary<(string File, string Column), LogProblem> _ofColumns = [];

    /// <summary>Prepares to compare.</summary>
    /// <param name="log">The log as read.</param>
    /// <param name="trace">What is written, and which line became what.</param>
    public CellChanges(TastingLog log, ReadingTrace trace)
    {
        _trace = trace;
        _tables = LogWriter.Tables(log).ToDictionary(table => table.Name, StringComparer.Ordinal);
        _rejected = log.Problems.Where(problem => problem is { Severity: Severity.Rejected, Line: > 0 }).ToLookup(problem => (problem.File, problem.Line));
        foreach (var problem in log.Problems.Concat(log.Confirmed.Select(confirmed => confirmed.Problem)))
            Index(problem);
    }

    /// <summary>Every change.</summary>
    public IReadOnlyList<CellChange> Find()
    {
        var bags = RowsById("bags.csv");
        var cups = RowsById("tastings.csv");
        foreach (var file in _trace.Files.Where(file => file.WasRead))
        {
            var first = _changes.Count;
            Headers(file);
            Rejected(file);
            if (file.File.Equals("bags.csv", StringComparison.OrdinalIgnoreCase))
                Rows(file, line => _trace.BagOn(line) is { } bag ? (bag.Id, [bags[bag.Id]]) : null);
            else if (file.File.Equals(_trace.CupsFile, StringComparison.OrdinalIgnoreCase))
                Rows(file, line => _trace.CupOn(line) is { } cup ? (cup.Id, _trace.BagsAreInTheTable ? [cups[cup.Id], bags[cup.Bag.Id]] : [cups[cup.Id]]) : null);
            else if (_tables.TryGetValue(file.File.ToLowerInvariant(), out var table))
                InOrder(file, table);
            else if (file.File.Equals(ColumnMapTable.File, StringComparison.OrdinalIgnoreCase))
                Add(file, 0, "", "", file.File, "", Rule.HeaderReadAs, "Headers are the kit's own in the canonical form, and need no map.");
            CellChange[] ofFile = [.. _changes.Skip(first).OrderBy(change => change.Line)];
            _changes.RemoveRange(first, ofFile.Length);
            _changes.AddRange(ofFile);
        }

        return _changes;
    }

    private Dictionary<string, CanonicalRow> RowsById(string file)
    {
        var table = _tables[file];
        // The identifier is the first column of both.
        return table.Rows.ToDictionary(row => row[0]!, row => new CanonicalRow(table.Headers, row), StringComparer.Ordinal);
    }

    private void Headers(FileReports file)
    {
        foreach (var (column, header) in file.Headers.Where(pair => pair.Key != pair.Value))
            Add(file, 0, "", header, header, column, Rule.HeaderReadAs, "The header is the kit's own in the canonical form.");
    }

    private void Rejected(FileReports file)
    {
        foreach (var row in _rejected.Where(row => row.Key.File == file.File))
        {
            var cells = file.Written!.Row(row.Key.Line);
            var text = cells.Count > 0 ? string.Join(" | ", cells.Select(cell => cell.Text)) : row.First().Found;
            Add(file, row.Key.Line, row.First().RowId ?? "", "", text, "", row.First().Rule, "The row was rejected and left out. " + row.First().Why);
        }
    }

    private void Rows(FileReports file, Func<int, (string Id, CanonicalRow[] Rows)?> canonicalOf)
    {
        var added = new Dictionary<string, HashSet<string>>(StringComparer.Ordinal);
        foreach (var line in file.Written!.Lines.Where(line => !file.IsRejected(line)))
        {
            var cells = file.Written.Row(line);
            if (canonicalOf(line) is not var (id, rows))
            {
                Add(file, line, cells.Count > 0 ? cells[0].Text : "", "", string.Join(" | ", cells.Select(cell => cell.Text)), "", Rule.BagEdited, "The row was merged into the first of its bag.");
                continue;
            }

            Cells(file, line, id, cells, rows, added);
        }

        foreach (var (column, values) in added)
        {
            Add(file, 0, "", column, "", values.Count == 1 ? values.Single() : $"{NumberText.Count(values.Count, "value")}", OwnForm,
                "The file has no such column; the canonical form says what is meant without it.");
        }
    }

    private void Cells(FileReports file, int line, string id, IReadOnlyList<WrittenCell> cells, CanonicalRow[] rows, Dictionary<string, HashSet<string>> added)
    {
        var written = new HashSet<string>(StringComparer.Ordinal);
        foreach (var cell in cells)
        {
            var column = cell.Column ?? cell.Header;
            written.Add(column);
            var to = rows.Select(row => row.Of(column)).FirstOrDefault(text => text is not null) ?? "";
            if (to != cell.Text)
                AddCell(file, line, id, cell.Header, cell.Text, to);
        }

        // What a flat table leaves out of a row is said of its bag elsewhere; only the cup's own cells are added.
        foreach (var (column, text) in rows[0].Filled.Where(pair => !written.Contains(pair.Column)))
        {
            if (file.Headers.ContainsKey(column))
            {
                AddCell(file, line, id, file.HeaderOf(column), "", text);
                continue;
            }

            if (!added.TryGetValue(column, out var values))
                added.Add(column, values = new HashSet<string>(StringComparer.Ordinal));
            values.Add(text);
        }
    }

    /// <summary>Rows that became the rows of the canonical table one for one.</summary>
    private void InOrder(FileReports file, WrittenTable table)
    {
        var open = table.Rows.ToList();
        var rows = new Dictionary<int, CanonicalRow>();
        foreach (var line in file.Written!.Lines.Where(line => !file.IsRejected(line)))
        {
            // Changes are sorted by their day: the row that has most of the cells; else the next.
            var texts = file.Written.Row(line).Select(cell => cell.Text).ToHashSet(StringComparer.Ordinal);
            if (open.MaxBy(row => row.Count(cell => cell is not null && texts.Contains(cell))) is not { } most)
                break;
            rows.Add(line, new CanonicalRow(table.Headers, most));
            open.Remove(most);
        }

        Rows(file, line => rows.TryGetValue(line, out var row) ? (row.Filled.First().Text, [row]) : null);
    }

    private void AddCell(FileReports file, int line, string id, string header, string from, string to)
    {
        var problem = _ofCells.GetValueOrDefault((file.File, header, line)) ?? _ofWords.GetValueOrDefault((file.File, header, from))
            ?? _ofWords.GetValueOrDefault((file.File, header, FormOf(from))) ?? _ofColumns.GetValueOrDefault((file.File, header));
        Add(file, line, id, header, from, to, problem?.Rule ?? OwnForm, problem?.Why ?? "The value is the same; its form is the kit's own.");
    }

    /// <summary>Keeps a report where it tells of another value than is written: not one on a value that was kept, nor what is only worth knowing.</summary>
    private void Index(LogProblem problem)
    {
        if (problem.Rule is Rule.BareTemperature or Rule.FormulaMark or Rule.UnknownColumn)
            _ofColumns.TryAdd((problem.File, problem.Column), problem);
        if (problem.Rule is Rule.WordReadAs)
            _ofWords.TryAdd((problem.File, problem.Column, problem.Found), problem);
        // Told once a column, of the first cell in such a form.
        if (problem.Rule is Rule.QuantityReadAs or Rule.DateReadAs)
            _ofWords.TryAdd((problem.File, problem.Column, FormOf(problem.Found)), problem);
        var explains = problem.Severity == Severity.Information
            ? problem.Rule is Rule.WordReadAs or Rule.WordForMissing or Rule.SpreadsheetTime or Rule.TimeInUtc
            : LogRule.Named(problem.Rule) is { CanBeAccepted: false } || problem.Rule is Rule.BagContradicts or Rule.CoffeeContradicts;
        var cell = (problem.File, problem.Column, problem.Line);
        if (explains && (!_ofCells.TryGetValue(cell, out var known) || known.Severity < problem.Severity))
            _ofCells[cell] = problem;
    }

    /// <summary>How a quantity or a date is written: its signs and units, a letter for each word of a date, no digits. Never a text that stands in a cell.</summary>
    private static string FormOf(string text)
    {
        var form = new StringBuilder("\0");
        foreach (var word in text.Split(' ', StringSplitOptions.RemoveEmptyEntries))
        {
            var signs = string.Concat(word.Where(c => !char.IsAsciiDigit(c) && c is not ('.' or ',')));
            form.Append(text.Any(char.IsAsciiDigit) && signs.Length >= ShortestMonth && char.IsUpper(signs[0]) ? "M" : signs is "st" or "nd" or "rd" or "th" ? "" : signs);
        }

        return form.ToString();
    }

    private void Add(FileReports file, int line, string id, string column, string from, string to, string rule, string why) =>
        _changes.Add(new CellChange(file.File, line, id, column, from, to, rule, why));

    private sealed class CanonicalRow(IReadOnlyList<string> headers, IReadOnlyList<string?> cells)
    {
        public IEnumerable<(string Column, string Text)> Filled => headers.Zip(cells).Where(pair => !string.IsNullOrEmpty(pair.Second)).Select(pair => (pair.First, pair.Second!));

        public string? Of(string column)
        {
            for (var i = 0; i < headers.Count; i++)
            {
                if (headers[i] == column)
                    return cells[i] ?? "";
            }

            return null;
        }
    }
}
