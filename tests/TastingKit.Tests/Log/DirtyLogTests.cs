using System.Globalization;
using TastingKit.Reading;
using TastingKit.Writing;

namespace TastingKit.Tests.Log;

/// <summary>
/// Small logs with one trait each, as people really keep them, in the folder <c>Dirty</c>. Each has an <c>expected.txt</c>: the trait as a sentence,
/// the account of each file, every report that must come out and no other, and the values that tell whether the rest was read right.
/// </summary>
public sealed class DirtyLogTests
{
    private static readonly string Folder = Path.Combine(AppContext.BaseDirectory, "Dirty");

    public static TheoryData<string> Logs => [.. Directory.GetDirectories(Folder).Select(folder => Path.GetFileName(folder)!).Order(StringComparer.Ordinal)];

    [Theory]
    [MemberData(nameof(Logs))]
    public void What_must_come_out_comes_out(string name)
    {
        var expected = File.ReadAllLines(Path.Combine(Folder, name, "expected.txt"));
        Assert.StartsWith("# ", expected[0], StringComparison.Ordinal);
        if (expected is [_, var only] && only.StartsWith("unreadable\t", StringComparison.Ordinal))
        {
            var error = Assert.Throws<LogReadException>(() => TastingLog.Read(Path.Combine(Folder, name)));
            Assert.Contains(only["unreadable\t".Length..], error.Message, StringComparison.Ordinal);
            return;
        }

        var log = TastingLog.Read(Path.Combine(Folder, name));
        var found = log.Accounts.Select(account => FormattableString.Invariant($"rows\t{account.File}\t{account.Rows}\t{account.Accepted}\t{account.Doubtful}\t{account.Rejected}"))
            .Concat(log.Problems.Select(problem => string.Join('\t', new[] { "report", problem.Severity.ToString().ToLowerInvariant(), problem.Rule, problem.File, problem.Line.ToString(CultureInfo.InvariantCulture), problem.Column, problem.Found }.Select(Escaped))))
            .Concat(expected.Where(line => line.StartsWith("value\t", StringComparison.Ordinal)).Select(line => Value(log, line.Split('\t'))))
            .ToList();

        var missing = expected.Skip(1).Except(found).ToList();
        var unexpected = found.Except(expected).ToList();
        Assert.True(missing.Count + unexpected.Count == 0, $"Missing:\n{string.Join('\n', missing)}\nUnexpected:\n{string.Join('\n', unexpected)}");
        Assert.Equal(expected.Length - 1, found.Count);
    }

    [Theory]
    [MemberData(nameof(Logs))]
    public void Every_row_is_accounted_for_and_what_is_accepted_is_written_and_read_back(string name)
    {
        FixedLog canonical;
        try
        {
            canonical = FixedLog.Of(Path.Combine(Folder, name));
        }
        catch (LogReadException)
        {
            return;
        }

        var log = canonical.Log;
        Assert.All(log.Accounts, account =>
        {
            Assert.Equal(account.Rows, account.Accepted + account.Rejected);
            var rejected = log.Problems.Where(problem => problem.File == account.File && problem.Severity == Severity.Rejected).Select(problem => problem.Line);
            Assert.Equal(account.Rejected, rejected.Distinct().Count());
        });

        var files = log.FilesFor("nowhere", overwrite: false);
        var readBack = LogReader.Read(LogFiles.InMemory(log.Name, files.Select(file => KeyValuePair.Create(file.Name, new ReadOnlyMemory<byte>(file.Bytes)))), CancellationToken.None);
        Assert.Null(LogDifference.First(log, readBack));
        Assert.DoesNotContain(readBack.Problems, problem => problem.Severity == Severity.Rejected);
        // A change for each row that is not in the canonical form, and for each cell that was left missing.
        Assert.Equal(log.Accounts.Where(account => account.File != "accepted.csv").Sum(account => account.Rejected), canonical.Changes.Count(change => change.Why.StartsWith("The row was rejected", StringComparison.Ordinal) && change.File != "accepted.csv"));
    }

    [Fact]
    public void There_are_enough_of_them_each_with_a_trait_of_its_own()
    {
        var traits = Directory.GetDirectories(Folder).Select(folder => File.ReadLines(Path.Combine(folder, "expected.txt")).First()).ToList();
        Assert.True(traits.Count >= 60, $"{traits.Count} logs");
        Assert.Equal(traits.Count, traits.Distinct().Count());
    }

    /// <summary>A line of the form <c>value, cup or bag, identifier, column, text</c> with the text that the canonical form has there.</summary>
    private static string Value(TastingLog log, string[] line)
    {
        var table = LogWriter.Tables(log).Single(table => table.Name == (line[1] == "cup" ? "tastings.csv" : "bags.csv"));
        var row = table.Rows.FirstOrDefault(row => row[0] == line[2]);
        var column = table.Headers.ToList().IndexOf(line[3]);
        return string.Join('\t', [.. line[..4], row is null || column < 0 ? "(not there)" : Escaped(row[column] ?? "")]);
    }

    private static string Escaped(string text) => text.Replace("\\", "\\\\", StringComparison.Ordinal).Replace("\n", "\\n", StringComparison.Ordinal)
        .Replace("\t", "\\t", StringComparison.Ordinal).Replace("\r", "\\r", StringComparison.Ordinal);
}
