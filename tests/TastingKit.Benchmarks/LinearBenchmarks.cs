using BenchmarkDotNet.Attributes;
using TastingKit.Statistics;

namespace TastingKit.Benchmarks;

/// <summary>Linear mixed models under BenchmarkDotNet.</summary>
[MemoryDiagnoser]
public class LinearBenchmarks
{
    private readonly ModelDesign _large = SimulatedLog.Large();
    private readonly LinearWork _work = new();

    /// <summary>480 rows, three crossed factors.</summary>
    [Benchmark]
    public double FitOfAYear() => _work.FitOfAYear();

    /// <summary>1,000 refits on all cores.</summary>
    [Benchmark]
    public double BootstrapOfAYear() => _work.BootstrapOfAYear(0);

    /// <summary>10,000 joint draws with ranks of 70 coffees.</summary>
    [Benchmark]
    public double DrawsWithRanks() => _work.DrawsWithRanks();

    /// <summary>75,000 ratings over 3,000 × 1,100 × 14 levels.</summary>
    [Benchmark]
    [Arguments(1)]
    [Arguments(2)]
    public double LargeFit(int threads) => LinearMixedModel.Fit(_large, new() { Threads = threads }).Deviance;
}
