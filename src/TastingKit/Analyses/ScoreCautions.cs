using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Cautions on habits of a log that make it no experiment, found in its scores.</summary>
internal static class ScoreCautions
{
    private const int Shuffles = 499;
    private const double Level = 0.02;
    private const double FewestMissingAbove = 3;
    private const int DaysOfAScale = 60;

    /// <summary>
    /// A pile at the highest score given: were scores normal above their median, more than three cups would be expected above it,
    /// which chance leaves out in fewer than one log of twenty.
    /// </summary>
    public static Caution? Ceiling(IReadOnlyList<Tasting> cups, Scale scale) => Ceiling([.. cups.Select(c => c.Score!.Value)], scale);

    /// <summary>The same for the values of any attribute.</summary>
    public static Caution? Ceiling(IReadOnlyList<double> values, Scale scale)
    {
        double[] scores = [.. values.Order()];
        if (scores.Length < 20)
            return null;
        var top = scores[^1];
        var median = MiddleQuantile(scores, 0.5);
        var spread = MiddleQuantile(scores, 0.8413) - median;
        var atTop = scores.Count(score => score == top);
        var beyond = top + (scale.Step / 2);
        var expected = spread > 0 ? scores.Length * StandardNormal.CumulativeProbability((median - beyond) / spread) : 0;
        return atTop < 2 || expected < FewestMissingAbove
            ? null
            : new Caution("ceiling",
                $"{NumberText.Count(atTop, "cup")} share the highest score given, {NumberText.Fixed(top, 1)}, where the spread of the others would put about {NumberText.Fixed(expected, 0)} cups above it: the best coffees are held down, and their intervals are not to be trusted.");
    }

    /// <summary>Whether cups in the order of tasting span so long that the scale may have moved meanwhile.</summary>
    public static bool SpanMonths(IReadOnlyList<Tasting> cups) => cups[^1].TastedOn.DayNumber - cups[0].TastedOn.DayNumber > DaysOfAScale;

    /// <summary>The changes of water or equipment that have cups on both sides.</summary>
    public static IReadOnlyList<EquipmentChange> ChangesAmong(TastingLog log, IReadOnlyList<Tasting> cups) =>
        [.. log.Changes.Where(c => c.ChangedOn > cups[0].TastedOn && c.ChangedOn <= cups[^1].TastedOn)];

    /// <summary>Changes with their days, in a few words.</summary>
    public static string Said(IReadOnlyList<EquipmentChange> changes) =>
        string.Join(", ", changes.Select(c => $"{c.What} on {c.ChangedOn.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)}"));

    /// <summary>Cups that went wrong are left out of an answer.</summary>
    /// <param name="count">How many, at least one.</param>
    /// <param name="consequence">What the answer is of, without them.</param>
    public static Caution OneOffsSetAside(int count, string consequence) => new("one-offs-set-aside",
        $"{NumberText.Count(count, "cup fits", "cups fit")} nothing else in the log and {(count == 1 ? "is" : "are")} set aside: {consequence}");

    /// <summary>Changes of water or equipment between the first cup and the last.</summary>
    public static Caution? EquipmentChanged(TastingLog log, IReadOnlyList<Tasting> cups)
    {
        var changes = ChangesAmong(log, cups);
        return changes.Count == 0
            ? null
            : new Caution("equipment-changed",
                $"Water or equipment changed ({Said(changes)}): cups before and after are compared as if it made no difference.");
    }

    /// <summary>
    /// Whether neighbouring cups of a bag are more alike than its cups at large, by the products of neighbours' residuals against
    /// those of residuals shuffled within bags.
    /// </summary>
    public static Caution? HangTogether(LinearMixedModelFit fit, IReadOnlyList<Tasting> cups, ulong seed) => HangTogether(fit.Residuals(), cups, seed);

    /// <summary>The same by what is left of each cup.</summary>
    public static Caution? HangTogether(IReadOnlyList<double> residuals, IReadOnlyList<Tasting> cups, ulong seed)
    {
        var bags = cups.Select((cup, row) => (cup.Bag.Id, Residual: residuals[row])).GroupBy(c => c.Id)
            .Select(g => g.Select(c => c.Residual).ToArray()).Where(bag => bag.Length >= 3).ToArray();
        if (bags.Sum(bag => bag.Length) < 40)
            return null;
        var observed = bags.Sum(NeighbourProducts);
        return IsBeyondChance(observed, new RandomStream(seed).Split(2), random => bags.Sum(bag =>
            {
                random.Shuffle<double>(bag);
                return NeighbourProducts(bag);
            }))
            ? new Caution("neighbours-alike",
                "Cups of a bag brewed one after the other are more alike than its cups at large: a score may be drawn to the last one, or bags change in ways of their own. Differences between brews may be larger than they look, and intervals too narrow.")
            : null;
    }

    /// <summary>Whether something is higher than all but a fiftieth of what shuffling makes of it, itself counted among these.</summary>
    /// <param name="observed">As it is.</param>
    /// <param name="random">What shuffles.</param>
    /// <param name="shuffled">Shuffles once more and tells what that makes.</param>
    public static bool IsBeyondChance(double observed, RandomStream random, Func<RandomStream, double> shuffled)
    {
        var asHigh = 0;
        for (var shuffle = 0; shuffle < Shuffles; shuffle++)
        {
            if (shuffled(random) >= observed)
                asHigh++;
        }

        return (asHigh + 1.0) / (Shuffles + 1) <= Level;
    }

    private static double NeighbourProducts(double[] values)
    {
        var sum = 0.0;
        for (var i = 1; i < values.Length; i++)
            sum += values[i] * values[i - 1];
        return sum;
    }

    // Quantile of the mid-distribution function, straight between the values given, so that steps of a scale don't decide it.
    private static double MiddleQuantile(double[] sorted, double share)
    {
        var target = share * sorted.Length;
        double below = 0, previousMiddle = 0, previousValue = sorted[0];
        foreach (var tied in sorted.GroupBy(value => value))
        {
            var count = tied.Count();
            var middle = below + (count / 2.0);
            if (middle >= target)
                return middle == previousMiddle ? tied.Key : previousValue + ((tied.Key - previousValue) * (target - previousMiddle) / (middle - previousMiddle));
            (previousMiddle, previousValue) = (middle, tied.Key);
            below += count;
        }

        return sorted[^1];
    }
}
