using System.Text;

namespace TastingKit.Cli;

/// <summary>
/// A folder that appears whole or not at all: written beside its target and moved there at the end. It lists its own files, and
/// only a folder that holds nothing else is ever replaced unasked.
/// </summary>
internal sealed class OutputFolder : IDisposable
{
    /// <summary>The file that lists the files of a folder that was written here, one a line.</summary>
    internal const string ListName = ".tastingkit-site";

    private readonly string _path;
    private readonly string _shown;
    private readonly string _unfinished;
    private readonly string _aside;
    private readonly SortedSet<string> _files = new(StringComparer.Ordinal);

    /// <summary>Makes sure, before any work is done, that the target can be written.</summary>
    /// <param name="path">The folder.</param>
    /// <param name="force">Whether it may be written into a folder that holds files of somebody else's.</param>
    /// <exception cref="CommandException">It can't.</exception>
    internal OutputFolder(string path, bool force)
    {
        _shown = path;
        _path = Path.TrimEndingDirectorySeparator(Path.GetFullPath(path));
        _unfinished = $"{_path}.{Environment.ProcessId}.unfinished";
        _aside = $"{_path}.{Environment.ProcessId}.before";
        if (File.Exists(_path))
            throw new CommandException($"Can't write '{path}': it is a file. Expected the name of a folder.");
        if (Path.GetDirectoryName(_path) is not { } parent)
            throw new CommandException($"Can't write '{path}': it is the root of a disk. Expected the name of a folder.");
        if (!Directory.Exists(parent))
            throw new CommandException($"Can't write '{path}': there is no folder '{Path.GetDirectoryName(Path.TrimEndingDirectorySeparator(path))}'.");
        if (!force && Foreign(_path).FirstOrDefault() is { } foreign)
        {
            throw new CommandException(
                $"Can't write '{path}': the folder holds '{Path.GetFileName(foreign)}', which was not written by tastingkit. Expected a new folder, or --force to write among what is there.");
        }

        Try(() => Directory.CreateDirectory(_unfinished));
    }

    /// <summary>Adds a file, as UTF-8.</summary>
    /// <exception cref="CommandException">The file system refused.</exception>
    internal void Add(string name, string text)
    {
        Try(() => File.WriteAllText(Path.Combine(_unfinished, name), text, new UTF8Encoding(false)));
        _files.Add(name);
    }

    /// <summary>Puts the folder in place. What somebody else had there stays, unless it has the name of one of its files.</summary>
    /// <exception cref="CommandException">The file system refused.</exception>
    internal void Finish() => Try(() =>
    {
        File.WriteAllText(Path.Combine(_unfinished, ListName), string.Concat(_files.Select(name => name + "\n")), new UTF8Encoding(false));
        if (!Directory.Exists(_path))
        {
            Directory.Move(_unfinished, _path);
            return;
        }

        var foreign = Foreign(_path).Select(entry => Path.GetFileName(entry)!).Where(name => !_files.Contains(name)).ToArray();
        Directory.Move(_path, _aside);
        try
        {
            Directory.Move(_unfinished, _path);
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            Directory.Move(_aside, _path);
            throw;
        }

        foreach (var name in foreign)
            Directory.Move(Path.Combine(_aside, name), Path.Combine(_path, name));
        Directory.Delete(_aside, recursive: true);
    });

    /// <summary>Takes away what is unfinished.</summary>
    public void Dispose()
    {
        if (Directory.Exists(_unfinished))
            Directory.Delete(_unfinished, recursive: true);
    }

    /// <summary>What a folder holds beside the files that were written here.</summary>
    private static IEnumerable<string> Foreign(string folder)
    {
        if (!Directory.Exists(folder))
            return [];
        var list = Path.Combine(folder, ListName);
        string[] own = File.Exists(list) ? [ListName, .. File.ReadAllLines(list)] : [];
        return Directory.EnumerateFileSystemEntries(folder).Where(entry => !own.Contains(Path.GetFileName(entry), StringComparer.Ordinal)).Order(StringComparer.Ordinal);
    }

    private void Try(Action write) => OutputFile.Try(_shown, write);
}
