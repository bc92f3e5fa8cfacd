using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="RestPlan"/>.</summary>
internal static class RestPlanAnalysis
{
    private const int FewestBags = 6;
    private const int FewestCups = 30;
    private const string Estimator =
        "restricted maximum likelihood and joint draws as for courses over rest, the days open being a term of their own: bags of one rest that were opened early and late tell the two apart, "
        + "taken for granted that bags opened late were not better or poorer from the start. A day to open counts by the mean of the course over the days that follow it; "
        + "what a day more in an open bag costs is the same for all of them, and does not move the best";

    public static RestPlan Of(TastingLog log, string bagId, double? near, ulong seed, DrawOptions? varianceDraws = null)
    {
        var bag = log.BagNamed(bagId);
        var scale = log.ScaleOf(TastingAttribute.Score);
        var distance = RestPeaksAnalysis.Question.Positive(near ?? RestPeaksAnalysis.NearShare * (scale.Max - scale.Min), nameof(near));
        var scored = ScoredCups.Of(log);
        var openedAt = OpenedAt(scored.Cups);
        var known = scored.Where(c => c.RestDays is { } rest && openedAt.TryGetValue(c.Bag.Id, out var age) && rest >= age, "without a known rest or opening");
        Tasting[] cups = [.. known.Cups];
        var leftOut = known.LeftOut;
        var kind = bag.Coffee.Process ?? RestPeaksAnalysis.AllCoffees;
        var ofKind = cups.Where(c => bag.Coffee.Process is null || c.Bag.Coffee.Process == kind).ToArray();
        Tasting[] bags = [.. ofKind.DistinctBy(c => c.Bag.Id)];
        RestPlan Unsupported(Support why) => new(
            bag, kind, [], (0, 0), 0, distance, bags.Length, scale, [], new Computation("none", "none", ofKind.Length, leftOut), why);

        int[] ages = [.. bags.Select(c => openedAt[c.Bag.Id]).Order()];
        var spans = ofKind.GroupBy(c => c.Bag.Id).Select(g => g.Max(c => c.RestDays!.Value) - openedAt[g.Key]).Order().ToArray();
        int[] days = [.. ofKind.Select(c => c.RestDays!.Value).Order()];
        var daysOpen = spans.Length == 0 ? 0 : spans[spans.Length / 2];
        var last = ages.Length == 0 ? 0 : Math.Min(ages[^1], days[(int)(0.99 * (days.Length - 1))] - daysOpen);
        if (ages.Length < FewestBags || ages[^1] - ages[0] < RestCautions.FewestDaysApart || ofKind.Length < FewestCups || last - ages[0] < 2)
        {
            return Unsupported(Support.Missing(
                $"The log tells when bags of {kind} taste best as you keep them, not when to open one: {Said(ages)}.",
                $"Open bags of {kind} at ages that lie ten days or more apart, six bags or more, write opened_on and the roast date of each, and brew each on several days."));
        }

        var by = bag.Coffee.Process is null ? null : Factor.Process;
        if (RestModel.Of(known, TastingAttribute.Score, by, log.Watch, out var used, openedAt) is not { } model)
            return Unsupported(ScoreFit.NoChanceLeft(cups.Length));
        ofKind = [.. ofKind.Intersect(used.Cups)];
        bags = [.. ofKind.DistinctBy(c => c.Bag.Id)];
        var draws = PredictionDraws.Of(
            model.Fit, model.PartsOf(by is null ? null : kind, bags), RestPeaksAnalysis.Draws, seed, log.Watch, model.WithPrior(varianceDraws ?? RestPeaksAnalysis.FewVariances));
        var course = new RestDraws(draws, 0, [.. Enumerable.Range(ages[0], last - ages[0] + 1).Select(age => MeanWeights(model, age, daysOpen))], ages[0]);
        var nearBest = course.NearBest(distance);
        OpeningDay[] opening = [.. Enumerable.Range(0, course.Width).Select(i =>
        {
            var (mean, low, high) = course.Middle(i);
            return new OpeningDay(ages[0] + i, mean, low, high, nearBest[i]);
        })];
        return new RestPlan(
            bag, kind, opening, course.BestInterval(), daysOpen, distance, bags.Length, scale,
            [
                new Caution("bags-opened-late-alike",
                    "Bags opened late are taken to have been no better and no poorer than those opened early: a bag kept back because it is good, or opened at once because it is, would tilt this."),
                .. new[] { model.OneOffsSetAside, model.SessionsLeftOut, ScoreCautions.EquipmentChanged(log, cups) }.OfType<Caution>(),
            ],
            new Computation(model.Words, Estimator, ofKind.Length, used.LeftOut, seed), Support.Given);
    }

    private static string Said(int[] ages) => ages.Length switch
    {
        0 => "no bag of it has a roast date and a scored cup",
        1 => "one bag of it was opened",
        _ when ages[^1] == ages[0] => $"{NumberText.Count(ages.Length, "bag")} of it were all opened on day {ages[0]}",
        _ => $"{NumberText.Count(ages.Length, "bag")} of it were opened from day {ages[0]} to day {ages[^1]} of their age, too few or too alike",
    };

    /// <summary>The mean over the days that a bag is open, from its opening on.</summary>
    private static double[] MeanWeights(RestModel model, int openedAt, int daysOpen)
    {
        double[][] days = [.. Enumerable.Range(openedAt, daysOpen + 1).Select(model.WeightsAt)];
        return [.. Enumerable.Range(0, days[0].Length).Select(part => days.Average(day => day[part]))];
    }

    private static Dictionary<string, int> OpenedAt(IReadOnlyList<Tasting> cups) =>
        cups.Where(c => c.Bag.RoastDate is not null).GroupBy(c => c.Bag.Id)
            .ToDictionary(g => g.Key, g => (g.First().Bag.OpenedOn ?? g.Min(c => c.TastedOn)).DayNumber - g.First().Bag.RoastDate!.Value.DayNumber);
}
