namespace TastingKit;

/// <summary>The log that a notebook, or the script made of it, is about: chosen once, read once, and read again when another is chosen.</summary>
internal sealed class NotebookLog
{
    /// <summary>What stands between the folders of a log of several.</summary>
    public const char Parting = '\n';

    private const string SampleFolder = "sample-data";

    private readonly Lock _gate = new();
    private readonly WorkWatch _watch;
    private readonly string _advice;
    private TastingLog? _log;
    private string? _folder;

    /// <summary>No log is chosen yet.</summary>
    /// <param name="watch">Who watches the reading, and whatever is asked of the log.</param>
    /// <param name="advice">How to choose a log: a sentence for whoever has none; empty for no advice.</param>
    public NotebookLog(WorkWatch watch, string advice)
    {
        ArgumentNullException.ThrowIfNull(watch);
        ArgumentNullException.ThrowIfNull(advice);
        _watch = watch;
        _advice = advice;
    }

    /// <summary>
    /// The folder (or flat file) of the log; several, one a line, are read as one. <see langword="null"/>: the folder <c>sample-data</c> in the working directory or in the nearest
    /// one above it.
    /// </summary>
    public string? Folder
    {
        get => _folder;
        set
        {
            lock (_gate)
            {
                _folder = value;
                _log = null;
            }
        }
    }

    /// <summary>The log, read at the first asking.</summary>
    /// <exception cref="DirectoryNotFoundException">No folder was chosen and no <c>sample-data</c> is found.</exception>
    public TastingLog Log
    {
        get
        {
            lock (_gate)
                return _log ??= TastingLog.Read((_folder ?? FindSampleFolder()).Split(Parting), _watch).WatchedBy(_watch);
        }
    }

    private string FindSampleFolder()
    {
        for (var folder = new DirectoryInfo(Directory.GetCurrentDirectory()); folder is not null; folder = folder.Parent)
        {
            var sample = Path.Combine(folder.FullName, SampleFolder);
            if (Directory.Exists(sample))
                return sample;
        }

        throw new DirectoryNotFoundException(
            $"No log was given, and neither the working directory nor one above it holds the folder '{SampleFolder}'. {_advice}".TrimEnd());
    }
}
