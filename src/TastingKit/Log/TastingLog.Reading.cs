using TastingKit.Reading;

namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// Reads a log: a folder with <c>bags.csv</c> and <c>tastings.csv</c> (and, where they are kept, <c>scales.csv</c>, <c>verdicts.csv</c>,
    /// <c>blind-tests.csv</c>, <c>changes.csv</c>, <c>columns.csv</c>, <c>vocabulary.csv</c>, <c>accepted.csv</c>), or one CSV file with a row for each cup that repeats its bag's columns.
    /// </summary>
    /// <remarks>
    /// Encoding, delimiter and decimal sign are found out. A bad cell is left missing and its row is doubtful; a row without a sound
    /// <c>bag_id</c> or, for a cup, <c>tasted_at</c> is rejected. Every such cell is in <see cref="Problems"/> with its place, and
    /// <see cref="Accounts"/> say for each file that rows in = accepted + rejected. No bad row throws.
    /// </remarks>
    /// <param name="folderOrFile">The folder, or the one file.</param>
    /// <param name="cancellationToken">Ends the reading.</param>
    /// <exception cref="LogReadException">There is no such folder or file, it holds no CSV, or a file lacks a column without which no row can be read.</exception>
    /// <exception cref="OperationCanceledException">The reading was ended.</exception>
    public static TastingLog Read(string folderOrFile, CancellationToken cancellationToken = default)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folderOrFile);
        return LogReader.Read(LogFiles.At(folderOrFile), cancellationToken);
    }
}
