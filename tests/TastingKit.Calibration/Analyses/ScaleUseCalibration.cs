namespace TastingKit.Calibration;

/// <summary>
/// Steps that move against one another: where the year moved some, how far each began from where it did over all quarters, against the others; and
/// whether a movement is told where none is, whatever else moves: the coffee, the scale as a whole, a habit.
/// </summary>
public sealed class ScaleUseCalibration(Func<TastingLog, ScaleUse> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "scale use";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var found = analyse(year.Log);
        foreach (var caution in found.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (found.Movement is not StepMovement.Estimated told)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        var moved = year.Truth.Settings.Taster.MovedThresholds;
        if (moved.Count == 0)
            record.Count($"{Name}: steps told to move where none did", told.IsTold);
        else
            record.Find($"{Name}: steps told to move where some did (reported)", told.IsTold);

        var steps = told.Thresholds.Select(move => move.Step).Distinct().Order().ToArray();
        var quarters = told.Widths.Select(move => move.Quarter).ToArray();
        // A step that is moved begins lower, so that it is easier to reach.
        double Shift(double step, string quarter) => -moved.Where(one => quarter.EndsWith($"Q{one.Quarter}", StringComparison.Ordinal) && step >= one.From).Sum(one => one.Points);
        double Own(double step, string quarter) => Shift(step, quarter) - quarters.Average(other => Shift(step, other));
        foreach (var move in told.Thresholds)
            record.Cover($"{Name}: where a step begins against the others", move.Estimate, move.Low, move.High, Own(move.Step, move.Quarter) - steps.Average(step => Own(step, move.Quarter)));
        foreach (var move in told.Widths)
            record.Cover($"{Name}: width of the steps", move.Estimate, move.Low, move.High, Own(steps[^1], move.Quarter) - Own(steps[0], move.Quarter));
    }
}
