using TastingKit.Checking;
using TastingKit.Writing;

namespace TastingKit.Reading;

/// <summary>Reads the files of a log in the order in which they need one another, and puts the log together.</summary>
internal sealed class LogReader
{
    private const string BagsFile = "bags.csv";
    private const string TastingsFile = "tastings.csv";

    private static readonly string[] BesideTheTable =
        [ScaleTable.File, VerdictTable.File, BlindTestTable.File, ChangeTable.File, ColumnMapTable.File, VocabularyTable.File, AcceptedTable.File, FixedLog.ChangesFile];

    private readonly LogFiles _files;
    private readonly CancellationToken _cancellation;
    private readonly List<FileReports> _reports = [];
    private ColumnMap _map = new();

    private readonly ReadingTrace? _trace;

    private readonly WorkWatch _watch;

    private LogReader(LogFiles files, ReadingTrace? trace, WorkWatch watch, CancellationToken cancellation) =>
        (_files, _trace, _watch, _cancellation) = (files, trace, watch, cancellation);

    /// <summary>Reads a log.</summary>
    /// <param name="files">Its files.</param>
    /// <param name="cancellation">Ends the reading.</param>
    /// <param name="trace">Takes down which cell became what; <see langword="null"/> where nobody asks.</param>
    /// <exception cref="LogReadException">A file can't be read at all.</exception>
    /// <param name="watch">Is told how far the reading has come; <see langword="null"/> for nobody.</param>
    public static TastingLog Read(LogFiles files, CancellationToken cancellation, ReadingTrace? trace = null, WorkWatch? watch = null)
    {
        var log = new LogReader(files, trace, watch ?? WorkWatch.None, cancellation).Read();
        return trace is null ? Reported(log, files) : log;
    }

    private TastingLog Read()
    {
        var cupsFile = CupsFile();
        var bagsAreInTheTable = cupsFile is not null && !_files.Has(BagsFile);
        if (_files.Has(ColumnMapTable.File))
            _map = ColumnMapTable.Read(_files.Open(ColumnMapTable.File), Reports(ColumnMapTable.File), _cancellation);

        var scaleReports = _files.Has(ScaleTable.File) ? Reports(ScaleTable.File) : null;
        var scales = scaleReports is not null ? ScaleTable.Read(_files.Open(ScaleTable.File), scaleReports, _map, _cancellation) : [];
        var scaleOf = scales.ToDictionary(stated => stated.Scale.Attribute, stated => stated.Scale);

        var own = ReadBeside(VocabularyTable.File, (file, reports) => VocabularyTable.Read(file, reports, _map, _cancellation));
        var words = new KnownWords(Vocabulary.Shipped.With(own));
        var bags = new BagRegister(words);
        if (_files.Has(BagsFile))
            bags.Read(_files.Open(BagsFile), Reports(BagsFile), _map, _cancellation);

        var cups = new CupReader(bags, bagsAreInTheTable, scaleOf, words);
        var cupReports = cupsFile is null ? null : Reports(cupsFile);
        if (cupsFile is not null)
            cups.Read(_files.Open(cupsFile), cupReports!, _map, _cancellation);
        var (allBags, tastings) = cups.Finish();
        _trace?.Note(cupsFile, bagsAreInTheTable, allBags, bags, tastings, cups);
        ReportUnusedScales(scales, cups, scaleReports);
        words.Report();
        _watch.Report(new WorkProgress("holding rows against one another", null));
        PlausibilityChecks.Run(
            new RowsToCheck
            {
                Bags = allBags,
                LineOfBag = bags.LineOf,
                BagReports = bags.Reports ?? new FileReports(BagsFile),
                Cups = tastings,
                LineOfCup = cups.LineOf,
                Contents = cups.Contents,
                CupReports = cupReports ?? new FileReports(TastingsFile),
                ScoredColumns = cups.ScoredColumns,
                Vocabulary = words.Vocabulary,
            },
            _cancellation);

        var scoreScale = scaleOf.GetValueOrDefault(TastingAttribute.Score) ?? Scale.Default(TastingAttribute.Score);
        var contents = new LogContents
        {
            Name = _files.Name,
            Bags = allBags,
            Tastings = tastings,
            Scales = [.. scales.Select(stated => stated.Scale)],
            Vocabulary = words.Vocabulary,
            PublishedVerdicts = ReadBeside(VerdictTable.File, (file, reports) => VerdictTable.Read(file, reports, _map, bags, scoreScale, _cancellation)),
            BlindTests = ReadBeside(BlindTestTable.File, (file, reports) => BlindTestTable.Read(file, reports, _map, bags, _cancellation)),
            Changes = ReadBeside(ChangeTable.File, (file, reports) => ChangeTable.Read(file, reports, _map, _cancellation)),
        };
        ReportMissingAndUnread(cupsFile);
        return new TastingLog(contents with
        {
            Confirmed = Confirm(),
            Problems = [.. _reports.SelectMany(reports => reports.InOrder())],
            Accounts = [.. _reports.Where(reports => reports.WasRead).Select(reports => reports.Account())],
        });
    }

