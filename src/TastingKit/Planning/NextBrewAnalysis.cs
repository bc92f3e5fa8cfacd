using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="NextBrew"/>.</summary>
internal sealed class NextBrewAnalysis
{
    private const int MostPlannedFunctions = 480;
    private const int MostPlannedOfNaming = 200;

    private readonly TastingLog _log;
    private readonly BrewQuestion _question;
    private readonly BrewInquiry _inquiry;
    private readonly BrewKitchen _kitchen;
    private readonly IReadOnlyList<BrewSlot> _slots;
    private readonly IReadOnlyList<BrewOption> _first;
    private readonly ulong _seed;

    private NextBrewAnalysis(TastingLog log, BrewQuestion question, BrewInquiry inquiry, BrewKitchen kitchen, IReadOnlyList<BrewSlot> slots, IReadOnlyList<BrewOption> first, ulong seed) =>
        (_log, _question, _inquiry, _kitchen, _slots, _first, _seed) = (log, question, inquiry, kitchen, slots, first, seed);

    /// <summary>What to brew next.</summary>
    /// <param name="log">The log.</param>
    /// <param name="question">The question.</param>
    /// <param name="candidates">What may be brewed.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="mostDraws">The most draws of the truth by which the naming of the best is judged; fewer of them where thousands of logs are gone through.</param>
    public static NextBrew Of(TastingLog log, BrewQuestion question, BrewCandidates candidates, ulong seed, int? mostDraws = null)
    {
        candidates.Validate();
        var (inquiry, support) = BrewInquiry.Of(log, question, seed, mostDraws);
        if (inquiry is null)
        {
            var scored = ScoredCups.Of(log);
            return Unsupported(log, question, support, new Computation("none", "none", scored.Cups.Count, scored.LeftOut));
        }

        var shelf = new BrewShelf(log, inquiry.Cups, candidates, inquiry.Asked.Method is not null);
        var slots = BrewSlot.Of(log, shelf.LastCup, candidates);
        var kitchen = new BrewKitchen(shelf, inquiry.Columns, candidates);
        var first = kitchen.At(slots[0]);
        return first.Count == 0
            ? Unsupported(log, question, NothingToBrew(shelf, slots[0].Day), new Computation("none", "none", inquiry.Cups.Count, inquiry.LeftOut), kitchen.LeftOut(slots[0].Day))
            : new NextBrewAnalysis(log, question, inquiry, kitchen, slots, first, seed).Ranked();
    }

    private NextBrew Ranked()
    {
        var asked = _inquiry.Asked;
        var possible = _inquiry.Possible(_first).ToArray();
        var state = _inquiry.StateOf([.. possible.Select(each => each.Cup)], _seed);
        var gains = possible.Select((each, i) => (each.Option, Gain: state.With(i))).OrderByDescending(each => each.Gain.Gain).ToArray();
        if (gains.Length == 0 || (!asked.IsNaming && !(gains[0].Gain.Gain > 1e-9)))
        {
            return Unsupported(
                _log, _question,
                Support.Missing(
                    $"By this log no cup that can be brewed tells anything of the question{(gains.Length == 0 ? $": of all {NumberText.Count(_first.Count, "possible cup")} it can\u2019t tell the parts of the brew apart" : "")}.",
                    "Ask another question, or give other bags and brewers."),
                new Computation("none", "none", _inquiry.Cups.Count, _inquiry.LeftOut), _kitchen.LeftOut(_slots[0].Day));
        }

        var cups = _inquiry.Cups;
        var reasons = new BrewReasons([.. gains.Select(each => (each.Option.Candidate, each.Gain.Gain))], cups, asked);
        var cupsSoFar = cups.CountBy(cup => cup.Bag.Coffee.Id).ToDictionary();
        var coffees = cups.DistinctBy(cup => cup.Bag.Coffee.Id).ToDictionary(cup => cup.Bag.Coffee.Id, cup => cup.Bag.Coffee);
        return new NextBrew(
            _question, asked.Words, [.. asked.CoffeeIds.Select(id => coffees[id])], state.Leader, _inquiry.StandardBrew, state.Stand,
            [.. gains.Select(each => new BrewGain(each.Option.Candidate, each.Gain.Gain, each.Gain.After, cupsSoFar.GetValueOrDefault(each.Option.Candidate.Bag.Coffee.Id), reasons.Of(each.Option.Candidate)))],
            Planned([.. gains.Select(each => each.Option)], state.Stand), _kitchen.LeftOut(_slots[0].Day), _log.ScaleOf(TastingAttribute.Score),
            [.. _kitchen.Cautions([.. _first.Select(option => option.Candidate)]), .. _inquiry.Cautions],
            new Computation(_inquiry.Model, _inquiry.Estimator, cups.Count, _inquiry.LeftOut, _seed), Support.Given)
        {
            Untold = _first.Count - gains.Length,
        };
    }

