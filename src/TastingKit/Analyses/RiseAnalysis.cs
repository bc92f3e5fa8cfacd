using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="ScoreRise"/>.</summary>
internal static class RiseAnalysis
{
    private const int Draws = 2000;
    private const int FewestCupsOfAQuarter = 20;
    private const int FewestBagsOfAQuarter = 5;
    private const int FewestCups = 12;
    private const int FewestBags = 3;

    private const string Estimator =
        "each factor\u2019s share is its effect by the model times the change of its mix (model-based standardisation); variances and effects drawn jointly, estimates are means "
        + "of the draws and intervals their middle 95 %; the raw change\u2019s own by least squares with errors clustered in bags (CR2); chance is what is left of the raw change in each draw";

    // Of each part an interval is asked, not its far tails.
    private static readonly DrawOptions FewerDraws = new() { VarianceProposals = 200, PilotDraws = 100 };

    /// <summary>The parts of a change.</summary>
    /// <param name="log">The log.</param>
    /// <param name="attribute">What is asked about.</param>
    /// <param name="periods">The two stretches; the first and last quarter of the cups, or their halves, where not given.</param>
    /// <param name="restAMonth">What the user states of a month of rest; nothing where not stated.</param>
    /// <param name="freezerLossAYear">Points a year that a frozen dose is stated to lose.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="options">How variances are drawn; fewer of them where thousands of logs are gone through.</param>
    public static ScoreRise Of(
        TastingLog log, TastingAttribute attribute, (DaySpan Earlier, DaySpan Later)? periods, double? restAMonth, double freezerLossAYear, ulong seed, DrawOptions? options = null)
    {
        var scale = log.ScaleOf(attribute);
        var scored = ScoredCups.Of(log, attribute);
        ScoreRise Unsupported(Support why) => new(
            attribute, scale, null, null, null, [], null, null, null, new RiseDrift.NotTold(), false, [], new Computation("none", "none", scored.Cups.Count, scored.LeftOut), why);

        if ((periods ?? Split(scored.Cups)) is not { } asked)
        {
            return Unsupported(Support.Missing(
                $"{NumberText.Count(scored.Cups.Count, "scored cup")} of {NumberText.Count(Bags(scored.Cups), "bag")} are too few to hold one half of the log against the other.",
                $"Log at least {FewestCups} cups of {FewestBags} bags in each of two stretches of the calendar."));
        }

        var (earlier, later) = (PeriodOf(scored.Cups, attribute, asked.Earlier), PeriodOf(scored.Cups, attribute, asked.Later));
        foreach (var period in new[] { (asked.Earlier, Period: earlier), (asked.Later, Period: later) })
        {
            if (period.Period is not { Cups: >= FewestCups, Bags: >= FewestBags })
            {
                return Unsupported(Support.Missing(
                    $"From {period.Item1} the log has {NumberText.Count(period.Period?.Cups ?? 0, "scored cup")} of {NumberText.Count(period.Period?.Bags ?? 0, "bag")}: too few to take a change apart.",
                    $"Ask about stretches with at least {FewestCups} cups of {FewestBags} bags each."));
            }
        }

        var columns = ScoreColumns.Of(scored.Cups, attribute).WithoutManySessions();
        double[] weights = [.. scored.Cups.Select(c => asked.Later.Holds(c.TastedOn) ? 1.0 / later!.Cups : asked.Earlier.Holds(c.TastedOn) ? -1.0 / earlier!.Cups : 0)];
        if (RiseModel.Of(log, columns, attribute, weights) is not { } model)
            return Unsupported(ScoreFit.NoChanceLeft(scored.Cups.Count));

        var drift = DriftOf(log, attribute, restAMonth, freezerLossAYear);
        var years = Change(weights, [.. scored.Cups.Select(c => c.TastedOn.DayNumber / Covariate.DaysAYear)]);
        var isLarge = scored.Cups.Count > PredictionDraws.LargeLog;
        var joint = PredictionDraws.Joint(model.Fit, Draws, seed, log.Watch, model.WithPrior(options ?? (isLarge ? PredictionDraws.OfLargeLog : FewerDraws)));
        var parts = new RiseDraws(model, later!.Mean - earlier!.Mean, drift.Slope, years, joint, seed, log.Watch);
        return new ScoreRise(
            attribute, scale, earlier, later, RawChange(scored.Cups, attribute, weights, later.Mean - earlier.Mean), parts.All, parts.Together(RiseSource.Purchasing, "coffees bought"),
            parts.Together(RiseSource.Brewing, "brews"), parts.Steady, drift, model.OwnEffects is not null,
            RiseCautions.Of(log, scored.Cups, attribute, asked, weights, model, drift, columns, [earlier, later], seed),
            new Computation(model.Words, Estimator, scored.Cups.Count, scored.LeftOut, seed), Support.Given);
    }

