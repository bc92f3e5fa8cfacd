using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="RestPeaks"/>.</summary>
internal static class RestPeaksAnalysis
{
    public const string AllCoffees = "all coffees";

    internal const int Draws = 2000;
    private const int FewestCups = 30;
    private const int FewestDays = 6;
    private const int FewestCupsOfAKind = 15;
    private const int FewestBagsOfAKind = 3;
    private const double Level = 0.95;

    internal const double NearShare = 0.25 / 8;
    private const double DriftShare = 0.5 / 8;
    private const string Estimator =
        "restricted maximum likelihood, the penalty being a variance like the others; all that is said comes from joint draws of the variances (importance sampling) "
        + "and of the curves (Gaussian given these), so that not knowing how smooth the curve is counts too. A curve is that of the kind's bags in the log, each counted once. "
        + "The days tasted are those of the middle 98 % of a kind's cups. A peak is named where its day lies above the first day tasted in 95 % of the draws or more, and above the last in as many; of several kinds each has its share of the remaining 5 %, so that hardly a year has a false one among them. "
        + "A rise or a fall is sure where it exceeds the largest standardised error of any such difference, over all days, both ends and all kinds shown, in 95 % of the draws. "
        + "The peak's interval is the middle 95 % of the draws' highest days";

    // The curves' weights hang on few variances, and a year has a dozen of them.
    internal static readonly DrawOptions FewVariances = new() { VarianceProposals = 150, PilotDraws = 75 };

    /// <summary>What a reader may fix before looking.</summary>
    internal sealed record Question(Factor? By, TastingAttribute Attribute, double Near, double Margin, double DriftPerYear)
    {
        public static Question Of(TastingLog log, Factor? by, TastingAttribute? attribute, double? near, double? margin, double? driftPerYear)
        {
            if (by is { IsOfCoffee: false })
                throw new ArgumentException($"Coffees are sorted by what belongs to the coffee or its bag (process, roast level); found {by.Name}.", nameof(by));
            var asked = attribute ?? TastingAttribute.Score;
            var scale = log.ScaleOf(asked);
            return new Question(
                by, asked, Positive(near ?? NearShare * (scale.Max - scale.Min), nameof(near)), MethodAnswers.Margin(margin, scale),
                Positive(driftPerYear ?? DriftShare * (scale.Max - scale.Min), nameof(driftPerYear)));
        }

        internal static double Positive(double value, string name) => value > 0 && double.IsFinite(value)
            ? value
            : throw new ArgumentOutOfRangeException(name, value, "It is a positive number of points.");
    }

    public static RestPeaks Of(TastingLog log, Question question, ulong seed, DrawOptions? varianceDraws = null)
    {
        var scored = ScoredCups.Of(log, question.Attribute).WithKnownRest();
        Tasting[] cups = [.. scored.Cups];
        var leftOut = scored.LeftOut;
        RestPeaks Unsupported(Support why) => new(
            question, [], [], new StandardBrew(null, null, null), log.ScaleOf(question.Attribute), [], new Computation("none", "none", cups.Length, leftOut), why);

        if (WhyNot(cups) is { } why)
            return Unsupported(why);
        if (RestModel.Of(scored, question.Attribute, question.By, log.Watch, out var used) is not { } model)
            return Unsupported(ScoreFit.NoChanceLeft(cups.Length));
        cups = [.. used.Cups];
        leftOut = used.LeftOut;
        var kinds = cups.GroupBy(c => question.By?.LevelOf(c) ?? AllCoffees).Where(g => g.Key != Factor.NotStated).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new Kind(g.Key, [.. g])).ToArray();
        var answered = kinds.Where(kind => kind.Cups.Length >= FewestCupsOfAKind && kind.Bags.Length >= FewestBagsOfAKind && kind.Last > kind.First + 1).ToArray();
        if (answered.Length == 0)
        {
            return Unsupported(Support.Missing(
                $"{NumberText.Count(cups.Length, "cup")} of {NumberText.Count(cups.Select(c => c.Bag.Id).Distinct().Count(), "bag")} have a known rest, but no {question.By?.Name ?? "log"} of them has {FewestCupsOfAKind} cups of {FewestBagsOfAKind} bags.",
                question.By is null ? WhatToLog : $"{WhatToLog} Write the {question.By.Name} of each."));
        }

