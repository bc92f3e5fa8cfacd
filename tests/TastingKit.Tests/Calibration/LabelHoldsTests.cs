using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>What is said of labels, on 120 years in which they add 0.3 points and 120 in which they add nothing.</summary>
public sealed class LabelHoldsTests
{
    private const int YearsTried = 120;

    private static readonly Lazy<CellFindings> Seen = new(() => Run("label-effect"));
    private static readonly Lazy<CellFindings> Nothing = new(() => Run("label-none"));

    [Theory]
    [InlineData("label: the effect of seeing the label")]
    [InlineData("label: a place later")]
    [InlineData("label: a premium by the price")]
    [InlineData("label: a premium by the roaster\u2019s reputation")]
    public void What_is_stated_holds(string what) => Held.Holds(Seen.Value, what);

    [Theory]
    [InlineData("label: an effect told where there is none")]
    [InlineData("label: a premium told where all labels do the same")]
    public void Nothing_is_told_where_there_is_nothing(string what) => Held.Holds(Nothing.Value, what);

    [Theory]
    [InlineData("halved: effect")]
    [InlineData("swapped sign: effect")]
    [InlineData("halved: place")]
    public void A_planted_fault_is_found_out(string what) => Held.IsFoundOut(Seen.Value, what);

    private static CellFindings Run(string cell) => CalibrationRun.Run(CalibrationCells.Named(cell), YearsTried, [new WithFaults()], Environment.ProcessorCount);

    private sealed class WithFaults : ICalibratedAnalysis
    {
        public string Name => "with faults";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var found = year.Log.LabelEffect();
            new LabelCalibration(_ => found).Examine(year, record);
            if (year.Truth.Settings.Taster.LabelEffect is var truth && truth == 0)
                return;
            if (found.Average is PartAnswer.Estimated one)
                Held.PlantFaults(record, "effect", one.Estimate, one.Low, one.High, truth);
            if (found.Order is PartAnswer.Estimated place)
                Held.PlantFaults(record, "place", place.Estimate, place.Low, place.High, year.Truth.Settings.Taster.PositionEffect);
        }
    }
}
