using BenchmarkDotNet.Running;
using TastingKit.Benchmarks;

// "quick" and "growth" print medians in a minute, and so does "start" from a cold process to its first page and chart; anything else goes to BenchmarkDotNet, as "--filter *Linear*".
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
    default:
        BenchmarkSwitcher.FromAssembly(typeof(QuickRun).Assembly).Run(args);
        break;
}
