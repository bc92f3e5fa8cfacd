using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>The precision of scores on 300 small years of known truth: what is stated holds within three simulation errors, and half of it does not.</summary>
public sealed class PrecisionHoldsTests
{
    private static readonly Lazy<CellFindings> Found = new(() => CalibrationRun.Run(CalibrationCells.Named("small-year"), 300, [new WithHalves()], Environment.ProcessorCount));

    [Theory]
    [InlineData("precision: repeatability")]
    [InlineData("precision: from day to day")]
    [InlineData("precision: place in a sitting")]
    public void What_is_stated_holds(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict == Verdict.Kept || finding.IsWithinError, finding.ToString());
    }

    [Theory]
    [InlineData("halved: repeatability")]
    [InlineData("halved: from day to day")]
    public void Half_the_width_is_found_out(string what)
    {
        var finding = Single(what);
        Assert.True(finding.Verdict == Verdict.Broken && !finding.IsWithinError, finding.ToString());
    }

    private static Finding Single(string what) => Found.Value.Findings.Single(finding => finding.What == what);

    private sealed class WithHalves : ICalibratedAnalysis
    {
        public string Name => "with halves";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var precision = CalibratedAnalyses.Precision(year.Log);
            new PrecisionCalibration(_ => precision).Examine(year, record);
            var taster = year.Truth.Settings.Taster;
            Halve("repeatability", precision.Repeatability, taster.RepeatStandardDeviation);
            Halve("from day to day", precision.DayToDay, Math.Sqrt(Math.Pow(taster.RepeatStandardDeviation, 2) + Math.Pow(taster.SessionStandardDeviation, 2)));

            void Halve(string what, PartAnswer answer, double truth)
            {
                if (answer is PartAnswer.Estimated one)
                    record.Cover($"halved: {what}", one.Estimate, (one.Low + one.Estimate) / 2, (one.High + one.Estimate) / 2, truth);
            }
        }
    }
}
