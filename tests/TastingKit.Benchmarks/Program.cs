using System.Globalization;
using BenchmarkDotNet.Running;
using TastingKit.Benchmarks;
using TastingKit.Benchmarks.Reading;

// "quick" and "growth" print medians in a minute, and so does "start" from a cold process to its first page and chart; "reading" compares
// reading a log with the libraries below it; anything else goes to BenchmarkDotNet, as "--filter *Linear*".
switch (args.FirstOrDefault())
{
    case "quick":
        QuickRun.Linear();
        OrdinalFitBenchmark.Quick();
        break;
    case "growth":
        QuickRun.Growth();
        break;
    case "start":
        ColdStart.Run();
        break;
    case "reading":
        ReadingBenchmark.Run(cups: args.Length > 1 ? int.Parse(args[1], CultureInfo.InvariantCulture) : 1_000_000);
        break;
    case "reading-one":
        ReadingBenchmark.RunOne(args[1], args[2]);
        break;
    default:
        BenchmarkSwitcher.FromAssembly(typeof(QuickRun).Assembly).Run(args);
        break;
}