    /// <summary>Cup after cup the one with the highest gain, each chosen as if those before it had been brewed, within grams and cups a day.</summary>
    private IReadOnlyList<PlannedBrew> Planned(IReadOnlyList<BrewOption> ranked, BrewStand now)
    {
        var kept = ranked.Take(Math.Max(1, (_inquiry.Asked.IsNaming ? MostPlannedOfNaming : MostPlannedFunctions) / _slots.Count)).Select(option => option.Key).ToHashSet();
        var options = _slots.SelectMany((slot, s) => _inquiry.Possible(_kitchen.At(slot).Where(option => kept.Contains(option.Key))).Select(each => (Slot: s, each.Option, each.Cup))).ToArray();
        var state = _inquiry.StateOf([.. options.Select(each => each.Cup)], _seed);
        var taken = new Dictionary<string, int>();
        var plan = new List<(BrewCandidate Candidate, FurtherFunction Cup)>();
        for (var s = 0; s < _slots.Count; s++)
        {
            var open = Enumerable.Range(0, options.Length).Where(i => options[i].Slot == s && _kitchen.HasLeft(options[i].Option.Candidate, taken)).ToArray();
            // The first is the one that was ranked first, where nearly equal cups change places by the draws.
            if (s == 0)
                open = [.. open.Where(i => options[i].Option.Key == ranked[0].Key)];
            if (open.Length == 0)
                continue;
            var best = open.MaxBy(i => state.With(i).Gain);
            var candidate = options[best].Option.Candidate;
            plan.Add((candidate with { GramsLeft = _kitchen.Left(candidate, taken) }, options[best].Cup));
            taken[candidate.Bag.Id] = taken.GetValueOrDefault(candidate.Bag.Id) + 1;
            state = state.Planned(best);
        }

        return Stands(plan, now);
    }

    /// <summary>Where the plan's cups bring the answer, by draws of their own: those that chose the cups would flatter them.</summary>
    private IReadOnlyList<PlannedBrew> Stands(IReadOnlyList<(BrewCandidate Candidate, FurtherFunction Cup)> plan, BrewStand now)
    {
        var state = _inquiry.StateOf([.. plan.Select(each => each.Cup)], _seed + 1);
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

    private static Support NothingToBrew(BrewShelf shelf, DateOnly day)
    {
        var reasons = BrewKitchen.Said(shelf.Bags.Select(stock => shelf.ReasonAgainst(stock, day)).OfType<string>());
        return Support.Missing(
            $"No bag can be brewed from on {BrewSlot.Said(day)}: {(reasons.Length > 0 ? reasons : "the log has none")}.",
            "Write the net weight of each bag and the dose of each cup, or give the grams left (GramsLeft) and the day (From).");
    }

    private static NextBrew Unsupported(TastingLog log, BrewQuestion question, Support why, Computation computation, IReadOnlyList<BagsLeftOut>? leftOut = null) => new(
        question, "", [], null, new StandardBrew(null, null, null), new BrewStand(0, false), [], [], leftOut ?? [], log.ScaleOf(TastingAttribute.Score), [], computation, why);
}
