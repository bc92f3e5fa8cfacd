using TastingKit.Reading;

namespace TastingKit.Joining;

/// <summary>The log of one folder among several, with the reports that joining it to the others gives.</summary>
internal sealed class FolderLog
{
    private const int MostNamed = 5;

    private readonly LogFiles _files;
    private readonly List<LogProblem> _problems;
    private readonly List<RowAccount> _accounts;
    private readonly Dictionary<(string File, int Line), Severity> _worst = [];
    private readonly Dictionary<string, int> _lineOfBag;
    private readonly Dictionary<string, int> _lineOfCup;
    private readonly Dictionary<FindingKey, AcceptedEntry> _unmet;
    private readonly List<ConfirmedDoubt> _confirmed;

    /// <summary>Takes a log that was read.</summary>
    /// <param name="label">What its reports call the folder.</param>
    /// <param name="files">Its files.</param>
    /// <param name="log">The log.</param>
    /// <param name="trace">On which line what stands.</param>
    public FolderLog(string label, LogFiles files, TastingLog log, ReadingTrace trace)
    {
        _files = files;
        (Label, Log, BagsFile, CupsFile) = (label, log, trace.BagsFile ?? "bags.csv", trace.CupsFile ?? "tastings.csv");
        _problems = [.. log.Problems.Select(InFolder)];
        _accounts = [.. log.Accounts.Select(account => account with { File = InReports(account.File) })];
        foreach (var problem in _problems.Where(problem => problem.Line > 0))
            Worsen((problem.File, problem.Line), problem.Severity);
        _lineOfBag = trace.Bags.ToDictionary(pair => pair.Bag.Id, pair => pair.Line, StringComparer.Ordinal);
        _lineOfCup = trace.Cups.ToDictionary(pair => pair.Cup.Id, pair => pair.Line, StringComparer.Ordinal);
        _unmet = trace.Unmet.ToDictionary(entry => entry.Finding);
        _confirmed = [.. log.Confirmed.Select(confirmed => confirmed with { Problem = InFolder(confirmed.Problem) })];
    }

    /// <summary>What reports call the folder.</summary>
    public string Label { get; }

    /// <summary>Its log.</summary>
    public TastingLog Log { get; }

    /// <summary>The file of its bags.</summary>
    public string BagsFile { get; }

    /// <summary>The file of its cups.</summary>
    public string CupsFile { get; }

    /// <summary>Its reports.</summary>
    public IReadOnlyList<LogProblem> Problems => _problems;

    /// <summary>Its accounts.</summary>
    public IReadOnlyList<RowAccount> Accounts => _accounts;

    /// <summary>Its confirmed doubts.</summary>
    public IReadOnlyList<ConfirmedDoubt> Confirmed => _confirmed;

    /// <summary>Whether a cup has no identifier of its own and is called by its line.</summary>
    public bool IsNamedByLine(Tasting cup) => cup.Id.TrimEnd('+') == FormattableString.Invariant($"line-{_lineOfCup[cup.Id]}");

    /// <summary>Where a cup stands, for a report on another.</summary>
    public string PlaceOf(Tasting cup) => FormattableString.Invariant($"Line {_lineOfCup[cup.Id]} of {InReports(CupsFile)}");

    /// <summary>Reports something of a bag.</summary>
    public void OnBag(Bag bag, Severity severity, string column, string found, CellFault fault) => Add(BagsFile, _lineOfBag[bag.Id], bag.Id, severity, column, found, fault);

    /// <summary>Reports something of a cup.</summary>
    public void OnCup(Tasting cup, Severity severity, string column, string found, CellFault fault) => Add(CupsFile, _lineOfCup[cup.Id], cup.Id, severity, column, found, fault);

    /// <summary>Reports something of a whole column or file.</summary>
    public void OnFile(string file, Severity severity, string column, string found, CellFault fault) =>
        Add(new LogProblem(severity, fault.Rule, InReports(file), 0, column, null, found, fault.Why, fault.Expected) { Beside = fault.Beside });

    /// <summary>Reports identifiers that stand for something else in an earlier folder, all in one.</summary>
    public void IdsReused(string file, string column, IReadOnlyList<string> ids)
    {
        if (ids.Count == 0)
            return;
        OnFile(file, Severity.Information, column, string.Join(", ", ids.Take(MostNamed)) + (ids.Count > MostNamed ? ", …" : ""), new CellFault(Rule.IdReused,
            $"{NumberText.Count(ids.Count, "identifier")} of this file {(ids.Count == 1 ? "stands" : "stand")} for something else in an earlier folder; '{Label}/' was put in front.",
            "identifiers that no other year uses"));
    }

    /// <summary>Reports rows that an earlier folder has letter for letter, and which were taken once.</summary>
    public void RowsRepeated(string file, int rows)
    {
        if (rows > 0)
        {
            OnFile(file, Severity.Information, "", "", new CellFault(Rule.RepeatedRow,
                $"{NumberText.Count(rows, "row")} of this file {(rows == 1 ? "says" : "say")} the same as one of an earlier folder, and stand{(rows == 1 ? "s" : "")} in the log once.", "each row in one folder"));
        }
    }

    private void Add(string file, int line, string rowId, Severity severity, string column, string found, CellFault fault) =>
        Add(new LogProblem(severity, fault.Rule, InReports(file), line, column, rowId, found, fault.Why, fault.Expected) { Beside = fault.Beside });

    /// <summary>Files a report, unless a line of the folder's <c>accepted.csv</c> that confirmed nothing so far confirms it.</summary>
    private void Add(LogProblem problem)
    {
        if (problem.Severity == Severity.Doubtful && _unmet.Remove(FindingKey.Of(problem), out var entry))
        {
            _confirmed.Add(new ConfirmedDoubt(problem, entry.Remark));
            TakeBackUnmet(entry.Line);
            return;
        }

        if (problem.Severity > Severity.Information && problem.Line > 0)
            Recount(problem.File, problem.Line, problem.Severity);
        _problems.Add(problem);
    }

    /// <summary>Takes back that a line of <c>accepted.csv</c> confirms nothing.</summary>
    private void TakeBackUnmet(int line)
    {
        var said = _problems.Find(problem => problem.Rule == Rule.AcceptedNotFound && problem.Line == line)!;
        _problems.Remove(said);
        if (_problems.Exists(problem => problem.File == said.File && problem.Line == line && problem.Severity > Severity.Information))
            return;
        var index = _accounts.FindIndex(account => account.File == said.File);
        _accounts[index] = _accounts[index] with { Doubtful = _accounts[index].Doubtful - 1 };
    }

    /// <summary>Moves a row that was accepted to what it is now.</summary>
    private void Recount(string file, int line, Severity severity)
    {
        var worst = _worst.GetValueOrDefault((file, line));
        if (worst >= severity)
            return;
        Worsen((file, line), severity);
        var index = _accounts.FindIndex(account => account.File == file);
        var account = _accounts[index];
        _accounts[index] = severity == Severity.Doubtful
            ? account with { Doubtful = account.Doubtful + 1 }
            : account with { Accepted = account.Accepted - 1, Rejected = account.Rejected + 1, Doubtful = account.Doubtful - (worst == Severity.Doubtful ? 1 : 0) };
    }

    private void Worsen((string File, int Line) row, Severity severity) =>
        _worst[row] = _worst.TryGetValue(row, out var known) && known > severity ? known : severity;

    private LogProblem InFolder(LogProblem problem) => problem with { File = InReports(problem.File) };

    private string InReports(string file) => _files.InReports(file, Label);
}
