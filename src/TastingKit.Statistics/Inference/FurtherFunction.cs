namespace TastingKit.Statistics;

/// <summary>The intercept of a level that no row of a fit has, with the weight it enters a function by.</summary>
/// <param name="Group">The grouping factor, which has an intercept and nothing else.</param>
/// <param name="Level">The level's name; functions that name the same level share its effect.</param>
/// <param name="Weight">Its weight.</param>
public sealed record NewLevel(string Group, string Level, double Weight);

/// <summary>
/// A weighted sum of a fit's coefficients and effects and of effects of levels yet to come. Immutable; functions of one fit can be added,
/// subtracted and multiplied by numbers.
/// </summary>
public sealed class FurtherFunction
{
    private readonly NewLevel[] _new;

    /// <summary>Makes a function.</summary>
    /// <param name="known">What the fit knows of.</param>
    /// <param name="ofNewLevels">Effects of levels that no row has; a level may stand more than once.</param>
    public FurtherFunction(LinearFunction known, params IEnumerable<NewLevel> ofNewLevels)
    {
        ArgumentNullException.ThrowIfNull(known);
        ArgumentNullException.ThrowIfNull(ofNewLevels);
        Known = known;
        _new = [.. ofNewLevels.GroupBy(each => (each.Group, each.Level)).Select(same => same.First() with { Weight = same.Sum(each => each.Weight) })];
    }

    /// <summary>What the fit knows of.</summary>
    public LinearFunction Known { get; }

    /// <summary>Effects of levels that no row has, each level once.</summary>
    public IReadOnlyList<NewLevel> New => _new;

    /// <summary>The sum of two functions.</summary>
    public static FurtherFunction operator +(FurtherFunction left, FurtherFunction right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return new FurtherFunction(left.Known + right.Known, left._new.Concat(right._new));
    }

    /// <summary>The difference of two functions.</summary>
    public static FurtherFunction operator -(FurtherFunction left, FurtherFunction right) => left + (-1 * right);

    /// <summary>A number times a function.</summary>
    public static FurtherFunction operator *(double factor, FurtherFunction function)
    {
        ArgumentNullException.ThrowIfNull(function);
        return new FurtherFunction(factor * function.Known, function._new.Select(each => each with { Weight = factor * each.Weight }));
    }

    /// <summary>The sum of two functions.</summary>
    public static FurtherFunction Add(FurtherFunction left, FurtherFunction right) => left + right;

    /// <summary>The difference of two functions.</summary>
    public static FurtherFunction Subtract(FurtherFunction left, FurtherFunction right) => left - right;

    /// <summary>A number times a function.</summary>
    public static FurtherFunction Multiply(double left, FurtherFunction right) => left * right;
}
