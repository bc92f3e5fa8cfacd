namespace TastingKit.Calibration;

/// <summary>
/// Repeatability, the scatter from day to day and between sittings, the intraclass correlation and the slopes of order, against what the year
/// was simulated from. The intraclass correlation is that of the log's own coffees, whose qualities are known.
/// </summary>
public sealed class PrecisionCalibration(Func<TastingLog, TastingPrecision> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "precision";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var precision = analyse(year.Log);
        foreach (var caution in precision.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        var taster = year.Truth.Settings.Taster;
        var daily = Square(taster.SessionStandardDeviation) + Square(taster.BagDayStandardDeviation) + Square(taster.RepeatStandardDeviation);
        var tasted = ScoredCups.Of(year.Log).Cups.Select(cup => cup.Bag.Coffee.Id).ToHashSet(StringComparer.Ordinal);
        double[] qualities = [.. year.Truth.Coffees.Where(coffee => tasted.Contains(coffee.CoffeeId)).Select(coffee => coffee.Quality)];
        var middle = qualities.Average();
        var between = qualities.Sum(quality => Square(quality - middle)) / (qualities.Length - 1);

        Note("repeatability", precision.Repeatability, taster.RepeatStandardDeviation);
        Note("sighted against blind repeats", precision.SightedAgainstBlind, 1);
        Note("from day to day", precision.DayToDay, Math.Sqrt(daily));
        if (precision.DayToDayWithoutOneOffs is PartAnswer.Estimated)
            Note("from day to day, without one-offs", precision.DayToDayWithoutOneOffs, Math.Sqrt(daily));
        Note("between sittings", precision.BetweenSittings, taster.SessionStandardDeviation);
        Note("intraclass correlation", precision.IntraclassCorrelation, between / (between + daily));
        Note("place in a sitting", precision.PositionEffect, taster.PositionEffect);
        Note("cups that day", precision.CupsThatDayEffect, 0);

        void Note(string what, PartAnswer answer, double truth) => answer.Match(
            one =>
            {
                record.Cover($"{Name}: {what}", one.Estimate, one.Low, one.High, truth);
                return 0;
            },
            _ =>
            {
                record.Cautions.Add($"{Name}: {what} not answered");
                return 0;
            });
    }

    private static double Square(double value) => value * value;
}
