namespace TastingKit;

/// <summary>
/// Says why a cup gains what it gains: which of bag, brewer and recipe sets it apart from the other candidates, by the mean gain of those that
/// share it, and how much the log has of that so far.
/// </summary>
internal sealed class BrewReasons
{
    private const double NoMatter = 1.15;
    private const string Coffee = "coffee";
    private const string Brewer = "brewer";
    private const string Recipe = "recipe";

    private readonly IReadOnlyList<Tasting> _cups;
    private readonly ILookup<string, Tasting> _cupsOf;
    private readonly AskedQuestion _asked;
    private readonly Dictionary<(string What, string? Level), double> _ratios = [];
    private readonly Dictionary<(string Factor, string Level), string> _brewedWith = [];

    public BrewReasons(IReadOnlyList<(BrewCandidate Candidate, double Gain)> gains, IReadOnlyList<Tasting> cups, AskedQuestion asked)
    {
        (_cups, _cupsOf, _asked) = (cups, cups.ToLookup(cup => cup.Bag.Coffee.Id), asked);
        var mean = gains.Average(each => each.Gain);
        foreach (var (what, levelOf) in new (string, Func<BrewCandidate, string?>)[] { (Coffee, each => each.Bag.Id), (Brewer, each => each.Brewer), (Recipe, each => each.RecipeFrom) })
        {
            foreach (var same in gains.GroupBy(each => levelOf(each.Candidate)))
                _ratios[(what, same.Key)] = mean > 0 ? same.Average(each => each.Gain) / mean : 0;
        }
    }

    public string Of(BrewCandidate candidate)
    {
        var (what, ratio) = new[] { (Coffee, candidate.Bag.Id), (Brewer, candidate.Brewer), (Recipe, candidate.RecipeFrom) }.Select(key => (key.Item1, _ratios[key])).MaxBy(each => each.Item2);
        if (!(ratio >= NoMatter))
            return $"neither its coffee, its brewer nor its recipe sets it much apart; {SoFar(candidate)}";
        var times = $"{NumberText.Fixed(ratio, 1)} times the average gain";
        return what switch
        {
            Coffee => $"the coffee counts most ({times}): {SoFar(candidate)}",
            Brewer => $"the brewer counts most ({times}): {BrewedWith(Factor.Brewer, candidate.Brewer)}",
            _ => $"the recipe counts most ({times}): {BrewedWith(Factor.RecipeFrom, candidate.RecipeFrom)}",
        };
    }

    private string SoFar(BrewCandidate candidate)
    {
        Tasting[] ofCoffee = [.. _cupsOf[candidate.Bag.Coffee.Id]];
        if (ofCoffee.Length == 0)
            return "no cup of the coffee so far";
        return _asked.Method is { } method
            ? $"{NumberText.Count(ofCoffee.Length, "cup")} of the coffee so far, {With(_asked.Levels.First)} with {_asked.Levels.First} and {With(_asked.Levels.Second)} with {_asked.Levels.Second}"
            : $"{NumberText.Count(ofCoffee.Length, "cup")} of the coffee so far";

        int With(string level) => ofCoffee.Count(cup => method.LevelOf(cup) == level);
    }

    private string BrewedWith(Factor factor, string? named)
    {
        var level = named ?? Factor.NotStated;
        if (_brewedWith.TryGetValue((factor.Name, level), out var said))
            return said;
        Tasting[] withIt = [.. _cups.Where(cup => factor.LevelOf(cup) == level)];
        var coffees = withIt.Select(cup => cup.Bag.Coffee.Id).Distinct().Count();
        return _brewedWith[(factor.Name, level)] = $"{level} has been brewed with {coffees} of {NumberText.Count(_cupsOf.Count, "coffee")}, {withIt.Length} of {NumberText.Count(_cups.Count, "cup")}";
    }
}
