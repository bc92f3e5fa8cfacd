using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="NextBrew"/>.</summary>
internal sealed class NextBrewAnalysis
{
    private const int FewestRepeats = 5;
    private const int MostCups = 3000;
    private const int CupsThatTellVariances = 1500;
    private const int MostPlannedFunctions = 480;
    private const int MostPlannedOfNaming = 200;
    private const int DrawsOfVariances = 500;

    private static readonly DrawOptions OfVariances = new() { VarianceProposals = 100, PilotDraws = 50 };

    private readonly TastingLog _log;
    private readonly ScoredCups _scored;
    private readonly IReadOnlyList<Tasting> _cups;
    private readonly IReadOnlyList<LeftOut> _leftOut;
    private readonly BrewQuestion _question;
    private readonly BrewCandidates _candidates;
    private readonly ulong _seed;

    private NextBrewAnalysis(TastingLog log, BrewQuestion question, BrewCandidates candidates, ulong seed)
    {
        (_log, _question, _candidates, _seed) = (log, question, candidates, seed);
        _scored = ScoredCups.Of(log);
        // What was tasted years ago tells next to nothing of what to brew now, and takes minutes to fit.
        var older = Math.Max(0, _scored.Cups.Count - MostCups);
        _cups = older == 0 ? _scored.Cups : [.. _scored.Cups.OrderBy(cup => cup.TastedAt).Skip(older)];
        _leftOut = older == 0 ? _scored.LeftOut : [.. _scored.LeftOut, new LeftOut("before the last 3,000 scored", older)];
    }

    public static NextBrew Of(TastingLog log, BrewQuestion question, BrewCandidates candidates, ulong seed)
    {
        candidates.Validate();
        return new NextBrewAnalysis(log, question, candidates, seed).Answer();
    }

    // As the method's effects are: what brews differ by, and not what coffees they were given.
    private bool IsWithinCoffees => _question is BrewQuestion.Better;

    private NextBrew Answer()
    {
        var cups = _cups;
        var coffees = cups.Select(cup => cup.Bag.Coffee.Id).Distinct().Count();
        if (_scored.AreCuppings || cups.Count < 4 || coffees < 2 || cups.Select(cup => cup.Score).Distinct().Count() < 2)
        {
            return Unsupported(Support.Missing(
                $"The log has {NumberText.Count(_scored.AreCuppings ? 0 : cups.Count, "scored brewed cup")} of {NumberText.Count(_scored.AreCuppings ? 0 : coffees, "coffee")}: too few to say what a further one would tell.",
                "Score several cups of at least two coffees."));
        }

        var (columns, model) = Fitted(ScoreColumns.Of(cups));
        if (model is null)
            return Unsupported(ScoreFit.NoChanceLeft(cups.Count));
        if (!model.TellsCoffeesApart)
        {
            return Unsupported(Support.Missing(
                $"{cups.Count} scored cups of {coffees} coffees leave {NumberText.Count(cups.Count - coffees, "repeat")}: what a further cup would tell rests on how far cups of one coffee scatter, which they don\u2019t show.",
                "Brew each coffee at least twice, on different days."));
        }

        // Two thousand cups leave little doubt of the variances, and each draw of them takes long.
        var heldAt = cups.Count > CupsThatTellVariances ? null : PredictionDraws.Joint(model.Fit, DrawsOfVariances, _seed, _log.Watch, OfVariances);
        var brew = columns.CommonBrew();
        var (asked, support) = AskedQuestion.Of(_question, model, brew, cups, heldAt, _seed);
        if (asked is null)
            return Unsupported(support);
        var shelf = new BrewShelf(_log, cups, _candidates, IsWithinCoffees);
        var slots = BrewSlot.Of(_log, shelf.LastCup, _candidates);
        var kitchen = new BrewKitchen(shelf, columns, _candidates);
        var first = kitchen.At(slots[0]);
        if (first.Count == 0)
            return Unsupported(NothingToBrew(shelf, slots[0].Day), kitchen.LeftOut(slots[0].Day));
        return Ranked(model, asked, heldAt, brew, kitchen, slots, first);
    }

