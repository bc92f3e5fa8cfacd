using System.CommandLine;

namespace TastingKit.Cli;

/// <summary>The log that a command was given.</summary>
internal static class LogFolder
{
    /// <summary>What stands between the folders of a log of several, as a notebook takes them.</summary>
    private const char NotebookLogParting = '\n';

    /// <summary>The argument of a command on a log.</summary>
    internal static Argument<string[]> Argument() => new("FOLDER")
    {
        Description = "The folder of the log, one flat CSV file, or a workbook (.xlsx); several, such as a folder a year, are read as one log.",
        Arity = ArgumentArity.OneOrMore,
    };

    /// <summary>The full path, if there is something.</summary>
    /// <exception cref="CommandException">Nothing is there.</exception>
    internal static string Find(string path)
    {
        var full = Path.GetFullPath(path);
        if (!Directory.Exists(full) && !File.Exists(full))
            throw new CommandException($"There is no folder '{path}'. Expected a folder with bags.csv and tastings.csv, or one flat CSV file.");
        return full;
    }

    /// <summary>The full paths of all, as a notebook takes them: one a line; <see langword="null"/> for none.</summary>
    /// <exception cref="CommandException">Nothing is at one of them.</exception>
    internal static string? Find(IReadOnlyList<string> paths) => paths.Count == 0 ? null : string.Join(NotebookLogParting, paths.Select(Find));

    /// <summary>The name by which pages call a log; <see langword="null"/> for none.</summary>
    internal static string? NameOf(string? fullPaths) => fullPaths is null
        ? null
        : string.Join(" + ", fullPaths.Split(NotebookLogParting).Select(path => Path.GetFileName(Path.TrimEndingDirectorySeparator(path))));

    /// <summary>The log.</summary>
    /// <exception cref="CommandException">Nothing is there, or it can't be read as a log at all.</exception>
    internal static TastingLog Read(IReadOnlyList<string> paths, CancellationToken cancel) => Try(() => TastingLog.Read([.. paths.Select(Find)], Watch(cancel)));

    /// <summary>The log with what its canonical form has otherwise.</summary>
    /// <exception cref="CommandException">Nothing is there, or it can't be read as a log at all.</exception>
    internal static FixedLog ReadToFix(string path, CancellationToken cancel) => Try(() => FixedLog.Of(Find(path), Watch(cancel)));

    private static WorkWatch Watch(CancellationToken cancel) => WorkWatch.Of(new RunMessages(Console.Error), cancel);

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
