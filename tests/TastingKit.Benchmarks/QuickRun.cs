using System.Diagnostics;
using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit.Benchmarks;

/// <summary>A plain run without BenchmarkDotNet: medians of a few repetitions, printed as they come.</summary>
internal static class QuickRun
{
    private const int Repetitions = 7;

    public static void Linear()
    {
        var work = new LinearWork();
        Report("fit of a year's log, 480 rows, 70 × 120 × 5 levels", work.FitOfAYear, 300);
        Report("1,000 bootstrap refits of it, two threads", () => work.BootstrapOfAYear(2));
        Report("1,000 bootstrap refits of it, one thread", () => work.BootstrapOfAYear(1));
        Report("10,000 joint draws with ranks of 70 coffees", work.DrawsWithRanks);
        ModelDesign large = SimulatedLog.Large();
        Report("fit of 75,000 ratings, 3,000 × 1,100 × 14 levels, two threads", () => LinearMixedModel.Fit(large, new() { Threads = 2 }).Deviance);
        Report("the same, one thread", () => LinearMixedModel.Fit(large, new() { Threads = 1 }).Deviance);
        using var process = Process.GetCurrentProcess();
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture, $"largest memory of this process so far: {process.PeakWorkingSet64 / 1e6:F0} MB"));
    }

    /// <summary>How the cost of a fit grows with rows, the levels growing alike.</summary>
    public static void Growth()
    {
        foreach (int thousands in new[] { 1, 4, 16, 64 })
        {
            ModelDesign design = SimulatedLog.Crossed(1000 * thousands, 40 * thousands, 15 * thousands, 14);
            Report($"{thousands},000 rows, {40 * thousands} × {15 * thousands} × 14 levels", () => LinearMixedModel.Fit(design).Deviance);
        }
    }

    public static void Report(string what, Func<double> work, int repetitions = Repetitions)
    {
        // Warm: tiered compilation needs some calls and some time before the code is what it will stay.
        var warming = Stopwatch.StartNew();
        for (int call = 0; call == 0 || (call < 200 && warming.ElapsedMilliseconds < 1500); call++) work();
        var milliseconds = new double[repetitions];
        double result = 0;
        using var process = Process.GetCurrentProcess();
        TimeSpan before = process.TotalProcessorTime;
        for (int i = 0; i < repetitions; i++)
        {
            var clock = Stopwatch.StartNew();
            result = work();
            milliseconds[i] = clock.Elapsed.TotalMilliseconds;
        }

        process.Refresh();
        double processor = (process.TotalProcessorTime - before).TotalMilliseconds / repetitions;
        Array.Sort(milliseconds);
        Console.WriteLine(string.Create(CultureInfo.InvariantCulture,
            $"{what}: median {milliseconds[repetitions / 2]:F2} ms of {repetitions}, from {milliseconds[0]:F2} to {milliseconds[^1]:F2}, mean processor time {processor:F2} ms (result {result:R})"));
    }
}
