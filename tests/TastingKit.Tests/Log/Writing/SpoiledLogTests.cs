using TastingKit.Reading;
using TastingKit.Statistics;
using TastingKit.Writing;

namespace TastingKit.Tests.Log.Writing;

/// <summary>The dirty logs spoiled further, at random by a stated seed: what is accepted of any of them is written and read back the same.</summary>
public sealed class SpoiledLogTests
{
    private const ulong Seed = 20251126;
    private const int ForEach = 15;

    private static readonly byte[][] Pieces =
    [
        "\""u8.ToArray(), ","u8.ToArray(), ";"u8.ToArray(), "\n"u8.ToArray(), "'"u8.ToArray(), "="u8.ToArray(), "'="u8.ToArray(), "\r\n"u8.ToArray(), " "u8.ToArray(), "\t"u8.ToArray(),
        "test"u8.ToArray(), "na"u8.ToArray(), "B1"u8.ToArray(), "T1"u8.ToArray(), "score"u8.ToArray(), "7"u8.ToArray(), "?"u8.ToArray(), [0xE9], [0xC2, 0x85], "\uFEFF"u8.ToArray(), "\u8336"u8.ToArray(), [0x07],
    ];

    [Fact]
    public void What_is_accepted_of_a_spoiled_log_is_written_and_read_back_the_same()
    {
        var random = new RandomStream(Seed);
        var (read, unreadable) = (0, 0);
        foreach (var folder in Directory.GetDirectories(Path.Combine(AppContext.BaseDirectory, "Dirty")).Order(StringComparer.Ordinal))
        {
            var files = Directory.GetFiles(folder, "*.csv").Order(StringComparer.Ordinal).Select(path => (Name: Path.GetFileName(path), Bytes: File.ReadAllBytes(path))).ToList();
            for (var i = 0; i < ForEach; i++)
            {
                var spoiled = random.NextInt32(files.Count);
                // A header lacks a needed column soon; three times in four only the rows below it are spoiled.
                var sound = files[spoiled].Bytes;
                var kept = random.NextInt32(4) == 0 ? 0 : Array.IndexOf(sound, (byte)'\n') + 1;
                byte[] bytes = [.. sound[..kept], .. Enumerable.Range(0, 1 + random.NextInt32(4)).Aggregate(sound[kept..], (rows, _) => Spoil(rows, random))];
                try
                {
                    AssertComesBack(LogFiles.InMemory("log", files.Select((file, index) => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(index == spoiled ? bytes : file.Bytes)))));
                    read++;
                }
                catch (LogReadException)
                {
                    unreadable++;
                }
                catch (Exception error)
                {
                    throw new InvalidOperationException($"{Path.GetFileName(folder)}, spoiled for the {i + 1}th time: {error.Message}\n{System.Text.Encoding.UTF8.GetString(bytes)}", error);
                }
            }
        }

        Assert.True(read > 4 * unreadable, $"{read} read, {unreadable} not");
    }

    /// <summary>What is accepted of a log is written and read back the same.</summary>
    internal static void AssertComesBack(LogFiles files)
    {
        var canonical = FixedLog.Of(files, WorkWatch.None);
        var readBack = LogReader.Read(
            LogFiles.InMemory("log", canonical.Log.FilesFor("nowhere", overwrite: false).Select(file => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(file.Bytes)))),
            CancellationToken.None);
        Assert.Null(LogDifference.First(canonical.Log, readBack));
        Assert.DoesNotContain(readBack.Problems, problem => problem.Severity == Severity.Rejected);
        Assert.All(canonical.Log.Accounts, account => Assert.Equal(account.Rows, account.Accepted + account.Rejected));
    }

    private static byte[] Spoil(byte[] bytes, RandomStream random)
    {
        var at = random.NextInt32(bytes.Length + 1);
        var piece = Pieces[random.NextInt32(Pieces.Length)];
        var length = random.NextInt32(3) == 0 ? Math.Min(1 + random.NextInt32(5), bytes.Length - at) : 0;
        return [.. bytes[..at], .. piece, .. bytes[(at + length)..]];
    }
}
