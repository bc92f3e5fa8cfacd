using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="CalendarCourse"/>.</summary>
internal static class CalendarAnalysis
{
    // With two bags an interval of their mean runs far beyond any scale, and says nothing.
    private const int FewestBags = 3;
    private const int FewestBagsOfTrend = 6;
    private const int FewestDaysOfTrend = 90;

    private const string Estimator =
        "means of cups as they are; intervals by least squares with errors clustered in bags (CR2, degrees of freedom of Bell and McCaffrey)";

    public static CalendarCourse Of(TastingLog log)
    {
        var scored = ScoredCups.Of(log);
        var scale = log.ScaleOf(TastingAttribute.Score);
        var computation = new Computation("none: raw means by period, no adjustment of any kind", Estimator, scored.Cups.Count, scored.LeftOut);
        if (scored.Cups.Count == 0)
        {
            return new CalendarCourse("month", [], null, [], scale, [], computation,
                Support.Missing("The log holds no scored cup, so there is no course over the calendar.", "Write a score beside each cup."));
        }

        var first = scored.Cups[0].TastedOn;
        var last = scored.Cups[^1].TastedOn;
        var months = ((last.Year - first.Year) * 12) + last.Month - first.Month + 1;
        var period = months <= 24 ? "month" : months <= 60 ? "quarter" : "year";
        var bagNumbers = scored.Cups.Select(c => c.Bag.Id).Distinct().Select((id, i) => (id, i)).ToDictionary(b => b.id, b => b.i);
        var periods = scored.Cups.GroupBy(c => StartOf(c.TastedOn, period)).OrderBy(g => g.Key)
            .Select(g => Summarise(g.Key, period, [.. g], bagNumbers)).ToArray();
        if (periods.Length == 1)
        {
            return new CalendarCourse(period, [], null, [], scale, [], computation,
                Support.Missing(
                    $"All {NumberText.Count(scored.Cups.Count, "scored cup")} fall into one {period}, so there is no course over the calendar.",
                    "Go on logging: from the second month on there is something to see."));
        }

        var changes = ScoreCautions.ChangesAmong(log, scored.Cups);
        return new CalendarCourse(
            period, periods, TrendOf(scored.Cups, bagNumbers), changes, scale, Cautions(periods, changes), computation, Support.Given);
    }

    /// <summary>The first day of the month, quarter or year that a day lies in.</summary>
    internal static DateOnly StartOf(DateOnly day, string period) => period switch
    {
        "month" => new DateOnly(day.Year, day.Month, 1),
        "quarter" => new DateOnly(day.Year, (((day.Month - 1) / 3) * 3) + 1, 1),
        _ => new DateOnly(day.Year, 1, 1),
    };

    /// <summary>The name of a month, quarter or year by its first day.</summary>
    internal static string LabelOf(DateOnly start, string period) => period switch
    {
        "month" => start.ToString("yyyy-MM", CultureInfo.InvariantCulture),
        "quarter" => string.Create(CultureInfo.InvariantCulture, $"{start.Year} Q{((start.Month - 1) / 3) + 1}"),
        _ => start.Year.ToString(CultureInfo.InvariantCulture),
    };

    private static CalendarPeriod Summarise(DateOnly start, string period, IReadOnlyList<Tasting> cups, Dictionary<string, int> bagNumbers)
    {
        var scores = cups.Select(c => c.Score!.Value).ToArray();
        var bags = cups.Select(c => bagNumbers[c.Bag.Id]).ToArray();
        var bagCount = bags.Distinct().Count();
        MeanInterval? interval = null;
        if (bagCount >= FewestBags)
        {
            var mean = ClusteredRegression.Mean(scores, bags);
            interval = new MeanInterval(mean.Low, mean.High);
        }

        return new CalendarPeriod(start, LabelOf(start, period), scores.Average(), interval, scores.Length, bagCount);
    }

    private static CalendarTrend? TrendOf(IReadOnlyList<Tasting> cups, Dictionary<string, int> bagNumbers)
    {
        if (bagNumbers.Count < FewestBagsOfTrend || cups[^1].TastedOn.DayNumber - cups[0].TastedOn.DayNumber < FewestDaysOfTrend)
            return null;
        var years = cups.Select(c => c.TastedOn.DayNumber / Covariate.DaysAYear).ToArray();
        var middle = years.Average();
        double[] ones = [.. years.Select(_ => 1.0)], line = [.. years.Select(y => y - middle)];
        double[] scores = [.. cups.Select(c => c.Score!.Value)];
        int[] bags = [.. cups.Select(c => bagNumbers[c.Bag.Id])];
        var slope = ClusteredRegression.Fit(scores, [ones, line], bags).Estimate(0, 1);
        var bend = Bend.None;
        if (cups.Select(c => c.TastedOn).Distinct().Count() >= 6)
        {
            var curvature = ClusteredRegression.Fit(scores, [ones, line, [.. line.Select(v => v * v)]], bags).Estimate(0, 0, 1);
            bend = curvature.Low > 0 ? Bend.Hollow : curvature.High < 0 ? Bend.Arched : Bend.None;
        }

        return new CalendarTrend(slope.Value, slope.Low, slope.High, bend);
    }

    private static List<Caution> Cautions(IReadOnlyList<CalendarPeriod> periods, IReadOnlyList<EquipmentChange> changes)
    {
        var cautions = new List<Caution>();
        var thin = periods.Where(p => p.Bags < FewestBags).ToArray();
        if (thin.Length > 0)
        {
            cautions.Add(new Caution("few-bags",
                $"{NumberText.Count(thin.Length, "period")} rest on fewer than three bags, and so have no interval: {string.Join(", ", thin.Take(6).Select(p => p.Label))}{(thin.Length > 6 ? " and others" : "")}."));
        }

        if (changes.Count > 0)
        {
            cautions.Add(new Caution("equipment-changed",
                $"{NumberText.Count(changes.Count, "change")} of water or equipment in these days ({ScoreCautions.Said(changes)}): a step across all bags looks like inflation."));
        }

        return cautions;
    }
}
