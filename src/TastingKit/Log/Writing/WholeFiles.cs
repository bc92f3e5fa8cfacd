namespace TastingKit.Writing;

/// <summary>
/// Puts files into a folder so that each is either the old one or the new one, whole, whenever the process ends: written under another name,
/// flushed to the disk, then renamed. No file is renamed before all are written.
/// </summary>
internal static class WholeFiles
{
    private const string Unfinished = ".unfinished";

    /// <summary>Writes the files.</summary>
    /// <param name="folder">The folder; made if it is not there.</param>
    /// <param name="files">The files.</param>
    /// <param name="overwrite">Whether files of these names may be replaced.</param>
    /// <exception cref="IOException">A file is there and may not be replaced, or the disk can't be written.</exception>
    public static void Write(string folder, IReadOnlyList<WrittenFile> files, bool overwrite)
    {
        Directory.CreateDirectory(folder);
        if (!overwrite && files.FirstOrDefault(file => File.Exists(Path.Combine(folder, file.Name))) is { } there)
            throw new IOException($"'{Path.Combine(folder, there.Name)}' is there already and was left as it is. An empty folder, or leave to overwrite, would be right.");
        try
        {
            foreach (var file in files)
            {
                using var stream = new FileStream(Temporary(file), FileMode.Create, FileAccess.Write, FileShare.None);
                stream.Write(file.Bytes);
                stream.Flush(flushToDisk: true);
            }

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
}
