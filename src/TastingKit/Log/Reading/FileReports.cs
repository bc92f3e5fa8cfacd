using System.Text;

namespace TastingKit.Reading;

/// <summary>
/// The reports on one file, and from them its account. What became of a row follows from its reports alone, so that a row can't be
/// dropped without one.
/// </summary>
internal sealed class FileReports(string file)
{
    private readonly List<LogProblem> _problems = [];
    private readonly HashSet<int> _rejected = [];
    private readonly HashSet<int> _doubtful = [];
    private readonly HashSet<(string Rule, string Column)> _saidOnce = [];
    private readonly Dictionary<string, string> _headers = new(StringComparer.Ordinal);
    private int _rows;

    /// <summary>The file's name.</summary>
    public string File { get; } = file;

    /// <summary>The names met in the file's columns so far.</summary>
    public Spellings Spellings { get; } = new();

    /// <summary>Is told the share of the file that is read; <see langword="null"/> for nobody.</summary>
    public IProgress<double>? Progress { get; init; }

    /// <summary>Whether the file's rows were read, and so are to be accounted for.</summary>
    public bool WasRead { get; set; } = true;

    /// <summary>Where the cells are kept as they are written; <see langword="null"/> where nobody asks for them.</summary>
    public WrittenCells? Written { get; init; }

    /// <summary>Counts one row in.</summary>
    public void CountRow() => _rows++;

    /// <summary>Whether the row that begins on a line is rejected so far.</summary>
    public bool IsRejected(int line) => _rejected.Count > 0 && _rejected.Contains(line);

    /// <summary>Files a report on a row.</summary>
    public void Add(Severity severity, int line, string? rowId, string column, string found, CellFault fault)
    {
        if (severity == Severity.Rejected)
            _rejected.Add(line);
        else if (severity == Severity.Doubtful)
            _doubtful.Add(line);
        _problems.Add(new LogProblem(severity, fault.Rule, File, line, column, rowId, found, fault.Why, fault.Expected) { Beside = fault.Beside });
    }

    /// <summary>Files a report on the whole file or one of its columns.</summary>
    public void AboutFile(int line, string column, string found, CellFault fault) =>
        _problems.Add(new LogProblem(Severity.Information, fault.Rule, File, line, column, null, found, fault.Why, fault.Expected) { Beside = fault.Beside });

    /// <summary>Files a report on a whole column, by its canonical name. It costs no row.</summary>
    public void AboutColumn(Severity severity, string column, string found, CellFault fault) =>
        _problems.Add(new LogProblem(severity, fault.Rule, File, 0, HeaderOf(column), null, found, fault.Why, fault.Expected) { Beside = fault.Beside });

    /// <summary>Keeps the header under which a column is read.</summary>
    public void NoteHeader(string column, string header) => _headers[column] = header;

    /// <summary>The headers as written, by the canonical names of their columns.</summary>
    public IReadOnlyDictionary<string, string> Headers => _headers;

    /// <summary>The header of a column as written; its canonical name where the file has no such column.</summary>
    public string HeaderOf(string column) => _headers.GetValueOrDefault(column, column);

    /// <summary>How many values of a column, by its canonical name, were reported off their scale and between its steps.</summary>
    public (int Off, int Between) CountOffScale(string column)
    {
        var header = HeaderOf(column);
        int off = 0, between = 0;
        foreach (var problem in _problems)
        {
            if (problem.Column != header)
                continue;
            if (problem.Rule == Rule.ScoreOffScale)
                off++;
            else if (problem.Rule == Rule.ScoreBetweenSteps)
                between++;
        }

        return (off, between);
    }

    /// <summary>Takes back reports that turned out to say nothing, or that the user confirmed; which rows are doubtful follows what is left.</summary>
    /// <returns>Those taken back, in the order made. A rejection is never among them.</returns>
    public IReadOnlyList<LogProblem> Withdraw(Predicate<LogProblem> condition)
    {
        List<LogProblem>? withdrawn = null;
        foreach (var problem in _problems)
        {
            if (problem.Severity != Severity.Rejected && condition(problem))
                (withdrawn ??= []).Add(problem);
        }

        if (withdrawn is null)
            return [];
        var gone = withdrawn.ToHashSet(ReferenceEqualityComparer.Instance);
        _problems.RemoveAll(gone.Contains);
        _doubtful.Clear();
        foreach (var problem in _problems)
        {
            if (problem.Severity == Severity.Doubtful && problem.Line > 0)
                _doubtful.Add(problem.Line);
        }

        return withdrawn;
    }

    /// <summary>How many reports there are so far.</summary>
    public int Count => _problems.Count;

    /// <summary>The reports so far.</summary>
    public IReadOnlyList<LogProblem> Problems => _problems;

    /// <summary>Whether this is the first time that a rule speaks of a column, for what is said once a file.</summary>
    public bool FirstTime(string rule, string column) => _saidOnce.Add((rule, column));

    /// <summary>The reports in the order of their lines; those of one line in the order made.</summary>
    public IEnumerable<LogProblem> InOrder() => _problems.OrderBy(problem => problem.Line);

    /// <summary>The account: every row in is accepted or rejected.</summary>
    public RowAccount Account()
    {
        _doubtful.ExceptWith(_rejected);
        return new RowAccount(File, _rows, _rows - _rejected.Count, _doubtful.Count, _rejected.Count);
    }
}

/// <summary>Where a row stands, for the reports on its cells.</summary>
internal sealed class RowReports(FileReports file, RecordReader records, int idIndex)
{
    /// <summary>The reports on the whole file.</summary>
    public FileReports File { get; } = file;

    /// <summary>The line on which the row begins.</summary>
    public int Line => records.Line;

    /// <summary>Whether the row is rejected so far.</summary>
    public bool Rejected => File.IsRejected(Line);

    /// <summary>The row's identifier, if it has one that could be read.</summary>
    public string? RowId
    {
        get
        {
            if (idIndex < 0)
                return null;
            var text = Encoding.UTF8.GetString(Reading.Cell.Of(records[idIndex]).Utf8);
            return text.Length == 0 ? null : text;
        }
    }

    /// <summary>What the row says, its identifier left out, as 64 bits.</summary>
    public ulong Content { get; private set; }

    /// <summary>Begins a row.</summary>
    public void Begin() => Content = 0;

    /// <summary>Adds a cell to what the row says.</summary>
    public void AddContent(int index, ReadOnlySpan<byte> written)
    {
        if (index != idIndex)
            Content = ContentHash.With(Content, written);
    }

    /// <summary>Reports a fault of a cell.</summary>
    public void Cell(Severity severity, in Cell cell, CellFault fault) =>
        File.Add(severity, Line, RowId, cell.Header, Encoding.UTF8.GetString(cell.Written), fault);

    /// <summary>Reports a fault of a column whose cell is no longer at hand.</summary>
    public void Column(Severity severity, string header, string found, CellFault fault) =>
        File.Add(severity, Line, RowId, header, found, fault);

    /// <summary>Reports a fault of the row as a whole.</summary>
    public void Row(Severity severity, string found, CellFault fault) => File.Add(severity, Line, RowId, "", found, fault);
}
