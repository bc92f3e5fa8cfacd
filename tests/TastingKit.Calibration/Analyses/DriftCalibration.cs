namespace TastingKit.Calibration;

/// <summary>
/// The sums of slopes that a log tells, and the drift under each anchor's assumption where that is true of the year (doses that lose what is
/// stated, batches alike but for chance), against what the year was simulated from. A drift named without an anchor is an error.
/// </summary>
public sealed class DriftCalibration(Func<TastingLog, double, ScaleDrift> analyse) : ICalibratedAnalysis
{
    private const double DaysAYear = 365.25;
    private const double DaysAMonth = DaysAYear / 12;

    /// <inheritdoc/>
    public string Name => "drift";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var schedule = year.Truth.Settings.Schedule;
        var found = analyse(year.Log, schedule.FreezerLossPerYear);
        foreach (var caution in found.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!found.Support.IsSupported)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        // The simulator counts a year as its own days.
        var aYear = DaysAYear / (DateTime.IsLeapYear(year.Truth.Settings.Year) ? 366 : 365);
        var drift = aYear * year.Truth.DriftPerYear;
        var coffee = aYear * year.Truth.Settings.Quality.BuyingTrendPerYear;
        var freezer = -aYear * schedule.FreezerLossPerYear;
        var rest = DaysAMonth / (found.RestDaysTo - found.RestDaysFrom) * year.Truth.Coffees.SelectMany(c => c.Bags)
            .Average(bag => bag.RestEffect(found.RestDaysTo) - bag.RestEffect(found.RestDaysFrom));
        foreach (var sum in found.Sums)
        {
            var (what, truth) = sum.Sum switch
            {
                DriftSum.RestAndDrift => ("the line of rest and drift holds the true pair", rest + (drift / 12)),
                DriftSum.CoffeeAndDrift => ("other coffee and drift together", coffee + drift),
                DriftSum.FreezerAndDrift => ("freezer and drift together", freezer + drift),
                DriftSum.CoffeeLessFreezer => ("other coffee less the freezer", coffee - freezer),
                _ => ("freezing itself", schedule.FreezingStep),
            };
            Cover(what, sum.Slope, truth);
        }

        // Drift stated at the truth of rest is the line read at one place.
        if (found.Sums.Any(sum => sum.Sum == DriftSum.RestAndDrift) && found.GivenRestSlope(rest) is var given)
            record.Cover($"{Name}: drift given the true slope of rest", given.Lowest, given.Low, given.High, drift);
        var hasAnchor = schedule.ControlDoses + schedule.LotsBoughtAgain + schedule.FlightBags + schedule.FreshFrozenPairs > 0;
        if (!hasAnchor)
            record.Count($"{Name}: a drift named without an anchor", found.Case is DriftCase.Anchored || found.Summary.Any(s => s.Contains("scale drifted", StringComparison.Ordinal)));
        foreach (var one in found.Case.Match(_ => [], anchored => anchored.Drifts))
        {
            if (one.Anchor is DriftAnchor.FrozenDoses frozen && frozen.LossAYear != schedule.FreezerLossPerYear)
                continue;
            var by = one.Anchor is DriftAnchor.FrozenDoses ? "frozen doses" : "lots roasted again";
            Cover($"drift by {by}", one.AYear, drift);
            if (one.RestAMonth is { } alone)
                Cover($"rest by {by}", alone, rest);
            if (drift == 0)
                record.Count($"{Name}: a drift told by {by} where there is none", one.AYear.IsToldFromNone);
        }

        void Cover(string what, DriftSlope slope, double truth) => record.Cover($"{Name}: {what}", slope.Estimate, slope.Low, slope.High, truth);
    }
}
