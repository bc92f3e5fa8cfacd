using System.Diagnostics;
using System.Globalization;
using TastingKit.NotebookHost.Tests.Jupyter;

namespace TastingKit.Benchmarks;

/// <summary>How long a person waits for the first page or chart: a fresh process each time, timed from its start.</summary>
internal static class ColdStart
{
    private const int Repetitions = 5;

    /// <summary>What every notebook begins with.</summary>
    private const string FirstCell = "#r \"TastingKit.Notebooks\"\nusing TastingKit; using TastingKit.Charts; using TastingKit.Notebooks;\nTastingNotebook.Start()";

    private const string ChartCell = "var favourites = TastingNotebook.Log.Favourites();\nfavourites.Chart()";

    private static readonly string SampleData = Path.Combine(AppContext.BaseDirectory, "sample-data");

    public static void Run()
    {
        var cups = File.ReadLines(Path.Combine(SampleData, "tastings.csv")).Count() - 1;
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"{Environment.ProcessorCount} processors, the sample log of {cups} cups; medians of {Repetitions} fresh processes"));
        long pageSize = 0;
        Report("tastingkit review", Repeat(() => [("to the end of the process", Review(out pageSize))]));
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"  its page: {pageSize / 1e6:F2} MB"));
        Report("kernel in Jupyter, from the start of its process", Repeat(FirstChart));
    }

    private static TimeSpan Review(out long pageSize)
    {
        var folder = Directory.CreateTempSubdirectory("tastingkit-start-");
        try
        {
            var page = Path.Combine(folder.FullName, "review.html");
            var clock = Stopwatch.StartNew();
            using var process = Process.Start(
                new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "TastingKit.Cli.dll"), "review", SampleData, "--out", page]) { RedirectStandardError = true })!;
            var said = process.StandardError.ReadToEnd();
            process.WaitForExit();
            var time = clock.Elapsed;
            if (process.ExitCode != 0)
                throw new InvalidOperationException(said);
            pageSize = new FileInfo(page).Length;
            return time;
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    /// <summary>As a person who runs all cells at once: each is sent as soon as the one before it is done.</summary>
    private static (string What, TimeSpan Time)[] FirstChart()
    {
        var clock = Stopwatch.StartNew();
        using var client = new JupyterClient(folder: Path.Combine(AppContext.BaseDirectory, "host"));
        var answered = clock.Elapsed;
        Succeed(client.Run(FirstCell));
        var setUp = clock.Elapsed;
        Succeed(client.Run($"TastingNotebook.LogFolder = @\"{SampleData}\";\n{ChartCell}"));
        return [("it answers", answered), ("first cell done", setUp), ("first chart", clock.Elapsed)];
    }

    private static void Succeed((System.Text.Json.Nodes.JsonObject Reply, IReadOnlyList<NotebookHost.Jupyter.JupyterMessage> Published) run)
    {
        if ((string?)run.Published[^1].Type != "execute_result")
            throw new InvalidOperationException(run.Reply.ToJsonString());
    }

    private static (string What, TimeSpan[] Times)[] Repeat(Func<(string What, TimeSpan Time)[]> measure)
    {
        var runs = Enumerable.Range(0, Repetitions).Select(_ => measure()).ToArray();
        return [.. runs[0].Select((first, i) => (first.What, runs.Select(run => run[i].Time).Order().ToArray()))];
    }

    private static void Report(string what, (string What, TimeSpan[] Times)[] steps)
    {
        Console.WriteLine(what);
        foreach (var (step, times) in steps)
        {
            Console.WriteLine(string.Create(
                CultureInfo.InvariantCulture,
                $"  {step}: {times[Repetitions / 2].TotalSeconds:F2} s, from {times[0].TotalSeconds:F2} to {times[^1].TotalSeconds:F2}"));
        }
    }
}
