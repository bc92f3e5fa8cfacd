using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>What is said of moving steps, on 80 small years in which 7.0 and above begin 0.4 points lower from July on.</summary>
public sealed class ScaleUseHoldsTests
{
    private const int YearsTried = 80;

    private static readonly CalibrationCell Small = new(
        "steps-small", "A small year in which some steps move.", Match.Strained, 7331,
        CalibrationCells.MatchingYear with
        {
            Bags = 32,
            Cups = 240,
            Roasters = 6,
            Countries = 5,
            Schedule = CalibrationCells.MatchingYear.Schedule with { ControlDoses = 0, BlindRepeats = 0, LotsBoughtAgain = 0 },
            Taster = CalibrationCells.MatchingYear.Taster with { RoundsToSteps = true, StaysWithinScale = true, MovedThresholds = [new(3, 7, 0.4), new(4, 7, 0.4)] },
        },
        []);

    private static readonly Lazy<CellFindings> Moved = new(() => CalibrationRun.Run(Small, YearsTried, [new WithFaults()], Environment.ProcessorCount));

    [Theory]
    [InlineData("scale use: where a step begins against the others")]
    [InlineData("scale use: width of the steps")]
    public void What_is_stated_holds(string what) => Held.Holds(Moved.Value, what);

    [Fact]
    public void A_third_of_so_small_years_or_more_tell_that_steps_moved()
    {
        var found = Moved.Value.Findings.Single(one => one.What == "scale use: steps told to move where some did (reported)");
        Assert.True(double.Parse(found.Result.Split(' ')[0], System.Globalization.CultureInfo.InvariantCulture) > 33, found.ToString());
    }

    [Theory]
    [InlineData("halved: step")]
    [InlineData("swapped sign: step")]
    public void A_planted_fault_is_found_out(string what) => Held.IsFoundOut(Moved.Value, what);

    private sealed class WithFaults : ICalibratedAnalysis
    {
        public string Name => "with faults";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var found = year.Log.ScaleUse();
            new ScaleUseCalibration(_ => found).Examine(year, record);
            if (found.Movement is not StepMovement.Estimated told)
                return;
            var steps = told.Thresholds.Select(move => move.Step).Distinct().ToArray();
            var part = steps.Count(step => step >= 7) / (double)steps.Length;
            foreach (var move in told.Thresholds.Where(move => move.Step >= 7))
            {
                var truth = (move.Quarter.EndsWith("Q3", StringComparison.Ordinal) || move.Quarter.EndsWith("Q4", StringComparison.Ordinal) ? -0.2 : 0.2) * (1 - part);
                Held.PlantFaults(record, "step", move.Estimate, move.Low, move.High, truth);
            }
        }
    }
}
