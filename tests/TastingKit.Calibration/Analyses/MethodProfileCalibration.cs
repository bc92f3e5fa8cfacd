namespace TastingKit.Calibration;

/// <summary>
/// What the brewer does to the attributes: the share of false ones among those selected, and the share of those with a contrast outside its
/// interval, none being selected counting as nought (Benjamini and Yekutieli 2005). Years without attributes say nothing of it.
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
        record.Share(
            $"{Name}: with a contrast outside its interval among those selected",
            selected.Count(effects => effects.Contrasts.Any(contrast => Truth(effects, contrast) is var truth && (truth < contrast.Answer.Low || truth > contrast.Answer.High))), selected.Length);

        double Truth(MethodEffects effects, MethodContrast contrast) => year.Truth.BrewerContrast(effects.Attribute, contrast.First, contrast.Second);
    }
}
