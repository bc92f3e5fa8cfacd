using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Which coffee is the best, or how good one is, by the model of the favourites.</summary>
internal sealed class CoffeeInquiry
{
    private const int FewestRepeats = 5;
    private const int MostCups = 3000;
    private const int CupsThatTellVariances = 1500;
    private const int DrawsOfVariances = 500;
    private const int MostRivals = 100;
    private const int DrawsOfRivals = 2000;
    private const double LeastChance = 0.01;

    private static readonly DrawOptions OfVariances = new() { VarianceProposals = 100, PilotDraws = 50 };

    private readonly IReadOnlyList<Tasting> _cups;
    private readonly CoffeeModel _model;
    private readonly StandardBrew _brew;
    private readonly JointDraws? _heldAt;
    private readonly ulong _seed;

    private CoffeeInquiry(IReadOnlyList<Tasting> cups, CoffeeModel model, StandardBrew brew, JointDraws? heldAt, ulong seed) =>
        (_cups, _model, _brew, _heldAt, _seed) = (cups, model, brew, heldAt, seed);

    public static (BrewInquiry? Inquiry, Support Support) Of(TastingLog log, BrewQuestion.Best best, ulong seed, int? mostDraws) => Of(log, seed, mostDraws, inquiry => inquiry.Rivals(best));

    public static (BrewInquiry? Inquiry, Support Support) Of(TastingLog log, BrewQuestion.HowGood howGood, ulong seed) => Of(log, seed, null, inquiry => inquiry.One(howGood));

    private static (BrewInquiry? Inquiry, Support Support) Of(TastingLog log, ulong seed, int? mostDraws, Func<CoffeeInquiry, (AskedQuestion Asked, IReadOnlyList<FurtherFunction> Functions)> put)
    {
        var scored = ScoredCups.Of(log);
        // What was tasted years ago tells next to nothing of what to brew now, and takes minutes to fit.
        var older = Math.Max(0, scored.Cups.Count - MostCups);
        var cups = older == 0 ? scored.Cups : [.. scored.Cups.OrderBy(cup => cup.TastedAt).Skip(older)];
        IReadOnlyList<LeftOut> leftOut = older == 0 ? scored.LeftOut : [.. scored.LeftOut, new LeftOut("before the last 3,000 scored", older)];
        var coffees = Coffees(cups);
        if (scored.AreCuppings || cups.Count < 4 || coffees < 2 || cups.Select(cup => cup.Score).Distinct().Count() < 2)
        {
            return (null, Support.Missing(
                $"The log has {NumberText.Count(scored.AreCuppings ? 0 : cups.Count, "scored brewed cup")} of {NumberText.Count(scored.AreCuppings ? 0 : coffees, "coffee")}: too few to say what a further one would tell.",
                "Score several cups of at least two coffees."));
        }

        var scale = log.ScaleOf(TastingAttribute.Score);
        var (columns, model) = ScoreFit.LeavingChance(
            ScoreColumns.Of(cups), scale, with => CoffeeModel.Of(with, FavouritesAnalysis.KindFactors, FewestRepeats, log.Watch), fitted => fitted.Fit);
        if (model is null || !ScoreFit.LeavesChance(model.Fit, scale))
            return (null, ScoreFit.NoChanceLeft(cups.Count));
        if (!model.TellsCoffeesApart)
        {
            return (null, Support.Missing(
                $"{cups.Count} scored cups of {coffees} coffees leave {NumberText.Count(cups.Count - coffees, "repeat")}: what a further cup would tell rests on how far cups of one coffee scatter, which they don\u2019t show.",
                "Brew each coffee at least twice, on different days."));
        }

        // Two thousand cups leave little doubt of the variances, and each draw of them takes long.
        var heldAt = cups.Count > CupsThatTellVariances ? null : PredictionDraws.Joint(model.Fit, DrawsOfVariances, seed, log.Watch, OfVariances);
        var brew = columns.CommonBrew();
        var (asked, functions) = put(new CoffeeInquiry(cups, model, brew, heldAt, seed));
        return (new BrewInquiry(
            asked, cups, leftOut, columns, model.OfCup,
            (options, seedOfDraws) => BrewState.Of(FurtherObservations.Of(model.Fit, [.. functions, .. options], heldAt), asked.IsNaming ? functions.Count : 1, seedOfDraws, mostDraws),
            brew, model.InWords(), Estimator(asked, heldAt), [.. new[] { columns.SessionsLeftOut, OlderLeftOut(scored.Cups, cups) }.OfType<Caution>()]), Support.Given);
    }

