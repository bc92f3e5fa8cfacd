using TastingKit.Reading;
using TastingKit.Writing;

namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// Writes the log as the canonical CSV files: <c>bags.csv</c>, <c>tastings.csv</c>, and of <c>scales.csv</c>, <c>verdicts.csv</c>,
    /// <c>blind-tests.csv</c>, <c>changes.csv</c> and <c>vocabulary.csv</c> those that have a row. Reading the folder gives the same log back.
    /// </summary>
    /// <remarks>
    /// A folder that is not there appears with all its files at once. In one that is there each file is written whole under another name and then
    /// renamed, so that the old or the new one is there whenever the process ends, and reading the folder gives the old log or the new one.
    /// The same log gives the same bytes. A text that a spreadsheet would run as a formula (it begins with <c>= + - @</c> and is no number) gets an
    /// apostrophe in front, which reading takes off again. Reports, confirmations and accounts of reading are not part of it.
    /// </remarks>
    /// <param name="folder">The folder; made if it is not there.</param>
    /// <param name="overwrite">Whether files of these names may be replaced. One that this log has no row for is then left with its header alone.</param>
    /// <exception cref="IOException">A file is there and may not be replaced, or the folder can't be written.</exception>
    /// <exception cref="InvalidOperationException">
    /// The log holds something that would not be read back the same, such as a note with a semicolon in it; the message says what. Nothing is written.
    /// </exception>
    public void Write(string folder, bool overwrite = false)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(folder);
        WholeFiles.Write(folder, FilesFor(folder, overwrite), overwrite);
    }

    /// <summary>The files to be written into a folder, known to read back the same.</summary>
    internal IReadOnlyList<WrittenFile> FilesFor(string folder, bool overwrite)
    {
        var files = LogWriter.Lay(this);
        var readBack = LogReader.Read(
            LogFiles.InMemory(Name, files.Select(file => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(file.Bytes)))), CancellationToken.None);
        if (LogDifference.First(this, readBack) is { } difference)
            throw new InvalidOperationException($"The log can't be written so that it reads back the same: {difference}.");
        return [.. files.Where(file => file.Rows > 0 || file.Name is "bags.csv" or "tastings.csv" || (overwrite && File.Exists(Path.Combine(folder, file.Name))))];
    }
}
