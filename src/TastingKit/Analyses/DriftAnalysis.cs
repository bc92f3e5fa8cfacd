using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="ScaleDrift"/>.</summary>
internal static class DriftAnalysis
{
    private const int FewestCups = 12;
    private const int FewestRepeats = 8;
    private const int FewestBagsByRoastDate = 8;
    private const int FewestDoses = 3;
    private const int FewestDaysFrozen = 60;
    private const int FewestLots = 2;
    private const int FewestDaysBetweenRoastings = 60;
    private const double ShareOfBagsWithRoastDate = 0.8;

    private const string Estimator =
        "restricted maximum likelihood, intervals by t with Satterthwaite's degrees of freedom; lots roasted again by least squares on their roastings' levels at equal rest, "
        + "lots less one as degrees of freedom, so that batches that differ widen the interval; drift is taken as straight, and each listed change of equipment as a step; "
        + "a bend of rest is told from one of the calendar by bags roasted at other times alone";

    public static ScaleDrift Of(TastingLog log, TastingAttribute attribute, double freezerLossAYear, IReadOnlyList<Covariate> adjustedFor)
    {
        var scale = log.ScaleOf(attribute);
        var (cups, leftOut, restIsKnown, isEnough) = Usable(log, attribute);
        var bags = cups.Select(c => c.Bag.Id).Distinct().Count();
        var computation = new Computation("none", "none", cups.Length, leftOut);
        if (!isEnough)
        {
            return new ScaleDrift(attribute, scale, new DriftCase.NoAnchor([]), [], (0, 0), restIsKnown, freezerLossAYear, [], computation, Support.Missing(
                $"No drift of the scale can be told from this log: {NumberText.Count(cups.Length, "scored cup")} of {NumberText.Count(bags, "bag")}, so that hardly any coffee was tasted again. Whatever its scores do over the calendar, other coffees and a moving scale would show alike.",
                "Taste each bag on several days, and freeze a dozen doses of one coffee, to be thawed one a month."));
        }

        if (DriftModel.Of(log, cups, attribute, restIsKnown, adjustedFor) is not { } model)
            return new ScaleDrift(attribute, scale, new DriftCase.NoAnchor([]), [], (0, 0), restIsKnown, freezerLossAYear, [], computation, ScoreFit.NoChanceLeft(cups.Length));

        var sums = Sums(log, attribute, model, cups);
        var rest = sums.FirstOrDefault(sum => sum.Sum == DriftSum.RestAndDrift);
        var drifts = new List<AnchoredDrift>();
        var missing = new List<string>();
        AddFrozen(model, cups, sums, freezerLossAYear, drifts, missing);
        AddRoastedAgain(log, model, cups, rest, drifts, missing);
        DriftCase found = drifts.Count > 0 ? new DriftCase.Anchored(drifts) : new DriftCase.NoAnchor(missing);
        return new ScaleDrift(
            attribute, scale, found, sums, (model.FromDay, model.ToDay), restIsKnown, freezerLossAYear, DriftCautions.Of(log, cups, leftOut, model, scale, attribute),
            new Computation(model.Words, Estimator, cups.Length, leftOut), Support.Given);
    }

    /// <summary>The model alone and the cups it has; no model where they are too few.</summary>
    public static (DriftModel? Model, IReadOnlyList<Tasting> Cups) ModelOf(TastingLog log, TastingAttribute attribute)
    {
        var (cups, _, restIsKnown, isEnough) = Usable(log, attribute);
        return (isEnough ? DriftModel.Of(log, cups, attribute, restIsKnown, []) : null, cups);
    }

    private static (Tasting[] Cups, IReadOnlyList<LeftOut> LeftOut, bool RestIsKnown, bool IsEnough) Usable(TastingLog log, TastingAttribute attribute)
    {
        var scored = ScoredCups.WithFrozenDoses(log, attribute);
        var restIsKnown = KnowsRest(scored.Cups);
        var used = restIsKnown ? scored.WithKnownRest() : scored;
        Tasting[] cups = [.. used.Cups];
        return (cups, used.LeftOut, restIsKnown, cups.Length >= FewestCups && cups.Length - cups.Select(c => c.Bag.Id).Distinct().Count() >= FewestRepeats);
    }

