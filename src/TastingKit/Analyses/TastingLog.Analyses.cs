namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>The seed of every analysis that draws at random and is given none.</summary>
    public const ulong DefaultSeed = 20_250_101;

    /// <summary>What was logged: cups, bags, coffees by month, and the notes that kept coming back.</summary>
    public LoggedYear Logged() => LoggedAnalysis.Of(this);

    /// <summary>The raw course of the score over the calendar. It is not by itself an answer about inflation.</summary>
    public CalendarCourse CalendarCourse() => CalendarAnalysis.Of(this);

    /// <summary>The favourites: each coffee's predicted score under one standard brew, and how sure its place is.</summary>
    /// <param name="brew">The brew under which coffees are compared; the log's most common one where not given.</param>
    /// <param name="seed">Seed of the draws; the same seed and log give the same figures.</param>
    public Favourites Favourites(StandardBrew? brew = null, ulong seed = DefaultSeed) => FavouritesAnalysis.Of(this, brew, seed);

    /// <summary>What one part of the method does to the score, within coffees.</summary>
    /// <param name="factor">A factor of the brew, such as <see cref="Factor.Brewer"/> or <see cref="Factor.RecipeFrom"/>.</param>
    /// <param name="margin">
    /// The difference from which one matters, in points of the log's scale, fixed before looking; half a point of a scale from 1 to 9
    /// where not given, scaled to the log's own.
    /// </param>
    /// <param name="seed">Seed of the draws.</param>
    /// <exception cref="ArgumentException">The factor belongs to the coffee and not to the brew.</exception>
    /// <exception cref="ArgumentOutOfRangeException">The margin is not positive.</exception>
    public MethodEffects MethodEffects(Factor factor, double? margin = null, ulong seed = DefaultSeed)
    {
        ArgumentNullException.ThrowIfNull(factor);
        return MethodAnalysis.Of(this, factor, margin, seed);
    }

    /// <summary>The course of the score over effective rest, within bags.</summary>
    /// <param name="seed">Seed of the draws.</param>
    public RestCourse RestCourse(ulong seed = DefaultSeed) => RestAnalysis.Of(this, seed);
}
