using System.Globalization;

namespace TastingKit.Calibration;

/// <summary>
/// What must hold, fixed before any year was simulated. Nominal 95 % intervals cover 94 to 96.5 % where the model matches;
/// at least 93 % where a factor has fewer than eight levels or a variance of the analysis's model is nought; at least 92 % where the truth departs
/// from the model, or one of the cell's cautions fires: at least 92 % of the intervals cover or stand in a year that is cautioned of.
/// Rates held at 5 % show at most 6 %, a year that is cautioned of not counting where the truth departs from the model.
/// Stated probabilities have a slope of 0.9 to 1.1. What is asked for at a power of 80 % has one of 70 to 90 %.
/// </summary>
public static class Rules
{
    private const double SimulationErrors = 3;
    private const double LeastMisspecified = 0.92;
    private const double MostOfRate = 0.06;

    /// <summary>Holds a cell's years against the rules.</summary>
    public static CellFindings Judge(CalibrationCell cell, IReadOnlyCollection<YearRecord> years)
    {
        ArgumentNullException.ThrowIfNull(cell);
        ArgumentNullException.ThrowIfNull(years);
        var cautions = new SortedDictionary<string, double>(
            years.SelectMany(year => year.Cautions).CountBy(caution => caution).ToDictionary(count => count.Key, count => count.Value / (double)years.Count),
            StringComparer.Ordinal);
        // A caution named with its analysis speaks of that analysis alone.
        bool IsWarned(YearRecord year, string what) => cell.Match == Match.Misspecified && year.Cautions.Any(caution => cell.Cautions.Any(name =>
            caution.EndsWith(name, StringComparison.Ordinal) && (!name.Contains(": ", StringComparison.Ordinal) || what.StartsWith(name[..(name.IndexOf(": ", StringComparison.Ordinal) + 2)], StringComparison.Ordinal))));

        var findings = new List<Finding>();
        foreach (var what in Names(years, year => year.Coverage.Keys))
            findings.Add(Coverage(MatchOf(cell, what), what, [.. years.Where(year => year.Coverage.ContainsKey(what)).Select(year => (year.Coverage[what], IsWarned(year, what)))]));
        foreach (var what in Names(years, year => year.Rates.Keys))
            findings.Add(Rate(what, [.. years.Where(year => year.Rates.ContainsKey(what)).Select(year => (year.Rates[what], IsWarned(year, what)))], cell.Match));
        foreach (var what in Names(years, year => year.Powers.Keys))
            findings.Add(Power(what, [.. years.Select(year => year.Powers.GetValueOrDefault(what)).OfType<RateCount>()]));
        foreach (var what in Names(years, year => year.Finds.Keys))
            findings.Add(Found(what, [.. years.Select(year => year.Finds.GetValueOrDefault(what)).OfType<RateCount>()]));
        var probabilities = new SortedDictionary<string, MeasuredProbability>(StringComparer.Ordinal);
        foreach (var what in Names(years, year => year.Probabilities.Keys))
        {
            probabilities[what] = MeasuredProbability.Of([.. years.Select(year => year.Probabilities.GetValueOrDefault(what)).OfType<ProbabilityCount>()]);
            findings.Add(Slope(what, probabilities[what], cell.Match));
        }

        return new CellFindings(cell, years.Count, findings, probabilities, cautions);
    }

    private static Match MatchOf(CalibrationCell cell, string what) =>
        cell.Match == Match.Exact && cell.WithNought.Any(analysis => what.StartsWith($"{analysis}: ", StringComparison.Ordinal)) ? Match.Strained : cell.Match;

    private static SortedSet<string> Names(IReadOnlyCollection<YearRecord> years, Func<YearRecord, IEnumerable<string>> names) =>
        new(years.SelectMany(names), StringComparer.Ordinal);

