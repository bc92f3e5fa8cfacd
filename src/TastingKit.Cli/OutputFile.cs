using System.Text;

namespace TastingKit.Cli;

/// <summary>A file that appears whole or not at all: written beside its target and moved there at the end.</summary>
internal sealed class OutputFile : IDisposable
{
    private readonly string _path;
    private readonly string _shown;
    private readonly string _unfinished;

    /// <summary>Makes sure, before any work is done, that the target can be written.</summary>
    /// <param name="path">The file.</param>
    /// <param name="replace">Whether a file that is there may be replaced.</param>
    /// <exception cref="CommandException">It can't.</exception>
    internal OutputFile(string path, bool replace = true)
    {
        _shown = path;
        _path = Path.GetFullPath(path);
        _unfinished = $"{_path}.{Environment.ProcessId}.unfinished";
        if (Directory.Exists(_path))
            throw new CommandException($"Can't write '{path}': it is a folder. Expected the name of a file.");
        if (!replace && File.Exists(_path))
            throw new CommandException($"Can't write '{path}': it is there already and was left as it is. Expected a new name, or --force to replace it.");
        if (Path.GetDirectoryName(_path) is { } folder && !Directory.Exists(folder))
            throw new CommandException($"Can't write '{path}': there is no folder '{Path.GetDirectoryName(path)}'.");
        Try(() => File.WriteAllBytes(_unfinished, []));
    }

    /// <summary>Puts the text in place, as UTF-8.</summary>
    /// <exception cref="CommandException">The file system refused.</exception>
    internal void Write(string text) => Try(() =>
    {
        File.WriteAllText(_unfinished, text, new UTF8Encoding(false));
        File.Move(_unfinished, _path, overwrite: true);
    });

    /// <summary>Takes away what is unfinished.</summary>
    public void Dispose() => File.Delete(_unfinished);

    private void Try(Action write) => Try(_shown, write);

    /// <summary>Writes something, and says of what the file system refuses which target it was for.</summary>
    /// <param name="shown">The target as it was asked for.</param>
    /// <param name="write">The writing.</param>
    /// <exception cref="CommandException">The file system refused.</exception>
    internal static void Try(string shown, Action write)
    {
        try
        {
            write();
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            throw new CommandException($"Can't write '{shown}': {Reason(error)}");
        }
    }

    private static string Reason(Exception error) => error switch
    {
        UnauthorizedAccessException => "access is denied.",
        FileNotFoundException or DirectoryNotFoundException => "no file can be made there.",
        _ => error.Message,
    };
}
