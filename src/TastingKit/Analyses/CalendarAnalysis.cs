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

    // A step is called near a change of equipment where it lies no further from it than so many days.
    private const int DaysNear = 30;

    // Of a log of many thousand bags fewer orders are gone through, so that it takes seconds.
    private const int Orders = 1999;
    private const int FewestOrders = 199;
    private const int BagsTimesOrders = 20_000_000;

    private const string Estimator =
        "means of cups as they are; intervals by least squares with errors clustered in bags (CR2, degrees of freedom of Bell and McCaffrey); "
        + "Kendall\u2019s test of a rise or fall and Pettitt\u2019s of one step on bag means at the mean days of their cups, by permuting whole bags over these days";

    public static CalendarCourse Of(TastingLog log, TastingAttribute attribute, ulong seed)
    {
        var scored = ScoredCups.Of(log, attribute);
        var scale = log.ScaleOf(attribute);
        var computation = new Computation("none: raw means by period, no adjustment of any kind", Estimator, scored.Cups.Count, scored.LeftOut, seed);
        if (scored.Cups.Count == 0)
        {
            var isScore = attribute.Equals(TastingAttribute.Score);
            return new CalendarCourse(attribute, "month", [], null, null, [], scale, [], computation, Support.Missing(
                isScore ? "The log holds no scored cup, so there is no course over the calendar." : $"No cup that counts has a value of {attribute}, so there is no course over the calendar.",
                isScore ? "Write a score beside each cup." : $"Rate {attribute} for each cup."));
        }

        double ValueOf(Tasting cup) => cup.ValueOf(attribute)!.Value;

        var first = scored.Cups[0].TastedOn;
        var last = scored.Cups[^1].TastedOn;
        var months = ((last.Year - first.Year) * 12) + last.Month - first.Month + 1;
        var period = months <= 24 ? "month" : months <= 60 ? "quarter" : "year";
        var bagNumbers = scored.Cups.Select(c => c.Bag.Id).Distinct().Select((id, i) => (id, i)).ToDictionary(b => b.id, b => b.i);
        var periods = scored.Cups.GroupBy(c => StartOf(c.TastedOn, period)).OrderBy(g => g.Key)
            .Select(g => Summarise(g.Key, period, [.. g], ValueOf, bagNumbers)).ToArray();
        if (periods.Length == 1)
        {
            return new CalendarCourse(attribute, period, [], null, null, [], scale, [], computation,
                Support.Missing(
                    $"All {NumberText.Count(scored.Cups.Count, "scored cup")} fall into one {period}, so there is no course over the calendar.",
                    "Go on logging: from the second month on there is something to see."));
        }

        var changes = ScoreCautions.ChangesAmong(log, scored.Cups);
        return new CalendarCourse(
            attribute, period, periods, TrendOf(scored.Cups, ValueOf, bagNumbers), OrderOf(scored.Cups, ValueOf, changes, seed), changes, scale, Cautions(scored.Cups, attribute, periods, changes, seed), computation, Support.Given);
    }

    private static BagOrder? OrderOf(IReadOnlyList<Tasting> cups, Func<Tasting, double> valueOf, IReadOnlyList<EquipmentChange> changes, ulong seed)
    {
        var bags = cups.GroupBy(c => c.Bag.Id).Select(bag => (Id: bag.Key, Day: bag.Average(c => c.TastedOn.DayNumber), Mean: bag.Average(valueOf)))
            .OrderBy(bag => bag.Day).ThenBy(bag => bag.Id, StringComparer.Ordinal).ToArray();
        if (bags.Length < FewestBagsOfTrend || bags[^1].Day == bags[0].Day)
            return null;
        double[] means = [.. bags.Select(bag => bag.Mean)];
        var found = OrderTest.Of(means, bags.Select(bag => bag.Day).ToArray(), Math.Clamp(BagsTimesOrders / bags.Length, FewestOrders, Orders), new RandomStream(seed));
        var (last, first) = (DateOnly.FromDayNumber((int)bags[found.Before - 1].Day), DateOnly.FromDayNumber((int)Math.Ceiling(bags[found.Before].Day)));
        var step = new BagStep(
            last, first, means[..found.Before].Average(), means[found.Before..].Average(), found.StepP,
            [.. changes.Where(change => change.ChangedOn >= last.AddDays(-DaysNear) && change.ChangedOn <= first.AddDays(DaysNear))]);
        return new BagOrder(bags.Length, found.TauB, found.TrendP, step, found.Orders, found.IsExact);
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

    private static CalendarPeriod Summarise(DateOnly start, string period, IReadOnlyList<Tasting> cups, Func<Tasting, double> valueOf, Dictionary<string, int> bagNumbers)
    {
        var scores = cups.Select(valueOf).ToArray();
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

    private static CalendarTrend? TrendOf(IReadOnlyList<Tasting> cups, Func<Tasting, double> valueOf, Dictionary<string, int> bagNumbers)
    {
        if (bagNumbers.Count < FewestBagsOfTrend || cups[^1].TastedOn.DayNumber - cups[0].TastedOn.DayNumber < FewestDaysOfTrend)
            return null;
        var years = cups.Select(c => c.TastedOn.DayNumber / Covariate.DaysAYear).ToArray();
        var middle = years.Average();
        double[] ones = [.. years.Select(_ => 1.0)], line = [.. years.Select(y => y - middle)];
        double[] scores = [.. cups.Select(valueOf)];
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

    private static List<Caution> Cautions(
        IReadOnlyList<Tasting> cups, TastingAttribute attribute, IReadOnlyList<CalendarPeriod> periods, IReadOnlyList<EquipmentChange> changes, ulong seed)
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
                $"{NumberText.Count(changes.Count, "change")} of water or equipment in these days ({ScoreCautions.Said(changes)}): a step across all bags mimics inflation."));
        }

        if (CarryOver.In(cups, attribute, seed) is { } carried)
            cautions.Add(carried);
        return cautions;
    }
}