    /// <summary>
    /// The model, without sittings where with them less is left to chance than the steps of the scale alone scatter by: the terms have then taken up
    /// the chance of single cups, and a further cup would seem to tell everything.
    /// </summary>
    private (ScoreColumns Columns, CoffeeModel? Model) Fitted(ScoreColumns columns)
    {
        var ofSteps = _log.ScaleOf(TastingAttribute.Score).Step / Math.Sqrt(12);
        var model = CoffeeModel.Of(columns, FavouritesAnalysis.KindFactors, FewestRepeats, _log.Watch, IsWithinCoffees);
        if (columns.Session is not null && !(model?.Fit.ResidualStandardDeviation >= ofSteps))
        {
            columns = columns.WithoutSessions();
            model = CoffeeModel.Of(columns, FavouritesAnalysis.KindFactors, FewestRepeats, _log.Watch, IsWithinCoffees);
        }

        return (columns, model?.Fit.ResidualStandardDeviation >= ofSteps ? model : null);
    }

    private NextBrew Ranked(
        CoffeeModel model, AskedQuestion asked, JointDraws? heldAt, StandardBrew brew, BrewKitchen kitchen, IReadOnlyList<BrewSlot> slots, IReadOnlyList<BrewOption> first)
    {
        var possible = Possible(model, first).ToArray();
        var state = BrewState.Of(model.Fit, asked, [.. possible.Select(each => each.Cup)], heldAt, _seed);
        var gains = possible.Select((each, i) => (each.Option, Gain: state.With(i))).OrderByDescending(each => each.Gain.Gain).ToArray();
        if (gains.Length == 0 || (!asked.IsNaming && !(gains[0].Gain.Gain > 1e-9)))
        {
            return Unsupported(
                Support.Missing(
                    $"By this log no cup that can be brewed tells anything of the question{(gains.Length == 0 ? $": of all {NumberText.Count(first.Count, "possible cup")} it can\u2019t tell the parts of the brew apart" : "")}.",
                    "Ask another question, or give other bags and brewers."), kitchen.LeftOut(slots[0].Day));
        }

        var reasons = new BrewReasons([.. gains.Select(each => (each.Option.Candidate, each.Gain.Gain))], _cups, asked);
        var cupsSoFar = _cups.CountBy(cup => cup.Bag.Coffee.Id).ToDictionary();
        var plan = Planned(model, asked, heldAt, kitchen, slots, [.. gains.Select(each => each.Option)], state.Stand);
        return new NextBrew(
            _question, asked.Words, [.. asked.CoffeeIds.Select(id => _cups.First(cup => cup.Bag.Coffee.Id == id).Bag.Coffee)], state.Leader, brew, state.Stand,
            [.. gains.Select(each => new BrewGain(each.Option.Candidate, each.Gain.Gain, each.Gain.After, cupsSoFar.GetValueOrDefault(each.Option.Candidate.Bag.Coffee.Id), reasons.Of(each.Option.Candidate)))],
            plan, kitchen.LeftOut(slots[0].Day), _log.ScaleOf(TastingAttribute.Score), kitchen.Cautions([.. first.Select(option => option.Candidate)]),
            new Computation(model.InWords(), Estimator(asked, heldAt), _cups.Count, _leftOut, _seed), Support.Given)
        {
            Untold = first.Count - gains.Length,
        };
    }

    private static IEnumerable<(BrewOption Option, FurtherFunction Cup)> Possible(CoffeeModel model, IEnumerable<BrewOption> options)
    {
        foreach (var option in options)
        {
            if (model.OfCup(option.Planned) is { } cup)
                yield return (option, cup);
        }
    }

