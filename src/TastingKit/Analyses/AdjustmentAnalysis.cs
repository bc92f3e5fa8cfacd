namespace TastingKit;

/// <summary>Computes <see cref="AdjustedScores"/> and the favourites on them.</summary>
internal static class AdjustmentAnalysis
{
    private const string Estimator =
        "score less drift times the years since the common day; the drift's error is one for all cups, so that covariances are products of their years with its variance";

    public static AdjustedScores Of(TastingLog log, TastingAttribute attribute, DateOnly? onScaleOf, double freezerLossAYear, double? restAMonth, ulong seed)
    {
        var found = DriftAnalysis.Of(log, attribute, freezerLossAYear, []);
        var scored = ScoredCups.Of(log, attribute);
        var day = onScaleOf ?? Middle(scored.Cups);
        var given = restAMonth is { } stated && found.Support.IsSupported ? found.GivenRestSlope(stated) : null;
        var drift = restAMonth is null
            ? found.Case.Match<AnchoredDrift?>(_ => null, anchored => Chosen(anchored.Drifts, freezerLossAYear))
            : found.SumOf(DriftSum.RestAndDrift) is { } together ? given?.AsAnchored(together) : null;
        if (!found.Support.IsSupported || drift is null)
        {
            return new AdjustedScores(attribute, found.Scale, null, day, [], [], found.Computation, Support.Missing(
                $"No score can be brought to another day's scale: {(found.Support.IsSupported ? "nothing in this log tells its drift apart from rest and other coffee" : "no drift of the scale can be told from this log")} ({NumberText.Count(scored.Cups.Count, "scored cup")}).",
                "Freeze a dozen doses of one coffee on one day, and thaw and taste one blind each month; or buy lots again from later roastings."),
                scores => Refused(scores, log, seed));
        }

        AdjustedScore[] cups = [.. scored.Cups.Select(cup => Adjusted(cup, cup.ValueOf(attribute)!.Value, drift.AYear, day))];
        var computation = new Computation($"{found.Computation.Model}; {drift.Anchor.Assumption.ToLowerInvariant()}", Estimator, cups.Length, scored.LeftOut);
        return new AdjustedScores(attribute, found.Scale, drift, day, cups, given?.Cautions ?? found.Cautions, computation, Support.Given, scores => Favourites(log, scores, seed));
    }

    /// <summary>Frozen doses at the loss that the user stated; lots roasted again where there are none. Never the narrower interval, which would be chosen by chance.</summary>
    public static AnchoredDrift Chosen(IReadOnlyList<AnchoredDrift> drifts, double lossAYear) =>
        drifts.FirstOrDefault(one => one.Anchor is DriftAnchor.FrozenDoses frozen && frozen.LossAYear == lossAYear) ?? drifts.First(one => one.Anchor is DriftAnchor.RoastedAgain);

    private static AdjustedScore Adjusted(Tasting cup, double written, DriftSlope drift, DateOnly day)
    {
        var years = (cup.TastedOn.DayNumber - day.DayNumber) / Covariate.DaysAYear;
        var (one, other) = (written - (years * drift.Low), written - (years * drift.High));
        return new AdjustedScore(cup, written, written - (years * drift.Estimate), Math.Min(one, other), Math.Max(one, other), years);
    }

    private static DateOnly Middle(IReadOnlyList<Tasting> cups) => cups.Count == 0
        ? DateOnly.MinValue
        : DateOnly.FromDayNumber((cups[0].TastedOn.DayNumber + cups[^1].TastedOn.DayNumber) / 2);

    /// <summary>
    /// The favourites at the drift estimated and at none. Estimates change in proportion to the drift but for the variances, so that the
    /// difference of the two tells how each leans on it, and the drift's error comes on top of its own.
    /// </summary>
    private static AdjustedFavourites Favourites(TastingLog log, AdjustedScores scores, ulong seed)
    {
        var drift = scores.Drift!;
        var written = log.Favourites(seed: seed);
        var adjusted = WithScores(log, scores.Cups).Favourites(written.StandardBrew, seed);
        if (!written.Support.IsSupported || !adjusted.Support.IsSupported)
            return new AdjustedFavourites([], drift, written.StandardBrew, scores.Scale, written.Cautions, written.Computation, written.Support.IsSupported ? adjusted.Support : written.Support);
        var before = written.Coffees.ToDictionary(coffee => coffee.Coffee.Id, StringComparer.Ordinal);
        var byYear = WithScores(log, [.. scores.Cups.Select(cup => cup with { Adjusted = cup.AsWritten - cup.Years })]).Favourites(written.StandardBrew, seed)
            .Coffees.ToDictionary(coffee => coffee.Coffee.Id, StringComparer.Ordinal);
        var reach = drift.AYear.High - drift.AYear.Estimate;
        var coffees = adjusted.Coffees.Select(coffee =>
        {
            var old = before[coffee.Coffee.Id];
            var years = old.Estimate - byYear[coffee.Coffee.Id].Estimate;
            double Reach(double own) => Math.Sqrt((own * own) + Math.Pow(years * reach, 2));
            return new AdjustedFavourite(
                coffee.Coffee, coffee.Rank, coffee.Estimate, coffee.Estimate - Reach(coffee.Estimate - coffee.Low), coffee.Estimate + Reach(coffee.High - coffee.Estimate), old.Rank, old.Estimate, years);
        }).ToArray();
        // That the scale may have moved is what these are adjusted for.
        Caution[] cautions = [.. scores.Cautions, .. adjusted.Cautions.Where(c => c.Name != "scale-drift" && scores.Cautions.All(other => other.Name != c.Name))];
        return new AdjustedFavourites(coffees, drift, written.StandardBrew, scores.Scale, cautions,
            written.Computation with { Estimator = $"{written.Computation.Estimator}; intervals hold the drift's own as well, its error shared by all coffees" }, Support.Given);
    }

    private static AdjustedFavourites Refused(AdjustedScores scores, TastingLog log, ulong seed) =>
        new([], null, log.Favourites(seed: seed).StandardBrew, scores.Scale, [], scores.Computation, scores.Support);

    private static TastingLog WithScores(TastingLog log, IReadOnlyList<AdjustedScore> cups)
    {
        var scores = cups.ToDictionary(cup => cup.Cup.Id, cup => cup.Adjusted, StringComparer.Ordinal);
        return new TastingLog(new LogContents
        {
            Name = log.Name,
            Bags = log.Bags,
            Tastings = [.. log.Tastings.Select(cup => scores.TryGetValue(cup.Id, out var score) ? cup with { Score = score } : cup)],
            Scales = log.StatedScales,
            Changes = log.Changes,
            Vocabulary = log.Vocabulary,
        }).WatchedBy(log.Watch);
    }
}
