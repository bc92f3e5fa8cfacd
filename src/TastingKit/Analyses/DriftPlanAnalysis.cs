using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="DriftPlan"/>.</summary>
internal static class DriftPlanAnalysis
{
    private const int MostDoses = 365;
    private const int MostBags = 100;
    private static readonly int[] Usual = [6, 12, 24, 52];

    private const string Estimator =
        "variances by restricted maximum likelihood; the slope's standard error in closed form for doses spread evenly over a year; power of the two-sided test at 5 %, by the normal distribution";

    public static DriftPlan Of(TastingLog log, TastingAttribute attribute, double driftAYear)
    {
        var scale = log.ScaleOf(attribute);
        var found = DriftAnalysis.ModelOf(log, attribute);
        if (found.Model is not { } model)
        {
            return new DriftPlan(driftAYear, scale, null, null, [], 0, [], new Computation("none", "none", found.Cups.Count, []), Support.Missing(
                $"{NumberText.Count(found.Cups.Count, "scored cup")}: too few to tell how a cup scatters from day to day.", "Taste bags on several days each."));
        }

        var own = model.Fit.ResidualStandardDeviation;
        var hasSittings = model.Fit.VarianceComponents.Any(component => component.Group == "session");
        var day = hasSittings ? Math.Sqrt(model.Fit.ResidualVarianceWith("session").Variance) : own;
        var cupsABag = Math.Max(1, found.Cups.Count / (double)found.Cups.Select(c => c.Bag.Id).Distinct().Count());
        var doses = Enumerable.Range(3, MostDoses - 2).Select(Spread).FirstOrDefault(option => option.Power >= DriftPlan.WantedPower);
        var flight = Enumerable.Range(BlindFlight.FewestBags, MostBags - BlindFlight.FewestBags + 1).Select(Sitting).FirstOrDefault(option => option.Power >= DriftPlan.WantedPower);
        DriftPlanOption?[] options = [.. Usual.Select(Spread).Append(doses).OfType<DriftPlanOption>().DistinctBy(option => option.Doses).OrderBy(option => option.Doses), flight];
        return new DriftPlan(
            driftAYear, scale, doses, flight, [.. options.OfType<DriftPlanOption>()], day, [], new Computation(model.Words, Estimator, found.Cups.Count, []), Support.Given);

        // n days at (i + ½)/n of a year have the sum of squares (n² − 1)/(12 n).
        DriftPlanOption Spread(int n) => Option($"{n} doses of one coffee over the year", n, Covariate.DaysAYear / n, day / Math.Sqrt(((n * (double)n) - 1) / (12.0 * n)));

        // At one sitting its own shift is common to all, and goes into what freezing itself does; each bag's fresh cups carry their days'.
        DriftPlanOption Sitting(int n) => Option(
            $"a dose of each of {n} bags, at one sitting at the year's end", n, null, Math.Sqrt(((own * own) + (day * day / cupsABag)) / (((n * (double)n) - 1) / (12.0 * n))));

        DriftPlanOption Option(string what, int n, double? apart, double error)
        {
            var reach = StandardNormal.Quantile(0.975);
            var power = StandardNormal.CumulativeProbability((driftAYear / error) - reach) + StandardNormal.CumulativeProbability(-(driftAYear / error) - reach);
            return new DriftPlanOption(what, n, apart, reach * error, Math.Clamp(power, 0, 1));
        }
    }
}
