namespace TastingKit.Reading;

/// <summary>
/// The reports on one file, and from them its account. What became of a row follows from its reports alone, so that a row can't be
/// dropped without one.
/// </summary>
internal sealed class FileReports(string file)
{
    private FileReports? _main;
    private readonly List<LogProblem> _problems = [];
    private readonly LineSet _rejected = new();
    private readonly LineSet _doubtful = new();
    private readonly HashSet<(string Rule, string Column)> _saidOnce = [];
    private readonly Dictionary<string, string> _headers = new(StringComparer.Ordinal);
    private readonly HashSet<string> _rules = new(StringComparer.Ordinal);
    private string? _lastRule;
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

    /// <summary>Reports on the same file that are gathered apart, on another thread perhaps, until <see cref="Join"/> files them here.</summary>
    public FileReports Apart() => new(File) { _main = this };

    /// <summary>Drops the reports, and keeps what was taken note of.</summary>
    public void Forget()
    {
        _problems.Clear();
        _rejected.Clear();
        _doubtful.Clear();
    }

    /// <summary>Files what was gathered apart.</summary>
    public void Join(FileReports apart)
    {
        _problems.AddRange(apart._problems);
        _rules.UnionWith(apart._rules);
        _rejected.UnionWith(apart._rejected);
        _doubtful.UnionWith(apart._doubtful);
    }

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
        if (!ReferenceEquals(fault.Rule, _lastRule))
            _rules.Add(_lastRule = fault.Rule);
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
    public IReadOnlyDictionary<string, string> Headers => _main?.Headers ?? _headers;

    /// <summary>The header of a column as written; its canonical name where the file has no such column.</summary>
    public string HeaderOf(string column) => Headers.GetValueOrDefault(column, column);

    /// <summary>How many values of a column, by its canonical name, were reported off their scale and between its steps.</summary>
    public (int Off, int Between) CountOffScale(string column)
    {
        var header = HeaderOf(column);
        int off = 0, between = 0;
        if (!(_main ?? this).MayHave(Rule.ScoreOffScale) && !(_main ?? this).MayHave(Rule.ScoreBetweenSteps))
            return (0, 0);
        foreach (var problem in (_main ?? this)._problems)
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

    /// <summary>Whether a rule was ever reported of a row; where not, there is nothing to look for among reports that may be one a row.</summary>
    public bool MayHave(string rule) => _rules.Contains(rule);

    /// <summary>How many reports there are so far.</summary>
    public int Count => _problems.Count;

    /// <summary>How much was said and taken note of so far: grows with each report, each first time and each new spelling.</summary>
    public int Noticed => _problems.Count + _saidOnce.Count + Spellings.Count;

    /// <summary>The reports so far.</summary>
    public IReadOnlyList<LogProblem> Problems => _problems;

    /// <summary>Whether this is the first time that a rule speaks of a column, for what is said once a file.</summary>
    public bool FirstTime(string rule, string column) => _saidOnce.Add((rule, column));

    /// <summary>The reports in the order of their lines; those of one line in the order made.</summary>
    public IReadOnlyList<LogProblem> InOrder()
    {
        // Reports on rows are made in order, and a file of scraps has one or more a row; those on columns and on rows held against one another follow.
        var first = 1;
        while (first < _problems.Count && _problems[first].Line >= _problems[first - 1].Line)
            first++;
        if (first >= _problems.Count)
            return [.. _problems];
        var ordered = new List<LogProblem>(_problems.Count);
        var next = 0;
        foreach (var late in _problems.Skip(first).OrderBy(problem => problem.Line))
        {
            for (; next < first && _problems[next].Line <= late.Line; next++)
                ordered.Add(_problems[next]);
            ordered.Add(late);
        }

        ordered.AddRange(_problems[next..first]);
        return ordered;
    }

    /// <summary>The account: every row in is accepted or rejected.</summary>
    public RowAccount Account()
    {
        _doubtful.ExceptWith(_rejected);
        return new RowAccount(File, _rows, _rows - _rejected.Count, _doubtful.Count, _rejected.Count);
    }
}