    private static bool KnowsRest(IReadOnlyList<Tasting> cups)
    {
        var bags = cups.GroupBy(c => c.Bag.Id).Where(bag => bag.Skip(1).Any()).ToArray();
        return bags.Length > 0 && bags.Count(bag => bag.Any(c => c.RestDays is not null)) >= ShareOfBagsWithRoastDate * bags.Length;
    }

    private static List<IdentifiedSum> Sums(TastingLog log, TastingAttribute attribute, DriftModel model, IReadOnlyList<Tasting> cups)
    {
        var sums = new List<IdentifiedSum>();
        var fresh = cups.Where(c => !DriftModel.IsFrozen(c)).ToArray();
        var frozen = cups.Where(DriftModel.IsFrozen).ToArray();
        Tasting[] repeated = [.. fresh.GroupBy(c => c.Bag.Id).Where(bag => bag.Select(c => c.TastedOn).Distinct().Skip(1).Any()).SelectMany(bag => bag)];
        if (model.RestAndDrift() is { } rest)
            Add(DriftSum.RestAndDrift, model.Estimate(rest).Times(DriftModel.DaysAMonth), repeated);
        var again = DriftModel.LotsRoastedAgain(cups).Select(lot => lot.Key).ToHashSet(StringComparer.Ordinal);
        var thawed = frozen.Select(c => c.Bag.Id).ToHashSet(StringComparer.Ordinal);
        Tasting[] lone = [.. fresh.Where(c => !again.Contains(c.Bag.Coffee.Id) && !thawed.Contains(c.Bag.Id))];
        if (lone.Select(c => c.Bag.Id).Distinct().Count() >= FewestBagsByRoastDate && model.CoffeeAndDrift() is { } coffee)
            Add(DriftSum.CoffeeAndDrift, model.Estimate(coffee), lone);
        if (IsEnough(frozen) && model.FreezerAndDrift() is { } freezer)
            Add(DriftSum.FreezerAndDrift, model.Estimate(freezer), frozen);
        if (model.FreezingStep() is { } step)
            Add(DriftSum.FreezingStep, model.Estimate(step), [.. cups.GroupBy(c => c.Bag.Id).Where(bag => bag.Any(DriftModel.IsFrozen) && !bag.All(DriftModel.IsFrozen)).SelectMany(bag => bag)]);
        if (BlindFlight.Of(cups, attribute, log.Watch) is { } flight)
            sums.Add(flight);
        return sums;

        void Add(DriftSum sum, DriftSlope slope, Tasting[] of) => sums.Add(new IdentifiedSum(sum, slope, of.Length, of.Select(c => c.Bag.Id).Distinct().Count()));
    }

    private static bool IsEnough(Tasting[] frozen) =>
        frozen.Length >= FewestDoses && frozen.Max(c => c.FrozenDays) - frozen.Min(c => c.FrozenDays) >= FewestDaysFrozen;

    private static void AddFrozen(DriftModel model, Tasting[] cups, List<IdentifiedSum> sums, double lossAYear, List<AnchoredDrift> drifts, List<string> missing)
    {
        var frozen = cups.Where(DriftModel.IsFrozen).ToArray();
        if (sums.FirstOrDefault(sum => sum.Sum == DriftSum.FreezerAndDrift) is not { } sum)
        {
            missing.Add(frozen.Length == 0
                ? "No frozen dose was tasted."
                : $"{NumberText.Count(frozen.Length, "frozen dose was", "frozen doses were")} tasted, which is too few, too close together, or settled by something else in the log: at least {FewestDoses} of one bag, {FewestDaysFrozen} days apart from first to last, are asked for.");
            return;
        }

        var drift = model.FreezerAndDrift()!;
        var rest = model.RestAndDrift() is { } together
            ? model.Estimate((DriftModel.DaysAMonth * together) - (DriftModel.DaysAMonth / Covariate.DaysAYear * drift))
            : null;
        foreach (var loss in lossAYear == 0 ? [0.0] : new[] { 0, lossAYear })
        {
            drifts.Add(new AnchoredDrift(
                new DriftAnchor.FrozenDoses(sum.Cups, sum.Bags, loss), sum.Slope.Plus(loss), rest?.Plus(-loss * DriftModel.DaysAMonth / Covariate.DaysAYear)));
        }
    }

