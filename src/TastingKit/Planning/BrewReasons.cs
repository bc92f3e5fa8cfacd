namespace TastingKit;

/// <summary>
/// Says why a cup gains what it gains: which of bag, brewer and recipe sets it apart from the other candidates, by the mean gain of those that
/// share it, and how much the log has of that so far.
/// </summary>
internal sealed class BrewReasons
{
    private const double NoMatter = 1.15;

    private readonly IReadOnlyList<(BrewCandidate Candidate, double Gain)> _gains;
    private readonly IReadOnlyList<Tasting> _cups;
    private readonly AskedQuestion _asked;
    private readonly double _mean;

    public BrewReasons(IReadOnlyList<(BrewCandidate Candidate, double Gain)> gains, IReadOnlyList<Tasting> cups, AskedQuestion asked)
    {
        (_gains, _cups, _asked) = (gains, cups, asked);
        _mean = gains.Average(each => each.Gain);
    }

    public string Of(BrewCandidate candidate)
    {
        var (what, ratio) = new[]
        {
            ("coffee", Ratio(other => other.Bag.Id == candidate.Bag.Id)),
            ("brewer", Ratio(other => other.Brewer == candidate.Brewer)),
            ("recipe", Ratio(other => other.RecipeFrom == candidate.RecipeFrom)),
        }.MaxBy(each => each.Item2);
        if (!(ratio >= NoMatter))
            return $"neither its coffee, its brewer nor its recipe sets it much apart; {SoFar(candidate)}";
        var times = $"{NumberText.Fixed(ratio, 1)} times the average gain";
        return what switch
        {
            "coffee" => $"the coffee counts most ({times}): {SoFar(candidate)}",
            "brewer" => $"the brewer counts most ({times}): {BrewedWith(Factor.Brewer, candidate.Brewer)}",
            _ => $"the recipe counts most ({times}): {BrewedWith(Factor.RecipeFrom, candidate.RecipeFrom)}",
        };
    }

    private double Ratio(Func<BrewCandidate, bool> shares) => _mean > 0 ? _gains.Where(each => shares(each.Candidate)).Average(each => each.Gain) / _mean : 0;

    private string SoFar(BrewCandidate candidate)
    {
        Tasting[] ofCoffee = [.. _cups.Where(cup => cup.Bag.Coffee.Id == candidate.Bag.Coffee.Id)];
        if (ofCoffee.Length == 0)
            return "no cup of the coffee so far";
        return _asked.Method is { } method
            ? $"{NumberText.Count(ofCoffee.Length, "cup")} of the coffee so far, {With(_asked.Levels.First)} with {_asked.Levels.First} and {With(_asked.Levels.Second)} with {_asked.Levels.Second}"
            : $"{NumberText.Count(ofCoffee.Length, "cup")} of the coffee so far";

        int With(string level) => ofCoffee.Count(cup => method.LevelOf(cup) == level);
    }

    private string BrewedWith(Factor factor, string? level)
    {
        Tasting[] withIt = [.. _cups.Where(cup => factor.LevelOf(cup) == (level ?? Factor.NotStated))];
        return $"{level ?? Factor.NotStated} has been brewed with {Coffees(withIt)} of {NumberText.Count(Coffees(_cups), "coffee")}, {withIt.Length} of {NumberText.Count(_cups.Count, "cup")}";

        static int Coffees(IEnumerable<Tasting> cups) => cups.Select(cup => cup.Bag.Coffee.Id).Distinct().Count();
    }
}
