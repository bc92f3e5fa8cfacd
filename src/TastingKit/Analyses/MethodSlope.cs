namespace TastingKit;

/// <summary>What one step more of a covariate does, within coffees.</summary>
/// <param name="Covariate">The covariate, with its step.</param>
/// <param name="Answer">The difference that one step makes, on average over the values brewed, with both answers.</param>
/// <param name="Shape">Whether one step makes the same difference everywhere.</param>
/// <param name="Lowest">The value that one cup in twenty lies below, in the covariate's unit.</param>
/// <param name="Highest">The value that one cup in twenty lies above.</param>
/// <param name="Cups">Cups it rests on.</param>
/// <param name="Coffees">Coffees brewed with at least two values of it.</param>
/// <param name="Further">What it would take to tell the direction, half of the cups at <paramref name="Lowest"/> and half at <paramref name="Highest"/>, where neither answer is decided.</param>
public sealed record MethodSlope(
    Covariate Covariate, MethodAnswer Answer, SlopeShape Shape, double Lowest, double Highest, int Cups, int Coffees, FurtherCups Further);

/// <summary>Whether one step of a covariate makes the same difference everywhere.</summary>
public abstract record SlopeShape
{
    private SlopeShape()
    {
    }

    /// <summary>Handles every case.</summary>
    public T Match<T>(Func<Straight, T> straight, Func<Curved, T> curved, Func<NotLookedFor, T> notLookedFor)
    {
        ArgumentNullException.ThrowIfNull(straight);
        ArgumentNullException.ThrowIfNull(curved);
        ArgumentNullException.ThrowIfNull(notLookedFor);
        return this switch
        {
            Straight s => straight(s),
            Curved c => curved(c),
            NotLookedFor n => notLookedFor(n),
            _ => throw new InvalidOperationException("The cases of SlopeShape are closed."),
        };
    }

    /// <summary>No bend can be told from chance.</summary>
    /// <param name="P">p-value of the squared term.</param>
    public sealed record Straight(double P) : SlopeShape;

    /// <summary>The difference of a step changes over the values brewed (p of the squared term at most 0.05).</summary>
    /// <param name="P">p-value of the squared term.</param>
    /// <param name="AtLowest">What a step does at the lower end of the values brewed.</param>
    /// <param name="AtHighest">What a step does at their upper end.</param>
    public sealed record Curved(double P, double AtLowest, double AtHighest) : SlopeShape;

    /// <summary>Too few different values to tell a bend.</summary>
    public sealed record NotLookedFor : SlopeShape;
}

/// <summary>A covariate of which the log can't tell what it does.</summary>
/// <param name="Covariate">The covariate.</param>
/// <param name="Reason">Why not, as a sentence with its counts.</param>
public sealed record UnansweredCovariate(Covariate Covariate, string Reason);