    private static Caution? OlderLeftOut(IReadOnlyList<Tasting> all, IReadOnlyList<Tasting> used) => all.Count == used.Count
        ? null
        : new Caution("last-cups-only",
            $"Only the last {NumberText.Count(used.Count, "scored cup")} of {all.Count} are used, those since {NumberText.Day(used[0].TastedOn)}: {NumberText.Count(Coffees(all) - Coffees(used), "coffee")} tasted before only {(Coffees(all) - Coffees(used) == 1 ? "is" : "are")} not compared.");

    private static int Coffees(IReadOnlyList<Tasting> cups) => cups.Select(cup => cup.Bag.Coffee.Id).Distinct().Count();

    private (AskedQuestion Asked, IReadOnlyList<FurtherFunction> Functions) One(BrewQuestion.HowGood howGood)
    {
        var id = howGood.CoffeeId ?? _cups.MaxBy(cup => cup.TastedAt)!.Bag.Coffee.Id;
        var ofCoffee = AskedQuestion.CupsOf([id], _cups)[0];
        return (new AskedQuestion($"how good {ofCoffee[0].Bag.Coffee.Label} is", [id]), [_model.OfCoffee(_brew, ofCoffee)]);
    }

    private (AskedQuestion Asked, IReadOnlyList<FurtherFunction> Functions) Rivals(BrewQuestion.Best best)
    {
        if (best.CoffeeIds.Count == 1)
            throw new ArgumentException($"The best of one coffee is no question; found '{best.CoffeeIds[0]}' alone.", nameof(best));
        string[] ids = best.CoffeeIds.Count > 0 ? [.. best.CoffeeIds.Distinct()] : [.. _cups.Select(cup => cup.Bag.Coffee.Id).Distinct()];
        var coffees = AskedQuestion.CupsOf(ids, _cups);
        FurtherFunction[] functions = [.. coffees.Select(ofCoffee => _model.OfCoffee(_brew, ofCoffee))];
        if (best.CoffeeIds.Count == 0)
        {
            int[] highest = [.. Enumerable.Range(0, ids.Length).OrderByDescending(i => _model.Fit.Value(functions[i].Known)).Take(MostRivals)];
            var observations = FurtherObservations.Of(_model.Fit, [.. highest.Select(i => functions[i])], _heldAt);
            var chances = BestNaming.Of(observations, [.. Enumerable.Range(0, highest.Length)], DrawsOfRivals, _seed).ProbabilitiesOfBeingBest();
            int[] rivals = [.. Enumerable.Range(0, highest.Length).OrderByDescending(i => chances[i]).Where((i, place) => place < 2 || chances[i] >= LeastChance).Select(i => highest[i])];
            (ids, functions) = ([.. rivals.Select(i => ids[i])], [.. rivals.Select(i => functions[i])]);
        }

        return (new AskedQuestion(best.CoffeeIds.Count > 0 ? $"which of {ids.Length} coffees is the best" : $"which coffee is the best ({ids.Length} have a chance of 1 % or more)", ids, true), functions);
    }

    private static string Estimator(AskedQuestion asked, JointDraws? heldAt) =>
        "restricted maximum likelihood; the variances are held at "
        + (heldAt is null ? "their estimates" : "the middle of joint draws (importance sampling), none of which is nought")
        + $"; {BrewInquiry.OneMoreCup}"
        + (asked.IsNaming
            ? "; the probability that the coffee with the highest predicted score is truly the best is averaged over draws of the truth (4,000 to 20,000), the same for all candidates, exactly over the score still to come (upper envelope of Frazier, Powell and Dayanik 2009)"
            : "; half of a 95 % interval is 1.96 standard deviations")
        + "; a level not met so far (a new bag, a new sitting) enters with its own variance; the plan takes cup after cup the highest gain";
}
