using System.Globalization;
using TastingKit.Reading;
using TastingKit.Writing;

namespace TastingKit;

/// <summary>A log in its canonical form, with every cell that differs from what is written. Immutable.</summary>
public sealed class FixedLog
{
    /// <summary>The file, beside the canonical ones, that lists the changes. It is no part of the log.</summary>
    public const string ChangesFile = "fixed-cells.csv";

    private readonly IReadOnlyList<ConfirmedDoubt> _confirmed;

    private FixedLog(TastingLog log, IReadOnlyList<CellChange> changes) => (Log, Changes, _confirmed) = (log, changes, log.Confirmed);

    /// <summary>The log.</summary>
    public TastingLog Log { get; }

    /// <summary>Every change, by file and line. A row that was rejected is one change, its text the one left out.</summary>
    public IReadOnlyList<CellChange> Changes { get; }

    /// <summary>Reads a log, and finds what its canonical form has otherwise.</summary>
    /// <param name="folderOrFile">The folder, or the one file.</param>
    /// <param name="cancellationToken">Ends the reading.</param>
    /// <exception cref="LogReadException">It can't be read at all.</exception>
    public static FixedLog Of(string folderOrFile, CancellationToken cancellationToken = default)
    {
        return Of(folderOrFile, WorkWatch.Of(null, cancellationToken));
    }

    /// <summary>Reads a log as <see cref="Of(string, CancellationToken)"/> does, and tells how far it has come.</summary>
    /// <param name="folderOrFile">The folder, or the one file.</param>
    /// <param name="watch">Who watches the reading, and may end it.</param>
    /// <exception cref="LogReadException">It can't be read at all.</exception>
    public static FixedLog Of(string folderOrFile, WorkWatch watch)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folderOrFile);
        ArgumentNullException.ThrowIfNull(watch);
        return Of(LogFiles.At(folderOrFile, watch), watch);
    }

    /// <summary>The same of files that are held already.</summary>
    internal static FixedLog Of(LogFiles files, WorkWatch watch)
    {
        var trace = new ReadingTrace(keepCells: true);
        var log = LogReader.Read(files, watch.CancellationToken, trace, watch);
        watch.Report(new WorkProgress("listing changes", null));
        var changes = new CellChanges(log, trace).Find();
        return new FixedLog(LogReader.Reported(log, files), [.. changes.Select(change => change with { File = files.InReports(change.File) })]);
    }

    /// <summary>
    /// Writes the canonical files as <see cref="TastingLog.Write"/> does, with <c>fixed-cells.csv</c> beside them, and <c>accepted.csv</c> where
    /// doubts were confirmed that the canonical form raises too.
    /// </summary>
    /// <param name="folder">The folder; made if it is not there.</param>
    /// <param name="overwrite">Whether files of these names may be replaced.</param>
    /// <exception cref="IOException">A file is there and may not be replaced, or the folder can't be written.</exception>
    /// <exception cref="InvalidOperationException">The log would not be read back the same; nothing is written.</exception>
    public void Write(string folder, bool overwrite = false)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        var files = Log.FilesFor(folder, overwrite).ToList();
        if (_confirmed.Count > 0)
            files.Add(LogWriter.File(AcceptedAgain(files)));
        files.Add(LogWriter.File(new WrittenTable(
            ChangesFile,
            ["file", "line", "row_id", "column", "from", "to", "rule", "why"],
            [.. Changes.Select(change => (IReadOnlyList<string?>)
                [change.File, change.Line.ToString(CultureInfo.InvariantCulture), change.RowId, change.Column, change.From, change.To, change.Rule, change.Why])])));
        WholeFiles.Write(folder, files, overwrite);
    }

    /// <summary>The confirmations, in the words in which the canonical files raise the doubts.</summary>
    private WrittenTable AcceptedAgain(IReadOnlyList<WrittenFile> files)
    {
        var raised = LogReader.Read(
            LogFiles.InMemory(Log.Name, files.Select(file => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(file.Bytes)))), CancellationToken.None).Problems;
        // Of one doubt on a row or a column both forms have as many, in one order.
        var again = raised.Where(problem => problem.Severity == Severity.Doubtful).GroupBy(Place).ToDictionary(group => group.Key, group => new Queue<LogProblem>(group));
        var lines = new List<IReadOnlyList<string?>>();
        foreach (var (problem, remark) in _confirmed)
        {
            if (again.TryGetValue(Place(problem), out var left) && left.TryDequeue(out var now))
                lines.Add([now.Rule, now.File, FindingKey.RowIdOf(now), now.Column, now.Found, now.Beside, remark]);
        }

        return new WrittenTable(AcceptedTable.File, ["rule", "file", "row_id", "column", "found", "beside", "remark"], lines);

        static (string, string) Place(LogProblem problem) => (problem.Rule, FindingKey.RowIdOf(problem));
    }
}
