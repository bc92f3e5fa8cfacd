using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>
/// Courses over rest on small years of known truth: what is stated holds within three simulation errors, and faults planted in it are found out
/// on the same years.
/// </summary>
public class RestPeaksHoldTests
{
    private static readonly CalibrationCell Deep = new(
        "small-deep", "Years of 20 bags and 160 cups in which every coffee peaks on day 20 and loses up to four points before.", Match.Misspecified, 4201,
        CalibrationCells.SmallYear with { Bags = 20, Cups = 160, Rest = CalibrationCells.MatchingYear.Rest with { Depth = 4 } }, []);

    private static readonly Lazy<CellFindings> Found = new(() => CalibrationRun.Run(Deep, 60, [new WithPlantedFaults()], Environment.ProcessorCount));

    [Theory]
    [InlineData("as it is: rest peaks: expected score, day by day")]
    [InlineData("as it is: rest peaks: day of a named peak")]
    [InlineData("as it is: rest peaks: any false rise or fall")]
    [InlineData("as it is: rest peaks: any course called flat that is not")]
    public void What_is_stated_holds(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict == Verdict.Kept || finding.IsWithinError, finding.ToString());
    }

    [Fact]
    public void Most_of_these_peaks_are_named()
    {
        var finding = Single("as it is: rest peaks: peaks named (reported)");
        Assert.True(double.Parse(finding.Result.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture) > 50, finding.ToString());
    }

    [Theory]
    [InlineData("upside down: rest peaks: expected score, day by day")]
    [InlineData("half the width: rest peaks: expected score, day by day")]
    [InlineData("half the width: rest peaks: day of a named peak")]
    [InlineData("a day for a week: rest peaks: day of a named peak")]
    public void A_planted_fault_is_found_out(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict == Verdict.Broken && !finding.IsWithinError, finding.ToString());
    }

    [Fact]
    public void Hardly_a_year_without_a_peak_has_one_named()
    {
        foreach (var cell in new[] { "rest-flat-small-year", "rest-rising" })
        {
            var findings = CalibrationRun.Run(
                CalibrationCells.Named(cell), cell == "rest-rising" ? 16 : 80, [new RestPeaksCalibration(null, log => CalibratedAnalyses.RestPeaks(log, null))], Environment.ProcessorCount);
            var finding = findings.Findings.Single(f => f.What == "rest peaks: any false peak");
            Assert.True(finding.Verdict == Verdict.Kept || finding.IsWithinError, finding.ToString());
        }
    }

    private static Finding Single(string what) => Found.Value.Findings.Single(finding => finding.What == what);

    /// <summary>Runs the analysis once a year, and notes what it says as it is and with faults planted in it.</summary>
    private sealed class WithPlantedFaults : ICalibratedAnalysis
    {
        public string Name => "with planted faults";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var peaks = CalibratedAnalyses.RestPeaks(year.Log, null);
            Note("as it is", group => group);
            Note("half the width", group => group with
            {
                Days = [.. group.Days.Select(d => d with { Low = (d.Low + d.Estimate) / 2, High = (d.High + d.Estimate) / 2 })],
                Outcome = group.Outcome is RestOutcome.Peak p ? new RestOutcome.Peak(p.Day, p.Day - ((p.Day - p.Low) / 3), p.Day + ((p.High - p.Day) / 3)) : group.Outcome,
            });
            Note("upside down", group => group with
            {
                Days = [.. group.Days.Select(d => d with { Estimate = Turned(group, d.Estimate), Low = Turned(group, d.High), High = Turned(group, d.Low) })],
            });
            Note("a day for a week", group => group with
            {
                Outcome = group.Outcome is RestOutcome.Peak p ? new RestOutcome.Peak(p.Day / 7, p.Low / 7, p.High / 7) : group.Outcome,
            });

            static double Turned(RestGroup group, double value) => (2 * group.Days.Average(d => d.Estimate)) - value;

            void Note(string how, Func<RestGroup, RestGroup> change)
            {
                var one = new YearRecord { Year = record.Year };
                var question = RestPeaksAnalysis.Question.Of(year.Log, null, null, null, null, null);
                new RestPeaksCalibration(null, _ => new RestPeaks(
                    question, [.. peaks.Groups.Select(change)], peaks.Unanswered, peaks.StandardBrew, peaks.Scale, peaks.Cautions, peaks.Computation, peaks.Support)).Examine(year, one);
                foreach (var (what, count) in one.Coverage)
                    record.Coverage.Add($"{how}: {what}", count);
                foreach (var (what, count) in one.Rates)
                    record.Rates.Add($"{how}: {what}", count);
                foreach (var (what, count) in one.Finds)
                    record.Finds.Add($"{how}: {what}", count);
            }
        }
    }
}
