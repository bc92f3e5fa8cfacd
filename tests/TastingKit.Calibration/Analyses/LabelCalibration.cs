using TastingKit.Statistics;

namespace TastingKit.Calibration;

/// <summary>
/// What seeing the label does. The truth of each figure is what least squares make of what each label truly adds, by the same columns. An effect told where there is none is an error, and a premium told where all labels do the same.
/// </summary>
public sealed class LabelCalibration(Func<TastingLog, LabelEffect> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "label";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        if (year.Truth.Settings.Schedule.LabelPairs == 0)
            return;
        var found = analyse(year.Log);
        foreach (var caution in found.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (found.Average is not PartAnswer.Estimated average)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        LabelPair[] truth = [.. found.Pairs.Select(pair => pair with { Difference = year.Truth.LabelAdds(pair.Bag) })];
        double[] adds = [.. truth.Select(pair => pair.Difference)];
        var (mean, later, _) = LeastSquares(truth, null);
        Cover("the effect of seeing the label", found.Average, mean);
        Cover("a place later", found.Order, later + year.Truth.Settings.Taster.PositionEffect);
        var isTold = average.Low > 0 || average.High < 0;
        if (adds.All(points => points == 0))
            record.Count($"{Name}: an effect told where there is none", isTold);
        else
            record.Find($"{Name}: an effect told where there is one (reported)", isTold);
        if (adds.Distinct().Count() == 1)
            record.Count($"{Name}: a premium told where all labels do the same", found.Premiums.Any(premium => premium.IsTold));
        foreach (var premium in found.Premiums)
        {
            if (ValueOf(premium.What) is not { } valueOf || premium.Answer is not PartAnswer.Estimated)
                continue;
            LabelPair[] known = [.. truth.Where(pair => valueOf(pair) is not null)];
            Cover($"a premium by {premium.What}", premium.Answer, LeastSquares(known, [.. known.Select(pair => valueOf(pair)!.Value)]).Slope);
            if (adds.Distinct().Count() > 1)
                record.Find($"{Name}: a premium by {premium.What} told where labels differ (reported)", premium.IsTold);
        }

        void Cover(string what, PartAnswer answer, double value) => answer.Match(
            one =>
            {
                record.Cover($"{Name}: {what}", one.Estimate, one.Low, one.High, value);
                return 0;
            },
            _ => 0);
    }

    private static (double Mean, double Later, double Slope) LeastSquares(LabelPair[] pairs, double[]? values)
    {
        var model = new LabelModel(pairs);
        var columns = new List<double[]> { pairs.Select(_ => 1.0).ToArray() };
        if (model.HasOrder)
            columns.Add(model.PlacesLater);
        if (values is not null)
            columns.Add([.. values.Select(value => value - values.Average())]);
        var found = ClusteredRegression.Fit([.. pairs.Select(pair => pair.Difference)], columns, [.. pairs.Index().Select(pair => pair.Index)]).Coefficients;
        return (found[0], model.HasOrder ? found[1] : 0, values is null ? 0 : found[^1]);
    }

    private static Func<LabelPair, double?>? ValueOf(string what) => what switch
    {
        "the roaster\u2019s reputation" => pair => pair.Reputation,
        "the price" => pair => pair.PriceOfHundredGrams,
        "not paid for against bought" => pair => pair.IsBought is { } bought ? (bought ? 0 : 1) : null,
        "the course over the year" => pair => pair.TastedOn.DayNumber / 365.25,
        _ => null,
    };
}
