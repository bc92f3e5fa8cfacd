using TastingKit.Joining;
using TastingKit.Reading;

namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// Reads a log: a folder with <c>bags.csv</c> and <c>tastings.csv</c> (and, where they are kept, <c>scales.csv</c>, <c>verdicts.csv</c>,
    /// <c>blind-tests.csv</c>, <c>changes.csv</c>, <c>columns.csv</c>, <c>vocabulary.csv</c>, <c>accepted.csv</c>), or one CSV file with a row for each cup that repeats its bag's columns;
    /// or a workbook (<c>.xlsx</c>) with a sheet in the place of each file, called as the file is.
    /// </summary>
    /// <remarks>
    /// Encoding, delimiter and decimal sign are found out. A bad cell is left missing and its row is doubtful; a row without a sound
    /// <c>bag_id</c> or, for a cup, <c>tasted_at</c> is rejected. Every such cell is in <see cref="Problems"/> with its place, and
    /// <see cref="Accounts"/> say for each file that rows in = accepted + rejected. No bad row throws. Of a workbook they name the sheet behind the
    /// workbook: <c>my-year.xlsx/tastings</c>.
    /// </remarks>
    /// <param name="folderOrFile">The folder, or the one file.</param>
    /// <param name="cancellationToken">Ends the reading.</param>
    /// <exception cref="LogReadException">There is no such folder or file, it holds no CSV, or a file lacks a column without which no row can be read.</exception>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TastingLog Read(string folderOrFile, CancellationToken cancellationToken = default)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folderOrFile);
        return LogReader.Read(LogFiles.At(folderOrFile, WorkWatch.None), cancellationToken);
    }

    /// <summary>Reads a log as <see cref="Read(string, CancellationToken)"/> does, and tells how far it has come.</summary>
    /// <param name="folderOrFile">The folder, or the one file.</param>
    /// <param name="watch">Who watches the reading, and may end it. The log that is read is not watched by it.</param>
    /// <exception cref="LogReadException">There is no such folder or file, it holds no log, or a file lacks a column without which no row can be read.</exception>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TastingLog Read(string folderOrFile, WorkWatch watch)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folderOrFile);
        ArgumentNullException.ThrowIfNull(watch);
        return LogReader.Read(LogFiles.At(folderOrFile, watch), watch.CancellationToken, watch: watch);
    }

    /// <summary>Reads several logs, such as a folder a year, as one.</summary>
    /// <remarks>
    /// Bags that go on from one folder into the next (the same identifier, coffee, roaster and day of roasting) are one bag. An identifier that
    /// stands for two things gets the later folder's name in front, and is reported. Where <c>scales.csv</c> differs, scores are moved linearly
    /// onto the scale of the last folder that has them, the value as written is kept in <see cref="Tasting.AsWritten"/>, and it is reported; scales of two kinds are
    /// kept apart. Reports and accounts name their file with its folder: <c>2024/tastings.csv</c>.
    /// </remarks>
    /// <param name="foldersOrFiles">The folders, or flat files, in the order of their years.</param>
    /// <param name="cancellationToken">Ends the reading.</param>
    /// <exception cref="ArgumentException">None is given, or one is given twice.</exception>
    /// <exception cref="LogReadException">One can't be read at all.</exception>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TastingLog Read(IReadOnlyList<string> foldersOrFiles, CancellationToken cancellationToken = default) =>
        Read(foldersOrFiles, WorkWatch.Of(null, cancellationToken));

    /// <summary>Reads several logs as one, as <see cref="Read(IReadOnlyList{string}, CancellationToken)"/> does, and tells how far it has come.</summary>
    /// <param name="foldersOrFiles">The folders, or flat files, in the order of their years.</param>
    /// <param name="watch">Who watches the reading, and may end it. The log that is read is not watched by it.</param>
    /// <exception cref="ArgumentException">None is given, or one is given twice.</exception>
    /// <exception cref="LogReadException">One can't be read at all.</exception>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TastingLog Read(IReadOnlyList<string> foldersOrFiles, WorkWatch watch)
    {
        ArgumentNullException.ThrowIfNull(foldersOrFiles);
        ArgumentNullException.ThrowIfNull(watch);
        if (foldersOrFiles.Count == 0)
            throw new ArgumentException("No folder is given; one or more would be right.", nameof(foldersOrFiles));
        if (foldersOrFiles.GroupBy(folder => Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder)), StringComparer.Ordinal).FirstOrDefault(group => group.Count() > 1) is { } twice)
            throw new ArgumentException($"'{twice.First()}' is given twice; each folder once would be right.", nameof(foldersOrFiles));
        return foldersOrFiles.Count == 1
            ? Read(foldersOrFiles[0], watch)
            : LogJoin.Read(foldersOrFiles, watch);
    }
}
