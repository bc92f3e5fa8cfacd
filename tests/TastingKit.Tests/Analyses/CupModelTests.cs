using TastingKit.Statistics;

namespace TastingKit.Tests;

/// <summary>Models that a user puts together hold the terms stated, in the steps stated.</summary>
public sealed class CupModelTests
{
    private static readonly Covariate Pours = Covariate.Column("pours", 2);

    [Fact]
    public void Planted_lines_bends_and_differences_are_found_by_name()
    {
        var log = Log();
        var estimates = log.Estimate(TastingAttribute.Score).Bent(Covariate.WaterTemperature.Per(3)).Along(Pours).Together(Covariate.WaterTemperature, Pours)
            .By(Factor.Brewer).VaryingBy(Factor.Taster).Fit();

        Assert.InRange(estimates.EffectOf("water temperature, 3 °C more").Estimate, 0.27, 0.33);
        Assert.InRange(estimates.EffectOf("water temperature, bend a squared step").Estimate, -0.22, -0.14);
        Assert.InRange(estimates.EffectOf("pours, 2 more").Estimate, 0.35, 0.45);
        Assert.InRange(estimates.EffectOf("water temperature with pours, a step of each").Estimate, 0.25, 0.35);
        Assert.InRange(estimates.EffectOf("brewer: flat-bed dripper \u2212 cone dripper").Estimate, -0.55, -0.45);
        Assert.InRange(estimates.Spreads.Single(s => s.What == "taster").StandardDeviation, 0.3, 1.2);
        Assert.InRange(estimates.Spreads[^1].StandardDeviation, 0.08, 0.12);
        var means = estimates.MeansOf(Factor.Brewer);
        Assert.Equal(-0.5, means[1].Estimate - means[0].Estimate, 1);
        Assert.Equal(239, estimates.Computation.CupsUsed);
        Assert.Contains(estimates.Computation.LeftOut, left => left is { Reason: "without pours", Cups: 1 });
        Assert.Throws<ArgumentException>(() => estimates.EffectOf("ratio"));
        Assert.Throws<ArgumentException>(() => estimates.MeansOf(Factor.Water));
    }

    [Fact]
    public void A_model_that_the_log_can_not_tell_says_so()
    {
        var log = Log();
        var none = log.Estimate(TastingAttribute.Score).Along(Covariate.Ratio).Fit();
        Assert.StartsWith("0 cups with the score and every term of the model", none.Finding, StringComparison.Ordinal);
        Assert.Contains("has one level", log.Estimate(TastingAttribute.Score).VaryingBy(Factor.Coffee).Fit().Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => log.Estimate(TastingAttribute.Score).Along(Pours).Together(Pours, Covariate.Ratio));
        Assert.Throws<ArgumentException>(() => log.Estimate(TastingAttribute.Score).SlopeVaryingBy(Factor.Taster, Pours));
        Assert.Throws<ArgumentException>(() => log.Estimate(TastingAttribute.Score).VaryingBy());
    }

    private static TastingLog Log()
    {
        var log = new TestLog();
        var random = new RandomStream(17);
        var tasters = Enumerable.Range(0, 12).Select(_ => 0.7 * random.NextNormal()).ToArray();
        for (var cup = 0; cup < 240; cup++)
        {
            var (taster, celsius, pours, flat) = (cup % 12, 87 + (3 * random.NextInt32(3)), 1 + random.NextInt32(4), random.NextDouble() < 0.5);
            var (hot, many) = ((celsius - 90) / 3.0, (pours - 2.5) / 2);
            var score = 6 + tasters[taster] + (0.3 * hot) - (0.18 * hot * hot) + (0.4 * many) + (0.3 * hot * many) - (flat ? 0.5 : 0) + (0.1 * random.NextNormal());
            log.Cup("C", "2025-03-01", score, t => t with
            {
                Taster = $"taster {taster:00}",
                WaterCelsius = celsius,
                Brewer = flat ? "flat-bed dripper" : "cone dripper",
                OtherColumns = cup == 0 ? t.OtherColumns : new Dictionary<string, string> { ["pours"] = $"{pours}" },
            });
        }

        return log.Build();
    }
}
