namespace TastingKit.Writing;

/// <summary>
/// Puts files into a folder so that each is either the old one or the new one, whole, whenever the process ends: written under another name,
/// flushed to the disk, then renamed. A folder that is not there is written beside its place and renamed as one, so that it appears with all
/// its files or not at all; in one that is there no file is renamed before all are written.
/// </summary>
internal static class WholeFiles
{
    /// <summary>What the name of a file ends in while it is written.</summary>
    public const string Unfinished = ".unfinished";

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
            Directory.Move(unfinished, folder);
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
        try
        {
            foreach (var file in files)
                WriteFlushed(Temporary(file), file.Bytes);
            foreach (var file in files)
                File.Move(Temporary(file), Path.Combine(folder, file.Name), overwrite);
        }
        catch
        {
            foreach (var file in files)
                File.Delete(Temporary(file));
            throw;
        }

        string Temporary(WrittenFile file) => Path.Combine(folder, file.Name + Unfinished);
    }

    private static void WriteFlushed(string path, byte[] bytes)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(path)!);
        using var stream = new FileStream(path, FileMode.Create, FileAccess.Write, FileShare.None);
        stream.Write(bytes);
        stream.Flush(flushToDisk: true);
    }
}
