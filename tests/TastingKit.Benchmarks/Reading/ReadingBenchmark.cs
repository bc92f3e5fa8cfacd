using System.Diagnostics;
using System.Globalization;
using System.Text;
using CsvHelper;
using ExcelDataReader;

namespace TastingKit.Benchmarks.Reading;

/// <summary>
/// How long a log takes to read beside what the library below needs for the same file: each run in a process of its own, medians of five,
/// the two taking turns so that a busy machine is busy for both. The kit runs with the settings that the command <c>tastingkit</c> has, the
/// library with those of .NET, which are what its users have, and once more with the kit's.
/// </summary>
internal static class ReadingBenchmark
{
    private const int Runs = 5;
    private const int WorkbookRows = 50_000;

    /// <summary>What .NET has where a program sets nothing, numbers in base sixteen.</summary>
    private static readonly (string Name, string Value)[] DotNetOwn =
        [("DOTNET_TieredPGO", "1"), ("DOTNET_gcConcurrent", "1"), ("DOTNET_TC_CallCountingDelayMs", "64"), ("DOTNET_TC_CallCountThreshold", "1E")];

    /// <summary>Makes the files and compares.</summary>
    /// <param name="cups">Rows of the CSV file.</param>
    public static void Run(int cups)
    {
        string folder = Directory.CreateTempSubdirectory("tastingkit-reading-").FullName;
        try
        {
            LargeLog.Write(folder, cups);
            PutOnDisk(Path.Combine(folder, "tastings.csv"));
            long bytes = new FileInfo(Path.Combine(folder, "tastings.csv")).Length;
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{cups:N0} cups of 23 columns, {bytes / 1e6:F0} MB"));
            Compare(folder, "csv-typed", "csv-log");

            LargeLog.WriteWorkbook(WorkbookIn(folder), WorkbookRows);
            PutOnDisk(WorkbookIn(folder));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"a workbook of {WorkbookRows:N0} cups of 23 columns, {new FileInfo(WorkbookIn(folder)).Length / 1e6:F1} MB"));
            Compare(folder, "workbook-raw", "workbook-log");
        }
        finally
        {
            Directory.Delete(folder, recursive: true);
        }
    }

    /// <summary>One timed run in this process; prints milliseconds, milliseconds of all cores, peak memory in MB, and the rows met.</summary>
    public static void RunOne(string what, string folder)
    {
        var clock = Stopwatch.StartNew();
        object kept = what switch
        {
            "csv-typed" => Typed(folder),
            "csv-log" => TastingLog.Read(folder),
            "workbook-raw" => RawCells(WorkbookIn(folder)),
            "workbook-log" => TastingLog.Read(WorkbookIn(folder)),
            _ => throw new ArgumentException($"'{what}' is no run.", nameof(what)),
        };
        double milliseconds = clock.Elapsed.TotalMilliseconds;
        int rows = kept is TastingLog log ? log.Tastings.Count : ((System.Collections.ICollection)kept).Count;
        if (kept is TastingLog { Problems.Count: > 0 } noisy)
            Console.Error.WriteLine(string.Join(", ", noisy.Problems.CountBy(problem => problem.Rule).Select(rule => $"{rule.Key} {rule.Value}")));
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{milliseconds:R} {process.TotalProcessorTime.TotalMilliseconds:R} {process.PeakWorkingSet64 / 1e6:R} {rows}"));
    }

    private static List<TypedCup> Typed(string folder)
    {
        using CsvReader reader = CsvReader.FromFile(Path.Combine(folder, "tastings.csv"), new CsvReaderOptions { Separator = ',', PoolStrings = true });
        return [.. reader.GetRecords<TypedCup>()];
    }

    /// <summary>Every cell of every sheet, as the library hands it out; the rows met below the headers of the sheet with the most.</summary>
    private static bool[] RawCells(string path)
    {
        Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);
        using FileStream stream = File.OpenRead(path);
        using IExcelDataReader reader = ExcelReaderFactory.CreateOpenXmlReader(stream);
        int most = 0;
        do
        {
            int rows = 0;
            for (; reader.Read(); rows++)
            {
                for (int i = 0; i < reader.FieldCount; i++)
                    reader.GetValue(i);
            }

            most = Math.Max(most, rows - 1);
        }
        while (reader.NextResult());
        return new bool[most];
    }

    /// <summary>Waits until a file just written is on disk: what the system still has to write would take from the cores while runs are timed.</summary>
    private static void PutOnDisk(string path)
    {
        using var file = new FileStream(path, FileMode.Open, FileAccess.ReadWrite);
        file.Flush(flushToDisk: true);
    }

    private static string WorkbookIn(string folder) => Path.Combine(folder, "large.xlsx");

    private static void Compare(string folder, string yardstick, string ours)
    {
        string yardstickAsOurs = $"{yardstick}, the kit's settings";
        var times = new Dictionary<string, List<Timed>> { [yardstick] = [], [yardstickAsOurs] = [], [ours] = [] };
        for (int run = 0; run < Runs; run++)
        {
            times[yardstick].Add(InAFreshProcess(yardstick, folder, DotNetOwn));
            times[ours].Add(InAFreshProcess(ours, folder));
            times[yardstickAsOurs].Add(InAFreshProcess(yardstick, folder));
        }

        foreach ((string what, var runs) in times)
        {
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
                $"{what}: median {Median(runs.Select(r => r.Milliseconds)):F0} ms of {Runs} ({string.Join(", ", runs.Select(r => r.Milliseconds.ToString("F0", CultureInfo.InvariantCulture)))}), {Median(runs.Select(r => r.CoreMilliseconds)):F0} ms of all cores, peak memory {runs.Max(r => r.Megabytes):F0} MB, {runs[0].Rows:N0} rows"));
        }

        foreach (string other in new[] { yardstick, yardstickAsOurs })
        {
            double ratio = Median(times[ours].Select(r => r.Milliseconds)) / Median(times[other].Select(r => r.Milliseconds));
            double cores = Median(times[ours].Select(r => r.CoreMilliseconds)) / Median(times[other].Select(r => r.CoreMilliseconds));
            Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{ours} / {other}: {ratio:F2} by the clock, {cores:F2} by the time of all {Environment.ProcessorCount} cores"));
        }
    }

    private static Timed InAFreshProcess(string what, string folder, params ReadOnlySpan<(string Name, string Value)> settings)
    {
        var start = new ProcessStartInfo(Environment.ProcessPath!) { RedirectStandardOutput = true };
        if (Path.GetFileNameWithoutExtension(Environment.ProcessPath!) == "dotnet")
            start.ArgumentList.Add(typeof(ReadingBenchmark).Assembly.Location);
        foreach (string argument in new[] { "reading-one", what, folder })
            start.ArgumentList.Add(argument);
        foreach ((string name, string value) in settings)
            start.Environment[name] = value;
        using Process process = Process.Start(start)!;
        string[] said = process.StandardOutput.ReadToEnd().Split(' ', StringSplitOptions.TrimEntries);
        process.WaitForExit();
        if (process.ExitCode != 0)
            throw new InvalidOperationException($"The run '{what}' failed.");
        return new Timed(Number(said[0]), Number(said[1]), Number(said[2]), int.Parse(said[3], CultureInfo.InvariantCulture));
    }

    private static double Number(string said) => double.Parse(said, CultureInfo.InvariantCulture);

    private static double Median(IEnumerable<double> values) => values.Order().ElementAt(Runs / 2);

    private sealed record Timed(double Milliseconds, double CoreMilliseconds, double Megabytes, int Rows);
}