    /// <summary>The first and the last quarter of the cups, or where these are thin the halves, whole days together; nothing where halves are too thin.</summary>
    internal static (DaySpan Earlier, DaySpan Later)? Split(IReadOnlyList<Tasting> cups)
    {
        if (cups.Count < 2 * FewestCups)
            return null;
        DateOnly[] days = [.. cups.Select(c => c.TastedOn).Order()];
        var quarter = days.Length / 4;
        var (early, late) = (new DaySpan(days[0], days[quarter - 1]), new DaySpan(days[^quarter], days[^1]));
        if (early.To < late.From && new[] { early, late }.All(span => IsEnough(span, FewestCupsOfAQuarter, FewestBagsOfAQuarter)))
            return (early, late);
        // The middle day goes to the earlier half.
        var middle = days[(days.Length - 1) / 2];
        if (middle == days[^1])
            return null;
        var (first, second) = (new DaySpan(days[0], middle), new DaySpan(days.First(day => day > middle), days[^1]));
        return IsEnough(first, FewestCups, FewestBags) && IsEnough(second, FewestCups, FewestBags) ? (first, second) : null;

        bool IsEnough(DaySpan span, int fewestCups, int fewestBags)
        {
            Tasting[] within = [.. cups.Where(c => span.Holds(c.TastedOn))];
            return within.Length >= fewestCups && Bags(within) >= fewestBags;
        }
    }

    private static RiseDrift DriftOf(TastingLog log, TastingAttribute attribute, double? restAMonth, double freezerLossAYear)
    {
        var found = DriftAnalysis.Of(log, attribute, freezerLossAYear, []);
        if (restAMonth is { } stated)
        {
            var given = found.GivenRestSlope(stated);
            return given.Support.IsSupported ? new RiseDrift.Stated(stated, given.AYear) : new RiseDrift.NotTold();
        }

        return found.Support.IsSupported && found.Case is DriftCase.Anchored anchored
            ? new RiseDrift.Anchored(AdjustmentAnalysis.Chosen(anchored.Drifts, freezerLossAYear))
            : new RiseDrift.NotTold();
    }

    private static RisePeriod? PeriodOf(IReadOnlyList<Tasting> all, TastingAttribute attribute, DaySpan span)
    {
        Tasting[] cups = [.. all.Where(c => span.Holds(c.TastedOn))];
        return cups.Length == 0 ? null : new RisePeriod(span, cups.Average(c => c.ValueOf(attribute)!.Value), cups.Length, Bags(cups), cups.Select(c => c.Bag.Coffee.Id).Distinct().Count());
    }

    private static RisePart RawChange(IReadOnlyList<Tasting> all, TastingAttribute attribute, double[] weights, double change)
    {
        var cups = all.Select((cup, row) => (cup, IsLater: weights[row] > 0, IsIn: weights[row] != 0)).Where(each => each.IsIn).ToArray();
        var bags = cups.Select(each => each.cup.Bag.Id).Distinct().Select((id, i) => (id, i)).ToDictionary(bag => bag.id, bag => bag.i, StringComparer.Ordinal);
        var found = ClusteredRegression.Fit(
            [.. cups.Select(each => each.cup.ValueOf(attribute)!.Value)],
            [[.. cups.Select(_ => 1.0)], [.. cups.Select(each => each.IsLater ? 1.0 : 0)]],
            [.. cups.Select(each => bags[each.cup.Bag.Id])]).Estimate(0, 1);
        return new RisePart("raw change", RiseSource.Chance, change, change + found.Low - found.Value, change + found.High - found.Value);
    }

    private static double Change(double[] weights, double[] values) => values.Select((value, row) => value * weights[row]).Sum();

    private static int Bags(IEnumerable<Tasting> cups) => cups.Select(c => c.Bag.Id).Distinct().Count();
}
