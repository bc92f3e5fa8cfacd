namespace TastingKit.Calibration;

/// <summary>
/// One-offs: where no brew was spoiled, whether any cup is flagged; where some were, the share of the year's flags that are false and of the
/// spoiled cups that are found. A spoiled brew is known by nothing in the log, so that what was spoiled is told by the same year unspoiled.
/// </summary>
public sealed class OneOffsCalibration(Func<TastingLog, OneOffs> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "one-offs";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var settings = year.Truth.Settings;
        var oneOffs = analyse(year.Log);
        foreach (var caution in oneOffs.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!oneOffs.Support.IsSupported)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        if (settings.Habits.SpoiledShare == 0)
        {
            record.Count($"{Name}: any flag where none is", oneOffs.Flagged.Any());
            return;
        }

        var unspoiled = SimulatedYear.Create(settings with { Habits = settings.Habits with { SpoiledShare = 0 } }, year.Truth.Seed)
            .Log.Tastings.ToDictionary(cup => cup.Id, cup => cup.Score, StringComparer.Ordinal);
        foreach (var one in oneOffs.Cups)
        {
            var spoiled = unspoiled[one.Cup.Id] is { } score && score - one.Cup.Score!.Value > settings.Habits.SpoiledLoss / 2;
            if (one.IsFlagged)
                record.Count($"{Name}: flags that are false", !spoiled);
            if (spoiled)
                record.Find(settings.Habits.SpoiledShare > 0.01 ? $"{Name}: spoiled cups found, one in twenty (reported)" : $"{Name}: spoiled cups found", one.IsFlagged);
        }
    }
}
