using BenchmarkDotNet.Attributes;
using TastingKit.Statistics;

namespace TastingKit.Benchmarks;

/// <summary>A mixed ordinal fit with standard errors: 5,000 rows, 250 groups, 9 steps, a factor and a covariate.</summary>
[MemoryDiagnoser]
public class OrdinalFitBenchmark
{
    private const int Rows = 5000;
    private const int Groups = 250;
    private const int Steps = 9;

    private OrdinalDesign _design = null!;

    /// <summary>Quadrature points; 1 is Laplace's approximation.</summary>
    [Params(1, 10)]
    public int QuadraturePoints { get; set; }

    /// <summary>Simulates the responses once.</summary>
    [GlobalSetup]
    public void Simulate()
    {
        var random = new RandomStream(1);
        double[] effects = [.. Enumerable.Range(0, Groups).Select(_ => random.NextNormal())];
        double[] shifts = [0.0, 0.8, -0.5];
        var response = new string[Rows];
        var factor = new string[Rows];
        var group = new string[Rows];
        var covariate = new double[Rows];
        for (int i = 0; i < Rows; i++)
        {
            int level = random.NextInt32(3);
            factor[i] = "abc"[level].ToString();
            group[i] = FormattableString.Invariant($"g{i % Groups:000}");
            covariate[i] = random.NextNormal();
            double u = random.NextDouble();
            double latent = shifts[level] + 0.6 * covariate[i] + effects[i % Groups] + Math.Log(u / (1.0 - u));
            response[i] = FormattableString.Invariant($"{Math.Clamp((int)Math.Floor(latent / 0.9 + 0.5 * Steps), 0, Steps - 1) + 1}");
        }

        _design = OrdinalDesign.For(CategoricalColumn.From("score", response))
            .WithFixed(CategoricalColumn.From("factor", factor))
            .WithFixed(new NumericColumn("covariate", covariate))
            .WithRandomIntercept(CategoricalColumn.From("group", group));
    }

    /// <summary>Prints the median of a few fits with each kind of integration.</summary>
    internal static void Quick()
    {
        foreach (int points in new[] { 1, 10 })
        {
            var work = new OrdinalFitBenchmark { QuadraturePoints = points };
            work.Simulate();
            work.Fit();
            QuickRun.Report(FormattableString.Invariant($"ordinal mixed fit with standard errors, 5,000 rows, 250 groups, 9 steps, {points} quadrature points"), () => work.Fit().Deviance, 9);
        }
    }

    /// <summary>The fit.</summary>
    [Benchmark]
    public OrdinalMixedModelFit Fit() => OrdinalMixedModel.Fit(_design, new OrdinalMixedModelOptions { QuadraturePoints = QuadraturePoints });
}
