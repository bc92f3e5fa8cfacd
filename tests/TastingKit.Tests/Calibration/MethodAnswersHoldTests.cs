using TastingKit.Calibration;
using TastingKit.Statistics;

namespace TastingKit.Tests.Calibration;

/// <summary>Steps of temperature and ratio, and the further cups of an undecided difference, on small years of known truth.</summary>
public class MethodAnswersHoldTests
{
    private static readonly DrawOptions FewDraws = new() { VarianceProposals = 100, Threads = 1 };

    private static readonly CalibrationCell SmallSteps = new(
        "small-steps", "A degree of the water costs 0.1 points, in years of 16 bags and 90 cups.", Match.Strained, 1041,
        CalibrationCells.SmallYear with { Method = CalibrationCells.SmallYear.Method with { EffectPerDegree = -0.1, EffectPerRatioUnit = 0.3 } }, []);

    [Fact]
    public void Steps_are_covered_as_stated_and_a_swapped_sign_is_found_out()
    {
        var found = CalibrationRun.Run(
            SmallSteps, 150, [new MethodSlopesCalibration(Analyse), new Named(new MethodSlopesCalibration((log, covariates) => Turned(Analyse(log, covariates))))], Environment.ProcessorCount);

        Assert.All(found.Findings.Where(f => !f.What.StartsWith("turned", StringComparison.Ordinal)), f => Assert.True(f.Verdict == Verdict.Kept || f.IsWithinError, f.ToString()));
        Assert.Equal(8, found.Findings.Count(f => !f.What.StartsWith("turned", StringComparison.Ordinal)));
        var turned = found.Findings.Single(f => f.What == "turned: step effects: water temperature, direction wrong");
        Assert.True(turned.Verdict == Verdict.Broken && !turned.IsWithinError, turned.ToString());
    }

    [Fact]
    public void The_cups_and_coffees_asked_for_tell_the_difference_about_as_often_as_promised()
    {
        var found = CalibrationRun.Run(
            CalibrationCells.Named("further-cups"), 150, [new FurtherCupsCalibration(log => CalibratedAnalyses.MethodEffects(log, Factor.Brewer))], Environment.ProcessorCount);

        Assert.Equal(2, found.Findings.Count);
        Assert.All(found.Findings, f => Assert.True(f.Verdict == Verdict.Kept || f.IsWithinError, f.ToString()));
    }

    private static MethodSlopes Analyse(TastingLog log, IReadOnlyList<Covariate> covariates) =>
        SlopeAnalysis.Of(log, covariates, TastingAttribute.Score, null, TastingLog.DefaultSeed, FewDraws);

    private static MethodSlopes Turned(MethodSlopes slopes) => new(
        slopes.Attribute,
        [.. slopes.Slopes.Select(s => s with
        {
            Answer = s.Answer with
            {
                Estimate = -s.Answer.Estimate,
                Low = -s.Answer.High,
                High = -s.Answer.Low,
                Direction = s.Answer.Direction switch { Direction.Higher => Direction.Lower, Direction.Lower => Direction.Higher, _ => Direction.Undecided },
            },
        })],
        slopes.Unanswered, slopes.Margin, slopes.Scale, slopes.Cautions, slopes.Computation, slopes.Support);

    /// <summary>Notes the same under names of its own.</summary>
    private sealed class Named(ICalibratedAnalysis analysis) : ICalibratedAnalysis
    {
        public string Name => $"turned: {analysis.Name}";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var one = new YearRecord { Year = record.Year };
            analysis.Examine(year, one);
            foreach (var (what, count) in one.Coverage)
                record.Coverage.Add($"turned: {what}", count);
            foreach (var (what, count) in one.Rates)
                record.Rates.Add($"turned: {what}", count);
        }
    }
}
