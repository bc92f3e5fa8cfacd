namespace TastingKit.Calibration;

/// <summary>What a step of temperature and of ratio does, against the truth of the year.</summary>
public sealed class MethodSlopesCalibration(Func<TastingLog, IReadOnlyList<Covariate>, MethodSlopes> analyse) : ICalibratedAnalysis
{
    private static readonly Covariate[] Asked = [Covariate.WaterTemperature, Covariate.Ratio];

    /// <inheritdoc/>
    public string Name => "step effects";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var slopes = analyse(year.Log, Asked);
        foreach (var caution in slopes.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        foreach (var unanswered in slopes.Unanswered)
            record.Cautions.Add($"{Name}: {unanswered.Covariate} not answered");
        foreach (var slope in slopes.Slopes)
        {
            var method = year.Truth.Settings.Method;
            var truth = slope.Covariate.Step * (slope.Covariate.Name == Covariate.Ratio.Name ? method.EffectPerRatioUnit : method.EffectPerDegree);
            var answer = slope.Answer;
            record.Cover($"{Name}: {slope.Covariate}", answer.Estimate, answer.Low, answer.High, truth);
            record.Count($"{Name}: {slope.Covariate}, direction wrong", MethodTruth.DirectionIsWrong(answer, truth));
            record.Count($"{Name}: {slope.Covariate}, size wrong", MethodTruth.SizeIsWrong(answer, truth, slopes.Margin));
            record.Count($"{Name}: {slope.Covariate}, a bend seen where there is none", slope.Shape is SlopeShape.Curved);
        }
    }
}
