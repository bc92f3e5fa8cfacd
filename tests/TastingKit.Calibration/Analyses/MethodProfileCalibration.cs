namespace TastingKit.Calibration;

/// <summary>
/// What the brewer does to the attributes: the share of false ones among those selected, and all of a selected attribute's contrasts at
/// once. Years without attributes say nothing of it.
/// </summary>
public sealed class MethodProfileCalibration(Func<TastingLog, MethodProfile> analyse) : ICalibratedAnalysis
{
    private const double Nought = 1e-9;

    /// <inheritdoc/>
    public string Name => "brewer on attributes";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        if (year.Truth.Settings.Attributes.Count == 0)
            return;
        var profile = analyse(year.Log);
        var selected = profile.Selected.ToArray();
        record.Share($"{Name}: false among those selected", selected.Count(effects => effects.Contrasts.All(contrast => Math.Abs(Truth(effects, contrast)) < Nought)), selected.Length);
        foreach (var effects in selected)
        {
            var worst = effects.Contrasts.MaxBy(contrast => Math.Max(contrast.Answer.Low - Truth(effects, contrast), Truth(effects, contrast) - contrast.Answer.High))!;
            record.Cover($"{Name}: selected, all contrasts at once", worst.Answer.Estimate, worst.Answer.Low, worst.Answer.High, Truth(effects, worst));
        }

        double Truth(MethodEffects effects, MethodContrast contrast) => year.Truth.BrewerContrast(effects.Attribute, contrast.First, contrast.Second);
    }
}
