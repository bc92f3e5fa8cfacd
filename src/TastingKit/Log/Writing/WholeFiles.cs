using System.Text;

namespace TastingKit.Writing;

/// <summary>
/// Puts files into a folder so that each is either the old one or the new one, whole, whenever the process ends: written under another name,
/// flushed to the disk, then renamed, and the folder flushed before and after, for a power cut. A folder that is not there is written beside its place and renamed as one, so that it appears with all
/// its files or not at all. In one that is there, a list of the files is laid down once all are written, and taken away once all are renamed:
/// from the list on, reading takes those not renamed yet under their other name (<see cref="Pending"/>), so that a log is the old one or the new one too.
/// </summary>
internal static class WholeFiles
{
    /// <summary>What the name of a file ends in until it is put in its place.</summary>
    public const string Unfinished = ".unfinished";

    /// <summary>The list of files that are written and may not all be in their places yet.</summary>
    private const string List = ".tastingkit-write";

    /// <summary>Writes the files.</summary>
    /// <param name="folder">The folder; made if it is not there.</param>
    /// <param name="files">The files; a name may have a folder in front.</param>
    /// <param name="overwrite">Whether files of these names may be replaced.</param>
    /// <exception cref="IOException">A file is there and may not be replaced, or the disk can't be written.</exception>
    public static void Write(string folder, IReadOnlyList<WrittenFile> files, bool overwrite)
    {
        var full = Path.TrimEndingDirectorySeparator(Path.GetFullPath(folder));
        if (!overwrite && files.FirstOrDefault(file => File.Exists(Path.Combine(full, file.Name))) is { } there)
            throw new IOException($"'{Path.Combine(folder, there.Name)}' is there already and was left as it is. A folder without it, or leave to overwrite (--force), would be right.");
        if (Directory.Exists(full))
            WriteInto(full, files, overwrite);
        else
            WriteBeside(full, files);
    }

    private static void WriteBeside(string folder, IReadOnlyList<WrittenFile> files)
    {
        if (Path.GetDirectoryName(folder) is { } parent)
            Directory.CreateDirectory(parent);
        var unfinished = $"{folder}.{Environment.ProcessId}{Unfinished}";
        try
        {
            // What a process of the same number may have left.
            if (Directory.Exists(unfinished))
                Directory.Delete(unfinished, recursive: true);
            foreach (var file in files)
                WriteFlushed(Path.Combine(unfinished, file.Name), file.Bytes);
            foreach (var inner in Directory.EnumerateDirectories(unfinished, "*", SearchOption.AllDirectories).Append(unfinished))
                FolderFlush.Of(inner);
            Directory.Move(unfinished, folder);
            if (Path.GetDirectoryName(folder) is { } holder)
                FolderFlush.Of(holder);
        }
        catch
        {
            if (Directory.Exists(unfinished))
                Directory.Delete(unfinished, recursive: true);
            throw;
        }
    }

    private static void WriteInto(string folder, IReadOnlyList<WrittenFile> files, bool overwrite)
    {
        PutInPlace(folder, overwrite: true);
        var list = Path.Combine(folder, List);
        try
        {
            foreach (var file in files)
                WriteFlushed(Path.Combine(folder, file.Name + Unfinished), file.Bytes);
            WriteFlushed(list + Unfinished, Encoding.UTF8.GetBytes(string.Concat(files.Select(file => file.Name + "\n"))));
            FolderFlush.Of(folder);
            File.Move(list + Unfinished, list);
            FolderFlush.Of(folder);
        }
        catch
        {
            foreach (var name in files.Select(file => file.Name).Append(List))
                File.Delete(Path.Combine(folder, name + Unfinished));
            throw;
        }

        PutInPlace(folder, overwrite);
    }

    /// <summary>The files of a folder that a write has finished and not yet put in their places, as when it was ended before its time.</summary>
    public static IReadOnlyList<string> Pending(string folder)
    {
        var list = Path.Combine(folder, List);
        return File.Exists(list) ? [.. File.ReadAllLines(list).Where(name => File.Exists(Path.Combine(folder, name + Unfinished)))] : [];
    }

    private static void PutInPlace(string folder, bool overwrite)
    {
        foreach (var name in Pending(folder))
        {
            try
            {
                File.Move(Path.Combine(folder, name + Unfinished), Path.Combine(folder, name), overwrite);
            }
            catch (Exception error) when (error is IOException or UnauthorizedAccessException)
            {
                throw new IOException(
                    $"'{name}' can't be replaced: {error.Message} What is new lies in '{name}{Unfinished}', is read in its place, and the next write puts it there.", error);
            }
        }

        FolderFlush.Of(folder);
        File.Delete(Path.Combine(folder, List));
    }

    private static void WriteFlushed(string path, byte[] bytes)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None);
        stream.Write(bytes);
        stream.Flush(flushToDisk: true);
    }
}
