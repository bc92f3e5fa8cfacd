using System.Text;
using TastingKit.Reading;

namespace TastingKit.Tests.Log.Reading;

/// <summary>Small logs written out in a test.</summary>
internal static class LogInMemory
{
    /// <summary>Reads a log from the text of its files.</summary>
    public static TastingLog Read(params (string File, string Text)[] files) =>
        Read([.. files.Select(file => (file.File, Encoding.UTF8.GetBytes(file.Text)))]);

    /// <summary>Reads a log from the bytes of its files.</summary>
    public static TastingLog Read(params (string File, byte[] Bytes)[] files) => LogReader.Read(
        LogFiles.InMemory("in memory", files.Select(file => KeyValuePair.Create(file.File, new ReadOnlyMemory<byte>(file.Bytes)))), CancellationToken.None);

    /// <summary>Reads cups of one bag, B1, roasted on 2025-03-01.</summary>
    public static TastingLog ReadCups(string tastings) =>
        Read(("bags.csv", "bag_id,coffee,roast_date\nB1,Aponte Ridge,2025-03-01\n"), ("tastings.csv", tastings));

    /// <summary>Reads bags, each with one sound cup.</summary>
    public static TastingLog ReadBags(string bags) => Read(("bags.csv", bags), ("tastings.csv", "tasting_id,bag_id,tasted_at\n"));

    /// <summary>The one report of a rule.</summary>
    public static LogProblem Only(this TastingLog log, string rule) => Assert.Single(log.Problems, problem => problem.Rule == rule);

    /// <summary>Checks a report's place, cell and severity.</summary>
    public static void AssertReport(this TastingLog log, string rule, Severity severity, string file, int line, string column, string found)
    {
        var problem = log.Only(rule);
        Assert.Equal((severity, file, line, column, found), (problem.Severity, problem.File, problem.Line, problem.Column, problem.Found));
        Assert.NotEmpty(problem.Why);
        Assert.NotEmpty(problem.Expected);
    }

    /// <summary>The account of a file.</summary>
    public static (int Rows, int Accepted, int Doubtful, int Rejected) AccountOf(this TastingLog log, string file)
    {
        var account = Assert.Single(log.Accounts, account => account.File == file);
        return (account.Rows, account.Accepted, account.Doubtful, account.Rejected);
    }
}
