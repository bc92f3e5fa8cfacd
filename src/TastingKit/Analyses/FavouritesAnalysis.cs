using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="Favourites"/> and <see cref="FavouriteGroups"/> from one mixed model.</summary>
internal sealed class FavouritesAnalysis
{
    public const int Draws = 4000;
    private const int FewestRepeats = 5;
    private const int FewCups = 3;

    public static readonly Factor[] KindFactors =
        [Factor.Country, Factor.Process, Factor.Fermentation, Factor.Roaster, Factor.Producer];

    private readonly TastingLog _log;
    private readonly ScoredCups _scored;
    private readonly ScoreColumns _columns;
    private readonly Scale _scale;
    private readonly StandardBrew _brew;
    private readonly ulong _seed;
    private readonly DrawOptions? _draws;
    private readonly CoffeeModel _model;
    private readonly IReadOnlyList<IGrouping<string, Tasting>> _coffees;
    private readonly Lazy<PredictionDraws> _shelf;

    private FavouritesAnalysis(
        TastingLog log, ScoredCups scored, ScoreColumns columns, CoffeeModel model, StandardBrew? brew, ulong seed, DrawOptions? draws)
    {
        _log = log;
        _scored = scored;
        _columns = columns;
        _scale = log.ScaleOf(TastingAttribute.Score);
        _brew = brew ?? _columns.CommonBrew();
        _seed = seed;
        _draws = draws;
        _model = model;
        _coffees = [.. scored.Cups.GroupBy(c => c.Bag.Coffee.Id)];
        // Drawing that was broken off is drawn when next asked for.
        _shelf = new Lazy<PredictionDraws>(DrawShelf, LazyThreadSafetyMode.PublicationOnly);
    }

    /// <summary>The favourites.</summary>
    /// <param name="log">The log.</param>
    /// <param name="brew">The brew; the log's most common one where not given.</param>
    /// <param name="seed">Seed of the draws.</param>
    /// <param name="draws">How variances are drawn; fewer of them where thousands of logs are gone through.</param>
    public static Favourites Of(TastingLog log, StandardBrew? brew, ulong seed, DrawOptions? draws = null)
    {
        var scored = ScoredCups.Of(log);
        var scale = log.ScaleOf(TastingAttribute.Score);
        var coffees = scored.Cups.Select(c => c.Bag.Coffee.Id).Distinct().Count();
        if (scored.Cups.Count < 4 || coffees < 2 || scored.Cups.Select(c => c.Score).Distinct().Count() < 2)
        {
            return Unsupported(Support.Missing(
                $"The log has {NumberText.Count(scored.Cups.Count, "scored cup")} of {NumberText.Count(coffees, "coffee")}: too few to name a favourite.",
                "Score several cups of at least two coffees."));
        }

        var columns = ScoreColumns.Of(scored.Cups);
        return CoffeeModel.Of(columns, KindFactors, FewestRepeats, log.Watch) is { } model
            ? new FavouritesAnalysis(log, scored, columns, model, brew, seed, draws).Coffees()
            : Unsupported(ScoreFit.NoChanceLeft(scored.Cups.Count));

        Favourites Unsupported(Support why)
        {
            var nothing = new Computation("none", "none", scored.Cups.Count, scored.LeftOut);
            var noBrew = new StandardBrew(null, null, null);
            return new Favourites([], 0, noBrew, scale, [], nothing, why, factor => new FavouriteGroups(factor, [], noBrew, scale, [], nothing, why));
        }
    }

    private Favourites Coffees()
    {
        var cups = _scored.Cups;
        var byCoffee = _coffees;
        var model = _model;
        if (!model.TellsCoffeesApart)
        {
            var support = Support.Missing(
                $"Single coffees can't be ranked: {cups.Count} scored cups of {byCoffee.Count} coffees leave {NumberText.Count(cups.Count - byCoffee.Count, "repeat")}, so a good coffee can't be told from a lucky cup.",
                "Brew each coffee at least twice, on different days.");
            return new Favourites([], 0, _brew, _scale, Cautions(model), model.Computation(_scored, _seed), support, By);
        }

        var draws = _shelf.Value.Slice(0, byCoffee.Count);
        var top = byCoffee.Count >= 30 ? 10 : Math.Max(1, byCoffee.Count / 3);
        var ranks = Ranks.Of(draws.Values, [.. byCoffee.Select(g => g.Key)]).Summaries(top);
        var rows = byCoffee.Select((g, i) =>
            {
                var (mean, low, high) = draws.Middle(i);
                return new Favourite(
                    g.First().Bag.Coffee, 0, mean, low, high, ranks[i].RankLow, ranks[i].RankHigh, ranks[i].ProbabilityTop, ranks[i].ProbabilityBest,
                    g.Average(c => c.Score!.Value), g.Count(), g.Select(c => c.Bag.Id).Distinct().Count());
            })
            .OrderByDescending(f => f.Estimate).ThenBy(f => f.Coffee.Id, StringComparer.Ordinal)
            .Select((f, i) => f with { Rank = i + 1 }).ToArray();
        return new Favourites(rows, top, _brew, _scale, Cautions(model), model.Computation(_scored, _seed), Support.Given, By);
    }