    /// <summary>The log with its reports under the names that reports have for its files, once nothing more is looked up by the files' own.</summary>
    /// <param name="log">A log that was read with a trace.</param>
    /// <param name="files">Its files.</param>
    public static TastingLog Reported(TastingLog log, LogFiles files) => log.WithReports(file => files.InReports(file));

    /// <summary>The file that holds the cups: <c>tastings.csv</c>, or the one other CSV file there is; none where only bags are logged.</summary>
    private string? CupsFile()
    {
        if (_files.Has(TastingsFile))
            return TastingsFile;
        if (_files.Has(BagsFile))
            return null;
        var tables = _files.Names.Except(BesideTheTable, StringComparer.OrdinalIgnoreCase).ToList();
        return tables switch
        {
            [var only] => only,
            [] => throw new LogReadException(
                $"'{_files.Place}' holds no CSV file with cups and no workbook. bags.csv and tastings.csv, one CSV file with a row for each cup, or an .xlsx workbook of them, would be right."),
            _ => throw new LogReadException(
                $"'{_files.Place}' holds no tastings.csv but {tables.Count} other CSV files ({string.Join(", ", tables.Take(10))}), so that which has the cups can't be told. "
                + "bags.csv and tastings.csv, or one CSV file with a row for each cup, would be right."),
        };
    }

    private IReadOnlyList<T> ReadBeside<T>(string file, Func<SourceFile, FileReports, IReadOnlyList<T>> read) =>
        _files.Has(file) ? read(_files.Open(file), Reports(file)) : [];

    private FileReports Reports(string file)
    {
        var reports = new FileReports(_files.Has(file) ? _files.NameAsWritten(file) : file)
        {
            Written = _trace is { KeepsCells: true } ? new WrittenCells() : null,
            Progress = _watch.Step($"reading {file}"),
        };
        _reports.Add(reports);
        _trace?.Add(reports);
        return reports;
    }

    private IReadOnlyList<ConfirmedDoubt> Confirm()
    {
        if (!_files.Has(AcceptedTable.File))
            return [];
        var reports = Reports(AcceptedTable.File);
        var confirmed = Confirmations.Apply(AcceptedTable.Read(_files.Open(AcceptedTable.File), reports, _map, _cancellation), reports, _reports, out var unmet);
        _trace?.NoteUnmet(unmet);
        return confirmed;
    }

    private static void ReportUnusedScales(IReadOnlyList<(Scale Scale, int Line)> scales, CupReader cups, FileReports? reports)
    {
        foreach (var (scale, line) in scales.Where(stated => !cups.AttributesWithColumn.Contains(stated.Scale.Attribute)))
        {
            reports!.Add(Severity.Information, line, scale.Attribute.Name, "attribute", scale.Attribute.Name, new CellFault(
                Rule.UnusedScale, "No column of the cups has this name.", "the name of a column of scores"));
        }
    }

    private void ReportMissingAndUnread(string? cupsFile)
    {
        if (cupsFile is null)
        {
            Unread(TastingsFile).AboutFile(0, "", "", new CellFault(
                Rule.MissingFile, "There is no tastings.csv: the log holds bags and no cups.", "tastings.csv with a row for each cup"));
        }

        foreach (var name in _files.Pending)
        {
            Unread(name + WholeFiles.Unfinished).AboutFile(0, "", name + WholeFiles.Unfinished, new CellFault(Rule.WriteBrokenOff,
                $"A write into this folder was ended before it had renamed every file. This one was read in place of {name}, so that the log is the one that was written.",
                "nothing; the next write puts it in its place"));
        }

        var known = BesideTheTable.Append(BagsFile).Append(cupsFile ?? TastingsFile).ToHashSet(StringComparer.OrdinalIgnoreCase);
        foreach (var name in _files.Names.Where(name => !known.Contains(name)))
        {
            Unread(name).AboutFile(0, "", name, new CellFault(
                Rule.FileNotRead, "The file is none of a log's and was not read.", $"one of {string.Join(", ", known.Order(StringComparer.Ordinal))}"));
        }
    }

    private FileReports Unread(string file)
    {
        var reports = Reports(file);
        reports.WasRead = false;
        return reports;
    }
}
