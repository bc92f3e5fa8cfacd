namespace TastingKit;

/// <summary>A cup that could be brewed, with what the model needs of it.</summary>
/// <param name="Candidate">The cup.</param>
/// <param name="Planned">The same as a cup of the log, without a score.</param>
internal sealed record BrewOption(BrewCandidate Candidate, Tasting Planned)
{
    /// <summary>Bag, brewer and recipe, whatever the day.</summary>
    public (string Bag, string? Brewer, string? RecipeFrom) Key => (Candidate.Bag.Id, Candidate.Brewer, Candidate.RecipeFrom);
}

/// <summary>Every bag on every brewer by every recipe that may be chosen.</summary>
internal sealed class BrewKitchen
{
    private readonly BrewShelf _shelf;
    private readonly ScoreColumns _columns;
    private readonly BrewCandidates _candidates;
    private readonly string?[] _brewers;
    private readonly string?[] _recipes;
    private readonly string? _taster;
    private readonly ILookup<string?, Tasting> _lastFirst;

    public BrewKitchen(BrewShelf shelf, ScoreColumns columns, BrewCandidates candidates)
    {
        (_shelf, _columns, _candidates) = (shelf, columns, candidates);
        _brewers = Levels(Factor.Brewer, candidates.Brewers);
        _recipes = Levels(Factor.RecipeFrom, candidates.RecipesFrom);
        _taster = ScoreColumns.MostCommon(Factor.Taster, columns.Cups);
        _lastFirst = columns.Cups.OrderByDescending(cup => cup.TastedAt).ToLookup(cup => cup.Brewer);
    }

    public IReadOnlyList<BrewOption> At(BrewSlot slot) =>
    [
        .. from stock in _shelf.Bags
           where _shelf.ReasonAgainst(stock, slot.Day) is null
           from brewer in _brewers
           from recipe in _recipes
           let planned = stock.Cup(slot.Day, brewer, recipe, slot.Position, slot.Session, _taster, LastLike(brewer, recipe))
           select new BrewOption(new BrewCandidate(stock.Bag, brewer, recipe, slot.Day, slot.Position, planned.RestDays, stock.GramsLeft!.Value, stock.IsSealed), planned),
    ];

    /// <summary>The last cup of a brewer, by the same recipe where there is one.</summary>
    private Tasting? LastLike(string? brewer, string? recipe) => _lastFirst[brewer].FirstOrDefault(cup => cup.RecipeFrom == recipe) ?? _lastFirst[brewer].FirstOrDefault();

    /// <summary>Grams left of a bag once some cups of it are planned.</summary>
    public double Left(BrewCandidate candidate, Dictionary<string, int> taken) =>
        candidate.GramsLeft - (taken.GetValueOrDefault(candidate.Bag.Id) * Grams);

    public bool HasLeft(BrewCandidate candidate, Dictionary<string, int> taken) => Left(candidate, taken) >= Grams - 1e-9;

    public IReadOnlyList<BagsLeftOut> LeftOut(DateOnly day) =>
    [
        .. _shelf.Bags.Select(stock => _shelf.ReasonAgainst(stock, day)).OfType<string>().GroupBy(reason => reason)
            .OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => new BagsLeftOut(g.Key, g.Count())),
    ];

    /// <summary>Reasons with their counts, in a few words.</summary>
    public static string Said(IEnumerable<string> reasons) => string.Join("; ", reasons.GroupBy(reason => reason)
        .OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => $"{NumberText.Count(g.Count(), "bag")} {g.Key}"));

    public IReadOnlyList<Caution> Cautions(IReadOnlyList<BrewCandidate> candidates)
    {
        var bags = candidates.Select(candidate => candidate.Bag.Id).ToHashSet();
        var stocks = _shelf.Bags.Where(stock => bags.Contains(stock.Bag.Id)).ToArray();
        var cautions = new List<Caution>
        {
            new("caffeine", $"The plan keeps to {NumberText.Fixed(_candidates.CupsADay, _candidates.CupsADay % 1 == 0 ? 0 : 1)} cups a day because that is what was asked; how much caffeine is good for you, and how late, is for medical advice to say."),
        };
        var guessed = stocks.Sum(stock => stock.DosesGuessed);
        if (stocks.Any(stock => !_candidates.GramsLeft.ContainsKey(stock.Bag.Id)))
        {
            cautions.Add(new Caution("grams-by-the-log",
                "Grams left are the net weight less the doses logged: coffee that was brewed without being logged is not taken off."
                + (guessed == 0 ? "" : $" {NumberText.Count(guessed, "cup")} without a dose {(guessed == 1 ? "counts" : "count")} {NumberText.Fixed(_shelf.Dose!.Value, 1)} g, the middle one.")));
        }

        if (stocks.Count(stock => stock.FrozenOn is not null) is > 0 and var frozen)
            cautions.Add(new Caution("frozen-by-the-last-cup", $"{NumberText.Count(frozen, "bag counts", "bags count")} as frozen since the day that {(frozen == 1 ? "its" : "their")} last cup has in frozen_on, and thawed on the day of brewing."));
        if (candidates.Any(candidate => candidate.RestDays is { } rest && rest > LongestTasted))
            cautions.Add(new Caution("rest-beyond-tasted", $"Some bags have rested longer than any cup tasted ({LongestTasted} days): what rest does there is only carried on from the days tasted."));
        return cautions;
    }

    private double Grams => _shelf.Dose is { } dose ? _candidates.GramsOf(dose) : 0;

    private int? LongestTasted => _columns.Cups.Max(cup => cup.RestDays);

    private string?[] Levels(Factor factor, IReadOnlyList<string> named)
    {
        string[] known = [.. _columns.Cups.Select(factor.LevelOf).Where(level => level != Factor.NotStated).Distinct().Order(StringComparer.Ordinal)];
        BrewShelf.Unknown(factor.Name, named, known);
        return named.Count > 0 ? [.. named.Distinct()] : known.Length > 0 ? known : new string?[] { null };
    }
}
