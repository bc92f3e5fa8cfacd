using System.Diagnostics;
using TastingKit.Statistics;

namespace TastingKit.KilledWrites;

/// <summary>What was found after the kills.</summary>
/// <param name="Kills">Processes killed.</param>
/// <param name="Looked">Files looked at, each held against the old and the new form of it.</param>
/// <param name="AmidAWrite">Kills that left an unfinished file or folder behind, and so fell into a write.</param>
/// <param name="OfBoth">Kills that left a folder in which some files were replaced and others not yet.</param>
/// <param name="ReadWhole">Folders that the kit reads as one of the two logs, among them those of both.</param>
/// <param name="NewFolders">Folders found that were each written once.</param>
/// <param name="Broken">Files that are neither the old nor the new one, files that are missing from a folder, and folders that read as neither log.</param>
public sealed record KillResult(int Kills, int Looked, int AmidAWrite, int OfBoth, int ReadWhole, int NewFolders, IReadOnlyList<string> Broken)
{
    /// <summary>The figures in a sentence, and what is broken.</summary>
    public override string ToString() => FormattableString.Invariant(
        $"{Kills} kills, {AmidAWrite} of them amid a write: {Looked} files looked at, {Broken.Count} neither old nor new; {NewFolders} new folders, all with every file; ")
        + FormattableString.Invariant($"{OfBoth} times a folder that was written over held files of both; {ReadWhole} of {Kills + NewFolders} folders read as one of the two logs.{string.Concat(Broken.Select(path => "\n" + path))}");
}

/// <summary>Starts a writing process, kills it at a random moment, and looks at what is there; many times.</summary>
public static class KillRun
{
    private const int LongestMilliseconds = 400;

    /// <summary>Kills so many processes.</summary>
    /// <param name="kills">How many.</param>
    /// <param name="seed">Seed of the moments.</param>
    /// <param name="report">Told of each kill.</param>
    public static KillResult Run(int kills, ulong seed, Action<string> report)
    {
        ArgumentNullException.ThrowIfNull(report);
        var whole = EndlessWriter.Logs.Select(FilesOf).ToArray();
        var random = new RandomStream(seed);
        var result = new KillResult(0, 0, 0, 0, 0, 0, []);
        for (var kill = 1; kill <= kills; kill++)
        {
            var folder = Directory.CreateTempSubdirectory("killed-writes-");
            try
            {
                var moment = (int)(random.NextUInt64() % LongestMilliseconds);
                KillAfter(moment, folder.FullName);
                result = Look(folder, whole, result with { Kills = kill });
                report(FormattableString.Invariant($"kill {kill}, {moment} ms after the start: {result.Broken.Count} broken so far"));
            }
            finally
            {
                folder.Delete(recursive: true);
            }
        }

        return result;
    }

    private static void KillAfter(int milliseconds, string folder)
    {
        var start = new ProcessStartInfo("dotnet", [typeof(KillRun).Assembly.Location, "write", folder]) { RedirectStandardOutput = true };
        using var process = Process.Start(start)!;
        if (process.StandardOutput.ReadLine() != EndlessWriter.Ready)
            throw new InvalidOperationException("The writing process ended before it wrote anything.");
        Thread.Sleep(milliseconds);
        process.Kill();
        process.WaitForExit();
    }

    private static KillResult Look(DirectoryInfo folder, IReadOnlyDictionary<string, byte[]>[] whole, KillResult soFar)
    {
        var broken = soFar.Broken.ToList();
        var (looked, ofBoth, readWhole, folders) = (soFar.Looked, soFar.OfBoth, soFar.ReadWhole, soFar.NewFolders);
        foreach (var written in folder.GetDirectories().Where(entry => !entry.Name.EndsWith(".unfinished", StringComparison.Ordinal)))
        {
            // The logs that all files so far are of; a file may be the same in both.
            var ofAll = Enumerable.Range(0, whole.Length).ToHashSet();
            foreach (var name in whole[0].Keys)
            {
                looked++;
                var path = Path.Combine(written.FullName, name);
                var bytes = File.Exists(path) ? File.ReadAllBytes(path) : null;
                int[] forms = bytes is null ? [] : [.. Enumerable.Range(0, whole.Length).Where(log => whole[log][name].AsSpan().SequenceEqual(bytes))];
                if (forms.Length == 0)
                    broken.Add(path);
                ofAll.IntersectWith(forms);
            }

            if (written.Name != EndlessWriter.Replaced)
                folders++;
            if (ofAll.Count == 0 && written.Name != EndlessWriter.Replaced)
                broken.Add($"{written.FullName} holds files of two logs");
            else if (ofAll.Count == 0)
                ofBoth++;
            var read = FilesOf(TastingLog.Read(written.FullName));
            if (whole.Any(log => log.All(file => read[file.Key].AsSpan().SequenceEqual(file.Value))))
                readWhole++;
            else
                broken.Add($"{written.FullName} reads as neither log");
        }

        var amid = folder.EnumerateFileSystemInfos("*.unfinished", SearchOption.AllDirectories).Any();
        return soFar with { Looked = looked, OfBoth = ofBoth, ReadWhole = readWhole, NewFolders = folders, Broken = broken, AmidAWrite = soFar.AmidAWrite + (amid ? 1 : 0) };
    }

    private static Dictionary<string, byte[]> FilesOf(TastingLog log)
    {
        var folder = Directory.CreateTempSubdirectory("killed-writes-");
        try
        {
            log.Write(folder.FullName);
            return folder.GetFiles().ToDictionary(file => file.Name, file => File.ReadAllBytes(file.FullName), StringComparer.Ordinal);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
