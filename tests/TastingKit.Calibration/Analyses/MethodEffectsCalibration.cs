namespace TastingKit.Calibration;

/// <summary>
/// Brewer or recipe effects: a factor's contrasts against the truth over the log's coffees. The intervals are simultaneous, so that
/// what must be covered in 95 years of 100 is all of a year's contrasts at once.
/// </summary>
public sealed class MethodEffectsCalibration(Factor factor, Func<TastingLog, MethodEffects> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => $"{factor.Name} effects";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var effects = analyse(year.Log);
        foreach (var caution in effects.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!effects.Support.IsSupported || effects.Contrasts.Count == 0)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        // The contrast whose interval is worst off speaks for all: it covers if and only if all do.
        var worst = effects.Contrasts.MaxBy(contrast =>
        {
            var truth = TrueContrast(year.Truth, contrast);
            return Math.Max(contrast.Answer.Low - truth, truth - contrast.Answer.High);
        })!;
        record.Cover($"{Name}: all contrasts at once", worst.Answer.Estimate, worst.Answer.Low, worst.Answer.High, TrueContrast(year.Truth, worst));
        record.Count($"{Name}: any direction wrong", effects.Contrasts.Any(contrast => MethodTruth.DirectionIsWrong(contrast.Answer, TrueContrast(year.Truth, contrast))));
        record.Count($"{Name}: any size wrong", effects.Contrasts.Any(contrast => MethodTruth.SizeIsWrong(contrast.Answer, TrueContrast(year.Truth, contrast), effects.Margin)));
    }

    private double TrueContrast(SimulationTruth truth, MethodContrast contrast)
    {
        if (factor == Factor.Brewer)
            return truth.BrewerContrast(contrast.First, contrast.Second);
        if (factor != Factor.RecipeFrom)
            throw new InvalidOperationException($"A simulated year has no true contrast of {factor.Name}.");
        return RecipeEffect(truth, contrast.First) - RecipeEffect(truth, contrast.Second);
    }

    private static double RecipeEffect(SimulationTruth truth, string recipeFrom) =>
        recipeFrom == SimulatedMethod.Roaster ? truth.RoasterRecipeContrast() : 0;
}
