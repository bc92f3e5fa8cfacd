using TastingKit.KilledWrites;

namespace TastingKit.Tests.Log.Writing;

public sealed class KilledWriteTests
{
    [Fact]
    public void A_killed_write_leaves_the_old_files_or_the_new_ones_whole()
    {
        var result = KillRun.Run(kills: 8, seed: 20251126, _ => { });
        Assert.Equal(8, result.Kills);
        // Seven or so files of the folder that is written over, and those of each new one.
        Assert.True(result.Looked >= 8 * 5, result.ToString());
        Assert.True(result.Broken.Count == 0, result.ToString());
        Assert.Equal(result.Kills + result.NewFolders, result.ReadWhole);
    }

    [Fact]
    public void The_two_logs_written_differ_in_their_files()
    {
        var folder = Directory.CreateTempSubdirectory("tasting-log-");
        try
        {
            foreach (var (log, name) in EndlessWriter.Logs.Zip(["one", "two"]))
                log.Write(Path.Combine(folder.FullName, name));
            Assert.All(
                Directory.GetFiles(Path.Combine(folder.FullName, "one")).Where(file => !file.EndsWith("scales.csv", StringComparison.Ordinal)),
                file => Assert.NotEqual(File.ReadAllBytes(file), File.ReadAllBytes(Path.Combine(folder.FullName, "two", Path.GetFileName(file)))));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
