using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Frozen doses of several bags, tasted blind at one sitting: a least-squares line through the bags' means by roast date. No calendar lies
/// between them, so that it compares better coffee less what the freezer does.
/// </summary>
internal static class BlindFlight
{
    public const int FewestBags = 5;
    private const int FewestDays = 60;

    /// <summary>The slope by roast date of the largest flight, a year; nothing where there is none.</summary>
    public static IdentifiedSum? Of(IReadOnlyList<Tasting> cups, TastingAttribute attribute, WorkWatch watch)
    {
        var flight = cups.Where(c => DriftModel.IsFrozen(c) && c.Bag.RoastDate is not null && c.BlindTo.HasFlag(BlindTo.Coffee))
            .GroupBy(c => (c.Session, c.TastedOn)).Select(sitting => sitting.ToArray()).Where(IsFlight).MaxBy(sitting => sitting.Length);
        if (flight is null)
            return null;
        var bags = flight.GroupBy(c => c.Bag.Id).ToArray();
        var roast = new NumericColumn("roast date in years", bags.Select(bag => DriftModel.YearOf(bag.First().Bag)).ToArray());
        double[] means = [.. bags.Select(bag => bag.Average(c => c.ValueOf(attribute)!.Value))];
        return ScoreFit.Of(ModelDesign.For(attribute.Name, means).WithFixed(roast), watch) is { } fit
            ? new IdentifiedSum(DriftSum.CoffeeLessFreezer, DriftSlope.Of(fit.Estimate(fit.FixedEffect(roast.Name))), flight.Length, bags.Length)
            : null;
    }

    private static bool IsFlight(Tasting[] sitting)
    {
        var days = sitting.Select(c => c.Bag.RoastDate!.Value.DayNumber);
        return sitting.Select(c => c.Bag.Id).Distinct().Count() >= FewestBags && days.Max() - days.Min() >= FewestDays;
    }
}
