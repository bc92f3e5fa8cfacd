using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// What the end of a scale costs where the best coffees stand: Fisher information of one cup about a coffee's level, on the steps as used and on
/// the same steps carried on without an end. The information of a graded response is that of Samejima (1969, Psychometrika Monograph 17).
/// </summary>
internal static class ScaleCeiling
{
    // The mean of the highest tenth of a normal distribution, in standard deviations above its mean: φ(z)/0.1 at z = 1.2816.
    private const double BestTenth = 1.7549833193248683;
    private const int StepsBeyond = 60;

    public static TopOfScale Of(OrdinalMixedModelFit fit, StepGroups groups, int highestStep, Scale scale)
    {
        var any = Setting.Averaged(MarginalWeights.AsObserved);
        var known = Enumerable.Range(1, groups.Count - 1).Select(g => (Step: groups.FirstOf(g), At: fit.Estimate(fit.Threshold(g - 1, any)).Value)).ToArray();
        var distance = (known[^1].At - known[0].At) / (known[^1].Step - known[0].Step);
        var level = known.Average(threshold => threshold.At) + fit.Estimate(fit.At(any)).Value;
        var spread = Math.Sqrt(fit.VarianceComponents.Where(part => part.Group == Factor.Coffee.Name || part.Group == Factor.Bag.Name).Sum(part => Math.Pow(part.StandardDeviations[0], 2)));
        var best = level + (BestTenth * spread);
        var steps = Enumerable.Range(highestStep - StepsBeyond, 2 * StepsBeyond).ToArray();
        var lost = 1 - (Information([.. steps.Where(step => step <= highestStep).Select(Threshold)], best) / Information([.. steps.Select(Threshold)], best));
        return new TopOfScale(StepGroups.ValueOf(highestStep, scale), Math.Clamp(lost, 0, 1));

        double Threshold(int step)
        {
            if (step <= known[0].Step)
                return known[0].At - (distance * (known[0].Step - step));
            var above = Array.FindIndex(known, threshold => threshold.Step >= step);
            if (above < 0)
                return known[^1].At + (distance * (step - known[^1].Step));
            var (from, to) = (known[above - 1], known[above]);
            return from.At + ((to.At - from.At) * (step - from.Step) / (to.Step - from.Step));
        }
    }

    /// <summary>Information about the location of a normal latent variable of standard deviation 1, from the category it falls in.</summary>
    /// <param name="thresholds">The thresholds in order.</param>
    /// <param name="location">The location.</param>
    internal static double Information(IReadOnlyList<double> thresholds, double location)
    {
        var sum = 0.0;
        for (var k = 0; k <= thresholds.Count; k++)
        {
            var (low, high) = (k == 0 ? double.NegativeInfinity : thresholds[k - 1] - location, k == thresholds.Count ? double.PositiveInfinity : thresholds[k] - location);
            // Taken from the side on which the tail is small, so that nothing cancels.
            var probability = low > 0 ? Below(-low) - Below(-high) : Below(high) - Below(low);
            if (probability > 1e-300)
                sum += Math.Pow(Density(low) - Density(high), 2) / probability;
        }

        return sum;
    }

    private static double Below(double x) => double.IsInfinity(x) ? (x > 0 ? 1 : 0) : StandardNormal.CumulativeProbability(x);

    private static double Density(double x) => double.IsInfinity(x) ? 0 : StandardNormal.Density(x);
}