    /// <summary>
    /// Levels of the roastings against their roast dates, each lot by itself: b̂ = Σ w·level with w from the dates alone. What is left over
    /// between roastings holds the batches' differences and the levels' own errors, so that it gives the interval.
    /// </summary>
    private static void AddRoastedAgain(TastingLog log, DriftModel model, Tasting[] cups, IdentifiedSum? rest, List<AnchoredDrift> drifts, List<string> missing)
    {
        var lots = DriftModel.LotsRoastedAgain(cups)
            .Select(lot => Roastings(model, lot)).Where(lot => lot.Length > 1 && lot.Max(r => r.Year) - lot.Min(r => r.Year) >= FewestDaysBetweenRoastings / Covariate.DaysAYear)
            .ToArray();
        if (lots.Length < FewestLots)
        {
            missing.Add(lots.Length == 0
                ? $"No lot was tasted from two roastings {FewestDaysBetweenRoastings} days apart."
                : "One lot was tasted from two roastings, of which it can't be told how much batches differ: two lots are asked for.");
            return;
        }

        var squares = lots.Sum(lot => lot.Sum(r => Math.Pow(r.Year - lot.Average(o => o.Year), 2)));
        var function = LinearFunction.Zero;
        foreach (var lot in lots)
        {
            var middle = lot.Average(r => r.Year);
            foreach (var roasting in lot)
                function += (roasting.Year - middle) / squares * roasting.Level;
        }

        var slope = model.Fit.Value(function);
        var degreesOfFreedom = lots.Sum(lot => lot.Length - 1) - 1;
        var left = lots.Sum(lot =>
        {
            var (middle, mean) = (lot.Average(r => r.Year), lot.Average(r => model.Fit.Value(r.Level)));
            return lot.Sum(r => Math.Pow(model.Fit.Value(r.Level) - mean - (slope * (r.Year - middle)), 2));
        });
        var variance = left / degreesOfFreedom / squares;
        // A step of the equipment between roastings is one error that they all share, which their scatter does not show.
        if (ScoreCautions.ChangesAmong(log, cups).Count > 0)
            variance += model.Fit.Covariance(function, function);
        var error = Math.Sqrt(variance);
        var reach = StudentsT.TwoSidedQuantile(0.05, degreesOfFreedom) * error;
        var drift = new DriftSlope(slope, slope - reach, slope + reach, error, degreesOfFreedom);
        drifts.Add(new AnchoredDrift(new DriftAnchor.RoastedAgain(lots.Length, lots.Sum(lot => lot.Length)), drift, rest is null ? null : Less(rest.Slope, drift)));
    }

    /// <summary>Two estimates from almost separate cups, with Satterthwaite's degrees of freedom of their difference.</summary>
    private static DriftSlope Less(DriftSlope togetherAMonth, DriftSlope driftAYear)
    {
        var share = DriftModel.DaysAMonth / Covariate.DaysAYear;
        var value = togetherAMonth.Estimate - (share * driftAYear.Estimate);
        var (first, second) = (Math.Pow(togetherAMonth.StandardError, 2), Math.Pow(share * driftAYear.StandardError, 2));
        var error = Math.Sqrt(first + second);
        var degreesOfFreedom = Math.Pow(first + second, 2) / ((first * first / togetherAMonth.DegreesOfFreedom) + (second * second / driftAYear.DegreesOfFreedom));
        var reach = StudentsT.TwoSidedQuantile(0.05, degreesOfFreedom) * error;
        return new DriftSlope(value, value - reach, value + reach, error, degreesOfFreedom);
    }

    private static (double Year, LinearFunction Level)[] Roastings(DriftModel model, IEnumerable<Tasting> lot) =>
    [
        .. lot.GroupBy(c => c.Bag.RoastDate).OrderBy(g => g.Key)
            .Select(roasting => (Year: DriftModel.YearOf(roasting.First().Bag), Levels: roasting.Select(c => c.Bag).DistinctBy(b => b.Id).Select(model.LevelOf).OfType<LinearFunction>().ToArray()))
            .Where(roasting => roasting.Levels.Length > 0).Select(roasting => (roasting.Year, LinearFunction.Mean(roasting.Levels))),
    ];
}