        var parts = answered.Select(kind => model.PartsOf(question.By is null ? null : kind.Level, kind.Bags)).ToArray();
        var isLarge = cups.Length > PredictionDraws.LargeLog;
        var draws = PredictionDraws.Of(
            model.Fit, [.. parts.SelectMany(part => part)], Draws, seed, log.Watch, model.WithPrior(varianceDraws ?? (isLarge ? PredictionDraws.OfLargeLog : FewVariances)));
        var courses = answered.Select((kind, i) => new RestDraws(
            draws, i * parts[0].Count, [.. Enumerable.Range(kind.First, kind.Last - kind.First + 1).Select(model.WeightsAt)], kind.First)).ToArray();
        var reach = ReachOf(courses, draws.Count);
        return new RestPeaks(
            question,
            [.. answered.Select((kind, i) => Answer(kind, courses[i], reach, question))],
            [.. kinds.Except(answered).Select(kind => new UnansweredRest(kind.Level, kind.Cups.Length, kind.Bags.Length))],
            model.Brew, log.ScaleOf(question.Attribute), RestCautions.Of(log, cups, model, question.Attribute, seed),
            new Computation(model.Words, Estimator, cups.Length, leftOut, seed), Support.Given);
    }

    private const string WhatToLog = "Write the roast date of each bag, and brew each bag on several days from early to late rest.";

    private static Support? WhyNot(Tasting[] cups)
    {
        if (cups.Length == 0)
            return Support.Missing("No scored cup has a known rest, since no bag has a roast date: nothing can be said of rest.", WhatToLog);
        var days = cups.Select(c => c.RestDays).Distinct().Count();
        var repeats = cups.Length - cups.Select(c => c.Bag.Id).Distinct().Count();
        return cups.Length >= FewestCups && repeats >= FewestCups / 2 && days >= FewestDays
            ? null
            : Support.Missing(
                $"{NumberText.Count(cups.Length, "scored cup")} on {NumberText.Count(days, "day")} of rest, {repeats} of them repeats within a bag: too few to tell how coffees change as they rest.",
                WhatToLog);
    }

    /// <summary>
    /// What a rise and a fall must reach. One course is called rising falsely only where it does not rise, and falling where it does not fall, so that
    /// each may have the whole rate; of several courses some may rise and others fall, and both are held together. Where coffees reach a level and
    /// stay there, a peak of each kind is as good as drawn by lot, so that kinds share the rate.
    /// </summary>
    private static (double Rise, double Fall, double Peak) ReachOf(IReadOnlyList<RestDraws> courses, int count)
    {
        var rises = new double[count];
        var falls = courses.Count == 1 ? new double[count] : rises;
        foreach (var course in courses)
        {
            course.RaiseLargestRise(rises);
            course.RaiseLargestFall(falls);
        }

        return (QuantileOf(rises), QuantileOf(falls), 1 - ((1 - Level) / courses.Count));

        static double QuantileOf(double[] largest) => Quantiles.OfSorted([.. largest.Order()], Level);
    }

    private static RestGroup Answer(Kind kind, RestDraws course, (double Rise, double Fall, double Peak) reach, Question question)
    {
        var near = course.NearBest(question.Near);
        RestDay[] days = [.. Enumerable.Range(0, course.Width).Select(day =>
        {
            var (mean, low, high) = course.Middle(day);
            return new RestDay(course.FirstDay + day, mean, low, high, near[day]);
        })];
        var top = Enumerable.Range(0, days.Length).MaxBy(day => days[day].Estimate);
        int from = top, to = top;
        while (from > 0 && days[from - 1].Estimate >= days[top].Estimate - question.Near)
            from--;
        while (to < days.Length - 1 && days[to + 1].Estimate >= days[top].Estimate - question.Near)
            to++;
        RestOutcome At(double perYear) => course.Outcome(reach, question.Margin, perYear / Covariate.DaysAYear);
        return new RestGroup(
            kind.Level, At(0), days, days[from].RestDays, days[to].RestDays, course.PeakInside(),
            [new RestUnderDrift(-question.DriftPerYear, At(-question.DriftPerYear)), new RestUnderDrift(question.DriftPerYear, At(question.DriftPerYear))],
            [.. kind.Cups.GroupBy(c => c.RestDays!.Value).OrderBy(g => g.Key).Select(g => new RestCups(g.Key, g.Average(c => c.ValueOf(question.Attribute)!.Value), g.Count()))],
            kind.Bags.Length);
    }

    /// <summary>The cups of one kind, a cup of each of its bags, and the days tasted.</summary>
    private sealed record Kind(string Level, Tasting[] Cups)
    {
        private readonly int[] _days = [.. Cups.Select(c => c.RestDays!.Value).Order()];

        public Tasting[] Bags { get; } = [.. Cups.DistinctBy(c => c.Bag.Id)];

        public int First => _days[(int)Math.Ceiling(0.01 * (_days.Length - 1))];

        public int Last => _days[(int)(0.99 * (_days.Length - 1))];
    }
}