    private FavouriteGroups By(Factor factor)
    {
        var cups = _scored.Cups;
        var byLevel = LevelsOf(factor);
        if (byLevel.Count(g => g.Key != Factor.NotStated) < 2)
        {
            return new FavouriteGroups(factor, [], _brew, _scale, [], new Computation("none", "none", cups.Count, _scored.LeftOut), Support.Missing(
                $"The scored cups name {(byLevel.Length == 1 && byLevel[0].Key != Factor.NotStated ? "only one" : "no")} {factor.Name}, so there is nothing to compare.",
                $"Fill the {factor.Name} of each coffee."));
        }

        var model = KindFactors.Contains(factor) ? _model : CoffeeModel.Of(_columns, [.. KindFactors, factor], FewestRepeats, _log.Watch);
        if (model is null)
        {
            return new FavouriteGroups(
                factor, [], _brew, _scale, [], new Computation("none", "none", cups.Count, _scored.LeftOut), ScoreFit.NoChanceLeft(cups.Count));
        }

        if (!model.Has(factor))
        {
            return new FavouriteGroups(factor, [], _brew, _scale, Cautions(model), model.Computation(_scored, _seed), Support.Missing(
                $"Nearly every coffee has a {factor.Name} of its own ({byLevel.Length} for {cups.Select(c => c.Bag.Coffee.Id).Distinct().Count()} coffees), so the {factor.Name} can't be told from the coffee.",
                $"Taste several coffees of the same {factor.Name}."));
        }

        var draws = model == _model
            ? _shelf.Value.Slice(FirstOfKind(factor), byLevel.Length)
            : PredictionDraws.Of(model.Fit, [.. byLevel.Select(g => model.OfKind(_brew, factor, g.Key))], Draws, _seed, _log.Watch, _draws);
        var ranks = Ranks.Of(draws.Values, [.. byLevel.Select(g => g.Key)]).Summaries(1);
        var rows = byLevel.Select((g, i) =>
            {
                var (mean, low, high) = draws.Middle(i);
                return new FavouriteGroup(
                    g.Key, 0, mean, low, high, ranks[i].ProbabilityBest, g.Average(c => c.Score!.Value), g.Count(),
                    g.Select(c => c.Bag.Coffee.Id).Distinct().Count());
            })
            .OrderByDescending(g => g.Estimate).ThenBy(g => g.Level, StringComparer.Ordinal)
            .Select((g, i) => g with { Rank = i + 1 }).ToArray();
        return new FavouriteGroups(factor, rows, _brew, _scale, Cautions(model), model.Computation(_scored, _seed), Support.Given);
    }

    private IGrouping<string, Tasting>[] LevelsOf(Factor factor) => [.. _scored.Cups.GroupBy(factor.LevelOf)];

    /// <summary>
    /// Coffees first, if the log tells them apart, then the levels of each kind in the model: drawn together, since a draw costs far
    /// more than a further prediction from it, and so that what is said of coffees and of kinds rests on the same draws.
    /// </summary>
    private PredictionDraws DrawShelf()
    {
        var coffees = _model.TellsCoffeesApart ? _coffees.Select(g => _model.OfCoffee(_brew, [.. g])) : [];
        var kinds = KindFactors.Where(_model.Has).SelectMany(factor => LevelsOf(factor).Select(g => _model.OfKind(_brew, factor, g.Key)));
        return PredictionDraws.Of(_model.Fit, [.. coffees, .. kinds], Draws, _seed, _log.Watch, _draws);
    }

    private int FirstOfKind(Factor factor) =>
        (_model.TellsCoffeesApart ? _coffees.Count : 0)
        + KindFactors.TakeWhile(other => other != factor).Where(_model.Has).Sum(other => LevelsOf(other).Length);

    private List<Caution> Cautions(CoffeeModel model)
    {
        var cautions = new List<Caution>();
        if (_scored.AreCuppings)
            cautions.Add(new Caution("cuppings-only", "All scored cups are cupping bowls: the order says nothing of brewed cups."));
        var thin = _scored.Cups.GroupBy(c => c.Bag.Coffee.Id).Count(g => g.Count() < FewCups);
        if (thin > 0 && model.TellsCoffeesApart)
        {
            cautions.Add(new Caution("few-cups",
                $"{NumberText.Count(thin, "coffee has", "coffees have")} fewer than {FewCups} scored cups: {(thin == 1 ? "its prediction leans" : "their predictions lean")} on other coffees of the same kind."));
        }

        if (_columns.RestStated is not null)
        {
            cautions.Add(new Caution("rest-unknown",
                $"{NumberText.Count(_scored.Cups.Count(c => c.RestDays is null), "cup has", "cups have")} no known rest; they count as brewed at the standard rest, with a level of their own."));
        }

        if (_scored.Cups.Any(c => c.RestDays is not null) || ScoreCautions.SpanMonths(_scored.Cups))
        {
            cautions.Add(new Caution("scale-drift",
                "Scores are taken as written: if the scale moved over the year, coffees tasted late gain or lose by it, and these intervals do not hold that."));
        }

        cautions.AddRange(new[]
        {
            ScoreCautions.EquipmentChanged(_log, _scored.Cups),
            ScoreCautions.Ceiling(_scored.Cups, _scale),
            model.TellsCoffeesApart ? ScoreCautions.HangTogether(model.Fit, _scored.Cups, _seed) : null,
        }.OfType<Caution>());
        return cautions;
    }
}
