namespace TastingKit.Cli;

/// <summary>The log that a command was given.</summary>
internal static class LogFolder
{
    /// <summary>The full path, if there is something.</summary>
    /// <exception cref="CommandException">Nothing is there.</exception>
    internal static string Find(string path)
    {
        var full = Path.GetFullPath(path);
        if (!Directory.Exists(full) && !File.Exists(full))
            throw new CommandException($"There is no folder '{path}'. Expected a folder with bags.csv and tastings.csv, or one flat CSV file.");
        return full;
    }

    /// <summary>The name by which pages call a log; <see langword="null"/> for none.</summary>
    internal static string? NameOf(string? fullPath) => fullPath is null ? null : Path.GetFileName(Path.TrimEndingDirectorySeparator(fullPath));

    /// <summary>The log.</summary>
    /// <exception cref="CommandException">Nothing is there, or it can't be read as a log at all.</exception>
    internal static TastingLog Read(IReadOnlyList<string> paths, CancellationToken cancel) => Try(() => TastingLog.Read([.. paths.Select(Find)], cancel));

    /// <summary>The log with what its canonical form has otherwise.</summary>
    /// <exception cref="CommandException">Nothing is there, or it can't be read as a log at all.</exception>
    internal static FixedLog ReadToFix(string path, CancellationToken cancel) => Try(() => FixedLog.Of(Find(path), cancel));

    private static T Try<T>(Func<T> read)
    {
        try
        {
            return read();
        }
        catch (Exception error) when (error is LogReadException or ArgumentException or IOException or UnauthorizedAccessException)
        {
            throw new CommandException(error.Message);
        }
    }
}
