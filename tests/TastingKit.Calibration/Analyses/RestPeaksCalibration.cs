namespace TastingKit.Calibration;

/// <summary>
/// Courses over rest: the expected score day by day, the day of a named peak, how probable each day is to be near the best, and how often in a year a
/// peak, a rise, a fall or a flat course is named that is none. The truth of a kind is the mean over its bags in the log, each counted once.
/// </summary>
public sealed class RestPeaksCalibration(Factor? by, Func<TastingLog, RestPeaks> analyse) : ICalibratedAnalysis
{
    private const int DaysLookedAt = 7;
    private const double Nought = 1e-9;

    /// <inheritdoc/>
    public string Name => by is null ? "rest peaks" : $"rest peaks by {by.Name}";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var peaks = analyse(year.Log);
        foreach (var caution in peaks.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!peaks.Support.IsSupported)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        var truths = peaks.Groups.Select(group => TruthOf(year, peaks, group)).ToArray();
        for (var g = 0; g < truths.Length; g++)
            Examine(peaks, peaks.Groups[g], truths[g], record);

        bool Any(Func<RestGroup, double[], bool> named) => peaks.Groups.Zip(truths, named).Any(is_ => is_);
        if (truths.Any(truth => !HasPeak(truth)))
            record.Count($"{Name}: any false peak", Any((group, truth) => group.Outcome is RestOutcome.Peak && !HasPeak(truth)));
        record.Count($"{Name}: any false rise or fall", Any((group, truth) =>
            (group.Outcome is RestOutcome.StillRising && truth[^1] <= truth[^(1 + Quarter(truth))])
            || (group.Outcome is RestOutcome.FallingFromTheStart && truth[0] <= truth[Quarter(truth)])));
        record.Count($"{Name}: any course called flat that is not", Any((group, truth) => group.Outcome is RestOutcome.Flat flat && truth.Max() - truth.Min() >= flat.Margin));
    }

    private void Examine(RestPeaks peaks, RestGroup group, double[] truth, YearRecord record)
    {
        var top = Array.IndexOf(truth, truth.Max());
        for (var i = 0; i < DaysLookedAt; i++)
        {
            var at = (int)Math.Round(i * (truth.Length - 1) / (DaysLookedAt - 1.0));
            var day = group.Days[at];
            record.Cover($"{Name}: expected score, day by day", day.Estimate, day.Low, day.High, truth[at]);
            record.Predict($"{Name}: near the best", day.NearBest, truth[at] >= truth[top] - peaks.Near);
        }

        if (HasPeak(truth))
        {
            record.Find($"{Name}: peaks named (reported)", group.Outcome is RestOutcome.Peak);
            if (group.Outcome is RestOutcome.Peak peak)
                record.Cover($"{Name}: day of a named peak", peak.Day, peak.Low, peak.High, group.Days[top].RestDays);
        }

        record.Find($"{Name}: undetermined (reported)", group.Outcome is RestOutcome.Undetermined);
    }

    /// <summary>Highest between the first and the last day, and higher than both.</summary>
    private static bool HasPeak(double[] truth) => truth.Max() > Math.Max(truth[0], truth[^1]) + Nought;

    private static int Quarter(double[] truth) => Math.Max(1, (truth.Length - 1) / 4);

    private double[] TruthOf(SimulatedYear year, RestPeaks peaks, RestGroup group)
    {
        var bags = year.Log.Tastings
            .Where(cup => cup is { Score: not null, RestDays: not null, Failed: false, Purpose: Purpose.Verdict } && (by is null || by.LevelOf(cup) == group.Level))
            .DistinctBy(cup => cup.Bag.Id).Select(cup => (Coffee: year.Truth.CoffeeOf(cup.Bag.Coffee.Id), cup.Bag.Id)).ToArray();
        return [.. group.Days.Select(day => bags.Average(bag =>
        {
            var (coffee, own) = (bag.Coffee, bag.Coffee.Bags.Single(b => b.BagId == bag.Id));

            // The truth of a coffee is of all its bags; of one bag, its own effects take the place of theirs.
            return year.Truth.ExpectedScore(coffee.CoffeeId, peaks.StandardBrew.Brewer!, peaks.StandardBrew.RecipeFrom!, day.RestDays)
                + own.BatchEffect + own.BuyingTrendEffect + own.RestEffect(day.RestDays)
                - coffee.Bags.Average(b => b.BatchEffect + b.BuyingTrendEffect + b.RestEffect(day.RestDays));
        }))];
    }
}
