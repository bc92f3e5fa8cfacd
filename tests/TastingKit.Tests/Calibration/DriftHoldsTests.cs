using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

/// <summary>What is said of drift, on 200 years of known truth with twelve frozen doses, and on 200 without any anchor.</summary>
public sealed class DriftHoldsTests
{
    private const int YearsTried = 200;

    private static readonly Lazy<CellFindings> Anchored = new(() => Run("drift-12-doses"));
    private static readonly Lazy<CellFindings> Bare = new(() => Run("drift-no-anchor"));

    [Theory]
    [InlineData("drift: the line of rest and drift holds the true pair")]
    [InlineData("drift: drift by frozen doses")]
    [InlineData("drift: rest by frozen doses")]
    [InlineData("drift: other coffee and drift together")]
    public void What_is_stated_holds(string what) => Held.Holds(Anchored.Value, what);

    [Theory]
    [InlineData("drift: the line of rest and drift holds the true pair")]
    [InlineData("drift: a drift named without an anchor")]
    public void The_line_holds_without_an_anchor_and_no_drift_is_named(string what) => Held.Holds(Bare.Value, what);

    [Theory]
    [InlineData("halved: line")]
    [InlineData("halved: frozen doses")]
    [InlineData("swapped sign: frozen doses")]
    public void A_planted_fault_is_found_out(string what) => Held.IsFoundOut(Anchored.Value, what);

    private static CellFindings Run(string cell) => CalibrationRun.Run(CalibrationCells.Named(cell), YearsTried, [new WithFaults()], Environment.ProcessorCount);

    private sealed class WithFaults : ICalibratedAnalysis
    {
        public string Name => "with faults";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var found = year.Log.ScaleDrift();
            var drift = new DriftCalibration((_, _) => found);
            drift.Examine(year, record);
            if (found.Case is not DriftCase.Anchored anchored)
                return;
            var one = anchored.Drifts.Single().AYear;
            var truth = year.Truth.DriftPerYear;
            Held.PlantFaults(record, "frozen doses", one.Estimate, one.Low, one.High, truth);
            var line = found.Sums.Single(sum => sum.Sum == DriftSum.RestAndDrift).Slope;
            var bags = year.Truth.Coffees.SelectMany(coffee => coffee.Bags);
            var (from, to) = (found.RestDaysFrom, found.RestDaysTo);
            var together = (30.4375 / (to - from) * bags.Average(bag => bag.RestEffect(to) - bag.RestEffect(from))) + (truth / 12);
            record.Cover("halved: line", line.Estimate, (line.Low + line.Estimate) / 2, (line.High + line.Estimate) / 2, together);
        }
    }
}
