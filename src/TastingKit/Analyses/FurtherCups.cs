namespace TastingKit;

/// <summary>What it would take to tell the direction of a difference that is still undecided, were it as large as the margin.</summary>
public abstract record FurtherCups
{
    private FurtherCups()
    {
    }

    /// <summary>Nothing is asked for: the direction is decided, or the difference is known to be too small to matter.</summary>
    public static FurtherCups None { get; } = new NotNeeded();

    /// <summary>Handles every case.</summary>
    public T Match<T>(Func<NotNeeded, T> notNeeded, Func<Needed, T> needed, Func<OutOfReach, T> outOfReach)
    {
        ArgumentNullException.ThrowIfNull(notNeeded);
        ArgumentNullException.ThrowIfNull(needed);
        ArgumentNullException.ThrowIfNull(outOfReach);
        return this switch
        {
            NotNeeded n => notNeeded(n),
            Needed n => needed(n),
            OutOfReach o => outOfReach(o),
            _ => throw new InvalidOperationException("The cases of FurtherCups are closed."),
        };
    }

    /// <summary>Nothing further is needed.</summary>
    public sealed record NotNeeded : FurtherCups;

    /// <summary>
    /// Either of two ways decides the direction in 80 of 100 logs that are as undecided as this one, if the difference equals the margin.
    /// </summary>
    /// <param name="SameCoffees">Further cups of the coffees brewed with both, half with each; nothing where no number of them would do, since coffees differ too much.</param>
    /// <param name="Coffees">Further coffees instead.</param>
    /// <param name="CupsACoffee">Cups that each of these would have, half with each.</param>
    public sealed record Needed(int? SameCoffees, int Coffees, int CupsACoffee) : FurtherCups
    {
        /// <summary>Whether the coffees' own differences weigh so much that new coffees take at most half the cups.</summary>
        public bool CoffeesRatherThanCups => SameCoffees is not { } cups || cups > 2 * Coffees * CupsACoffee;
    }

    /// <summary>More than a thousand further cups either way.</summary>
    public sealed record OutOfReach : FurtherCups;
}
