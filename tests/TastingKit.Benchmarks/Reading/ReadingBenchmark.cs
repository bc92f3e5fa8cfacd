using System.Diagnostics;
using System.Globalization;
using CsvHelper;

namespace TastingKit.Benchmarks.Reading;

/// <summary>
/// How long a log takes to read beside what the library below needs for the same file: each run in a process of its own, medians of five,
/// the two taking turns so that a busy machine is busy for both.
/// </summary>
internal static class ReadingBenchmark
{
    private const int Runs = 5;

    /// <summary>Makes the files and compares.</summary>
    /// <param name="cups">Rows of the CSV file.</param>
    public static void Run(int cups)
    {
        string folder = Directory.CreateTempSubdirectory("tastingkit-reading-").FullName;
        try
        {
            LargeLog.Write(folder, cups);
            long bytes = new FileInfo(Path.Combine(folder, "tastings.csv")).Length;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{cups:N0} cups of 23 columns, {bytes / 1e6:F0} MB"));
            Compare(folder, "csv-typed", "csv-log");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>One timed run in this process; prints milliseconds, peak memory in MB, and the rows met.</summary>
    public static void RunOne(string what, string folder)
    {
        var clock = Stopwatch.StartNew();
        object kept = what switch
        {
            "csv-typed" => Typed(folder),
            "csv-log" => TastingLog.Read(folder),
            _ => throw new ArgumentException($"'{what}' is no run.", nameof(what)),
        };
        double milliseconds = clock.Elapsed.TotalMilliseconds;
        int rows = kept is TastingLog log ? log.Tastings.Count : ((System.Collections.ICollection)kept).Count;
        if (kept is TastingLog { Problems.Count: > 0 } noisy)
            Console.Error.WriteLine(string.Join(", ", noisy.Problems.CountBy(problem => problem.Rule).Select(rule => $"{rule.Key} {rule.Value}")));
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{milliseconds:R} {process.PeakWorkingSet64 / 1e6:R} {rows}"));
    }

    private static List<TypedCup> Typed(string folder)
    {
        using CsvReader reader = CsvReader.FromFile(Path.Combine(folder, "tastings.csv"), new CsvReaderOptions { Separator = ',', PoolStrings = true });
        return [.. reader.GetRecords<TypedCup>()];
    }

    private static void Compare(string folder, string yardstick, string ours)
    {
        var times = new Dictionary<string, List<(double Milliseconds, double Megabytes, int Rows)>> { [yardstick] = [], [ours] = [] };
        for (int run = 0; run < Runs; run++)
        {
            foreach (string what in new[] { yardstick, ours })
                times[what].Add(InAFreshProcess(what, folder));
        }

        foreach ((string what, var runs) in times)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{what}: median {Median(runs.Select(r => r.Milliseconds)):F0} ms of {Runs} ({string.Join(", ", runs.Select(r => r.Milliseconds.ToString("F0", CultureInfo.InvariantCulture)))}), peak memory {runs.Max(r => r.Megabytes):F0} MB, {runs[0].Rows:N0} rows"));
        }

        double ratio = Median(times[ours].Select(r => r.Milliseconds)) / Median(times[yardstick].Select(r => r.Milliseconds));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{ours} / {yardstick}: {ratio:F2}"));
    }

    private static (double Milliseconds, double Megabytes, int Rows) InAFreshProcess(string what, string folder)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true };
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath!) == "dotnet")
            start.ArgumentList.Add(typeof(ReadingBenchmark).Assembly.Location);
        foreach (string argument in new[] { "reading-one", what, folder })
            start.ArgumentList.Add(argument);
        using Process process = Process.Start(start)!;
        string[] said = process.StandardOutput.ReadToEnd().Split(' ', StringSplitOptions.TrimEntries);
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"The run '{what}' failed.");
        return (double.Parse(said[0], CultureInfo.InvariantCulture), double.Parse(said[1], CultureInfo.InvariantCulture), int.Parse(said[2], CultureInfo.InvariantCulture));
    }

    private static double Median(IEnumerable<double> values) => values.Order().ElementAt(Runs / 2);
}
