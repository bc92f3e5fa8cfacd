using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="BagTimeline"/>.</summary>
internal static class BagTimelineAnalysis
{
    // Of two cups an interval runs far beyond any scale, and says nothing.
    private const int FewestCups = 3;

    public static BagTimeline Of(TastingLog log, string bagId)
    {
        var bag = log.BagNamed(bagId);
        Tasting[] cups = [.. log.Tastings.Where(cup => cup.Bag.Id == bag.Id).OrderBy(cup => cup.TastedAt)];
        var counted = ScoredCups.Of(log).Cups.Where(cup => cup.Bag.Id == bag.Id).ToHashSet<Tasting>(ReferenceEqualityComparer.Instance);
        var scale = log.ScaleOf(TastingAttribute.Score);
        LeftOut[] leftOut = counted.Count == cups.Length ? [] : [new LeftOut("failed, for dialling in, apart or without a score", cups.Length - counted.Count)];
        if (cups.Length == 0)
        {
            return new BagTimeline(
                bag, [], null, null, scale, [], new Computation("none", "none", 0, []), Support.Missing($"The log has no cup of bag {bag.Id}.", "Log each cup that is brewed from it."));
        }

        var first = (bag.RoastDate ?? cups[0].TastedOn).DayNumber;
        double[] scores = [.. counted.Select(cup => cup.Score!.Value)];
        return new BagTimeline(
            bag, [.. cups.Select(cup => new TimelineCup(cup, cup.TastedOn.DayNumber - first, counted.Contains(cup)))], scores.Length == 0 ? null : scores.Average(), IntervalOf(scores), scale,
            scores.Length == 0 ? [] : [new Caution("as-they-are", "The mean is of cups as they were brewed: brewers, recipes and days of rest are not held equal.")],
            new Computation("mean of the bag's cups", "95 % interval of a mean by Student's t, cups taken as independent", scores.Length, leftOut), Support.Given);
    }

    private static MeanInterval? IntervalOf(double[] scores)
    {
        if (scores.Length < FewestCups)
            return null;
        var mean = scores.Average();
        var reach = StudentsT.TwoSidedQuantile(0.05, scores.Length - 1) * Math.Sqrt(scores.Sum(score => (score - mean) * (score - mean)) / (scores.Length - 1) / scores.Length);
        return new MeanInterval(mean - reach, mean + reach);
    }
}