    /// <summary>Cup after cup the one with the highest gain, each chosen as if those before it had been brewed, within grams and cups a day.</summary>
    private IReadOnlyList<PlannedBrew> Planned(
        CoffeeModel model, AskedQuestion asked, JointDraws? heldAt, BrewKitchen kitchen, IReadOnlyList<BrewSlot> slots, IReadOnlyList<BrewOption> ranked, BrewStand now)
    {
        var kept = ranked.Take(Math.Max(1, (asked.IsNaming ? MostPlannedOfNaming : MostPlannedFunctions) / slots.Count)).Select(option => option.Key).ToHashSet();
        var options = slots.SelectMany((slot, s) => Possible(model, kitchen.At(slot).Where(option => kept.Contains(option.Key))).Select(each => (Slot: s, each.Option, each.Cup))).ToArray();
        var state = BrewState.Of(model.Fit, asked, [.. options.Select(each => each.Cup)], heldAt, _seed);
        var taken = new Dictionary<string, int>();
        var plan = new List<(BrewCandidate Candidate, FurtherFunction Cup)>();
        for (var s = 0; s < slots.Count; s++)
        {
            var open = Enumerable.Range(0, options.Length).Where(i => options[i].Slot == s && kitchen.HasLeft(options[i].Option.Candidate, taken)).ToArray();
            // The first is the one that was ranked first, where nearly equal cups change places by the draws.
            if (s == 0)
                open = [.. open.Where(i => options[i].Option.Key == ranked[0].Key)];
            if (open.Length == 0)
                continue;
            var best = open.MaxBy(i => state.With(i).Gain);
            var candidate = options[best].Option.Candidate;
            plan.Add((candidate with { GramsLeft = kitchen.Left(candidate, taken) }, options[best].Cup));
            taken[candidate.Bag.Id] = taken.GetValueOrDefault(candidate.Bag.Id) + 1;
            state = state.Planned(best);
        }

        return Stands(model, asked, heldAt, plan, now);
    }

    /// <summary>Where the plan's cups bring the answer, by draws of their own: those that chose the cups would flatter them.</summary>
    private IReadOnlyList<PlannedBrew> Stands(CoffeeModel model, AskedQuestion asked, JointDraws? heldAt, IReadOnlyList<(BrewCandidate Candidate, FurtherFunction Cup)> plan, BrewStand now)
    {
        var state = BrewState.Of(model.Fit, asked, [.. plan.Select(each => each.Cup)], heldAt, _seed + 1);
        var apart = now.Value - state.Stand.Value;
        var steps = new List<PlannedBrew>();
        for (var i = 0; i < plan.Count; i++)
        {
            var after = state.With(i).After;
            steps.Add(new PlannedBrew(plan[i].Candidate, after with { Value = after.Value + apart }));
            state = state.Planned(i);
        }

        return steps;
    }

    private static string Estimator(AskedQuestion asked, JointDraws? heldAt) =>
        "restricted maximum likelihood; the variances are held at "
        + (heldAt is null ? "their estimates" : "the middle of joint draws (importance sampling), none of which is nought")
        + "; with c what is asked, x the cup and V the covariance of what is not known of fixed and random effects, one more cup takes (c\u2032Vx)\u00b2 / (\u03c3\u00b2 + x\u2032Vx) from the variance of the answer, whatever it will taste of"
        + (asked.IsNaming
            ? "; the probability that the coffee with the highest predicted score is truly the best is averaged over draws of the truth (4,000 to 20,000), the same for all candidates, exactly over the score still to come (upper envelope of Frazier, Powell and Dayanik 2009)"
            : "; half of a 95 % interval is 1.96 standard deviations")
        + "; a level not met so far (a new bag, a new sitting) enters with its own variance; the plan takes cup after cup the highest gain";

    private static Support NothingToBrew(BrewShelf shelf, DateOnly day)
    {
        var reasons = BrewKitchen.Said(shelf.Bags.Select(stock => shelf.ReasonAgainst(stock, day)).OfType<string>());
        return Support.Missing(
            $"No bag can be brewed from on {BrewSlot.Said(day)}: {(reasons.Length > 0 ? reasons : "the log has none")}.",
            "Write the net weight of each bag and the dose of each cup, or give the grams left (GramsLeft) and the day (From).");
    }

    private NextBrew Unsupported(Support why, IReadOnlyList<BagsLeftOut>? leftOut = null) => new(
        _question, "", [], null, new StandardBrew(null, null, null), new BrewStand(0, false), [], [], leftOut ?? [], _log.ScaleOf(TastingAttribute.Score), [],
        new Computation("none", "none", _cups.Count, _leftOut), why);
}
