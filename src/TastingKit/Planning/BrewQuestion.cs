namespace TastingKit;

/// <summary>A question that further cups are to settle.</summary>
public abstract record BrewQuestion
{
    private BrewQuestion()
    {
    }

    /// <summary>Which of two brewers is the better, for coffees like the log's or for one of them.</summary>
    /// <param name="first">A brewer of the log; where neither is given, the two with most cups.</param>
    /// <param name="second">Another.</param>
    /// <param name="coffee">The <c>coffee_id</c> of the one coffee asked about; <see langword="null"/> for coffees like the log's.</param>
    public static BrewQuestion BetterBrewer(string? first = null, string? second = null, string? coffee = null) => new Better(Factor.Brewer, first, second, coffee);

    /// <summary>Whose recipe is the better, for coffees like the log's or for one of them.</summary>
    /// <param name="first">Whose recipe, as <c>recipe_from</c> has it; where neither is given, the two with most cups.</param>
    /// <param name="second">Another's.</param>
    /// <param name="coffee">The <c>coffee_id</c> of the one coffee asked about; <see langword="null"/> for coffees like the log's.</param>
    public static BrewQuestion BetterRecipe(string? first = null, string? second = null, string? coffee = null) => new Better(Factor.RecipeFrom, first, second, coffee);

    /// <summary>Which of some coffees is the best under the standard brew.</summary>
    /// <param name="coffees">Their <c>coffee_id</c>s, at least two; none for every coffee that has a chance of a hundredth to be the best of the log.</param>
    public static BrewQuestion BestCoffee(params IReadOnlyList<string> coffees) => new Best(coffees);

    /// <summary>How good one coffee is under the standard brew.</summary>
    /// <param name="coffee">Its <c>coffee_id</c>; the one tasted last where not given.</param>
    public static BrewQuestion Verdict(string? coffee = null) => new HowGood(coffee);

    /// <summary>Handles every case.</summary>
    public T Match<T>(Func<Better, T> better, Func<Best, T> best, Func<HowGood, T> howGood)
    {
        ArgumentNullException.ThrowIfNull(better);
        ArgumentNullException.ThrowIfNull(best);
        ArgumentNullException.ThrowIfNull(howGood);
        return this switch
        {
            Better b => better(b),
            Best b => best(b),
            HowGood h => howGood(h),
            _ => throw new InvalidOperationException("The cases of BrewQuestion are closed."),
        };
    }

    /// <summary>Which of two levels of a part of the brew is the better.</summary>
    /// <param name="Factor"><see cref="Factor.Brewer"/> or <see cref="Factor.RecipeFrom"/>.</param>
    /// <param name="First">A level; <see langword="null"/> for the log's most common.</param>
    /// <param name="Second">Another.</param>
    /// <param name="CoffeeId">One coffee; <see langword="null"/> for coffees like the log's.</param>
    public sealed record Better(Factor Factor, string? First, string? Second, string? CoffeeId) : BrewQuestion;

    /// <summary>Which of some coffees is the best.</summary>
    /// <param name="CoffeeIds">The coffees; empty for all that may be.</param>
    public sealed record Best(IReadOnlyList<string> CoffeeIds) : BrewQuestion;

    /// <summary>How good one coffee is.</summary>
    /// <param name="CoffeeId">The coffee; <see langword="null"/> for the one tasted last.</param>
    public sealed record HowGood(string? CoffeeId) : BrewQuestion;
}