    private static Finding Coverage(Match match, string what, (CoverageCount Count, bool IsWarned)[] judged)
    {
        CoverageCount[] years = [.. judged.Select(year => year.Count)];
        var share = MeasuredShare.Of([.. years.Select(year => (year.Covered, year.Total))]);
        var (low, high) = match switch { Match.Exact => (0.94, 0.965), Match.Strained => (0.93, 1.0), _ => (LeastMisspecified, 1.0) };
        var rule = match switch
        {
            Match.Exact => "covers 94 to 96.5 %",
            Match.Strained => "covers at least 93 %",
            _ => "covers at least 92 %, or a caution fires",
        };
        var kept = share.Value >= low && share.Value <= high;
        var near = share.Value + SimulationErrors * ErrorAt(low) >= low && share.Value - SimulationErrors * ErrorAt(high) <= high;
        var total = years.Sum(year => year.Total);
        var warned = judged.Sum(year => year.IsWarned ? year.Count.Total : year.Count.Covered) >= LeastMisspecified * total && judged.Any(year => year.IsWarned);
        var bias = years.Sum(year => year.Error) / total;
        var spread = Math.Sqrt(years.Sum(year => year.SquaredError) / total);
        return new Finding(
            what, rule, $"{Percent(share.Value)} ± {Percent(share.StandardError)}",
            string.Create(CultureInfo.InvariantCulture, $"{total} intervals, mean width {years.Sum(year => year.Width) / total:F3}, mean error {bias:F3}, root mean square error {spread:F3}"),
            kept ? Verdict.Kept : warned ? Verdict.Warned : Verdict.Broken, near);

        // Where all of few years cover, their own scatter is nought, which says nothing: a share at the bound would scatter as well.
        double ErrorAt(double bound) => share.StandardError > 0 ? share.StandardError : Math.Sqrt(bound * (1 - bound) / years.Length);
    }

    private static Finding Rate(string what, (RateCount Count, bool IsWarned)[] judged, Match match)
    {
        var share = MeasuredShare.Of([.. judged.Select(year => (year.Count.Happened, year.Count.Total))]);
        var kept = share.Value <= MostOfRate;
        var warned = judged.Sum(year => year.IsWarned ? 0 : year.Count.Happened) <= MostOfRate * judged.Sum(year => year.Count.Total) && judged.Any(year => year.IsWarned);
        return new Finding(
            what, match == Match.Misspecified ? "at most 6 %, or a caution fires" : "at most 6 %", $"{Percent(share.Value)} ± {Percent(share.StandardError)}",
            string.Create(CultureInfo.InvariantCulture, $"{share.Total} chances"),
            kept ? Verdict.Kept : warned ? Verdict.Warned : Verdict.Broken, share.Value - SimulationErrors * share.StandardError <= MostOfRate);
    }

    private static Finding Power(string what, RateCount[] years)
    {
        var share = MeasuredShare.Of([.. years.Select(year => (year.Happened, year.Total))]);
        var error = SimulationErrors * share.StandardError;
        return new Finding(
            what, "70 to 90 %", $"{Percent(share.Value)} ± {Percent(share.StandardError)}", string.Create(CultureInfo.InvariantCulture, $"{share.Total} undecided years"),
            share.Value is >= 0.7 and <= 0.9 ? Verdict.Kept : Verdict.Broken, share.Value + error >= 0.7 && share.Value - error <= 0.9);
    }

    private static Finding Found(string what, RateCount[] years)
    {
        var share = MeasuredShare.Of([.. years.Select(year => (year.Happened, year.Total))]);
        var isReported = what.EndsWith("(reported)", StringComparison.Ordinal);
        return new Finding(
            what, isReported ? "reported" : "at least half", $"{Percent(share.Value)} ± {Percent(share.StandardError)}", string.Create(CultureInfo.InvariantCulture, $"{share.Total} to be found"),
            isReported ? Verdict.Reported : share.Value >= 0.5 ? Verdict.Kept : Verdict.Broken, share.Value + (SimulationErrors * share.StandardError) >= 0.5);
    }

    private static Finding Slope(string what, MeasuredProbability measured, Match match)
    {
        var asked = match == Match.Exact;
        var kept = measured.Slope is >= 0.9 and <= 1.1;
        var error = SimulationErrors * measured.SlopeStandardError;
        var verdict = kept ? Verdict.Kept : asked ? Verdict.Broken : Verdict.Reported;
        return new Finding(
            what, asked ? "slope 0.9 to 1.1" : "slope, reported",
            string.Create(CultureInfo.InvariantCulture, $"{measured.Slope:F3} ± {measured.SlopeStandardError:F3}"),
            string.Create(CultureInfo.InvariantCulture, $"{measured.Bins.Sum(bin => bin.Count)} predictions"),
            verdict, measured.Slope + error >= 0.9 && measured.Slope - error <= 1.1);
    }

    private static string Percent(double share) => string.Create(CultureInfo.InvariantCulture, $"{100 * share:F2} %");
}
