namespace TastingKit;

/// <summary>What a part of a change in raw scores comes of.</summary>
public enum RiseSource
{
    /// <summary>Another mix of coffees bought: more of kinds that score higher or lower at all times.</summary>
    Purchasing,

    /// <summary>Another mix of brews: brewers, recipes, rest at tasting against the usual rest of the log, labels known or not.</summary>
    Brewing,

    /// <summary>Changes of water or equipment that touch every cup after them.</summary>
    Equipment,

    /// <summary>Better or poorer coffees of like kinds, brewed alike.</summary>
    Coffees,

    /// <summary>The scale's own drift, under the assumption that it rests on.</summary>
    Drift,

    /// <summary>Coffees within like kinds and drift of the scale together, where the log can't separate them.</summary>
    CoffeesAndDrift,

    /// <summary>The chance of cups, sittings and tasters.</summary>
    Chance,
}

/// <summary>A part of a change in raw scores. All parts together are the change.</summary>
/// <param name="What">What it comes of, for example <c>country</c> or <c>brewer</c>.</param>
/// <param name="Source">Which kind of part it is.</param>
/// <param name="Points">Its points of the change; those of all parts sum to it.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end of it.</param>
public sealed record RisePart(string What, RiseSource Source, double Points, double Low, double High)
{
    /// <summary>Whether the interval lies on one side of nought.</summary>
    public bool IsToldFromNone => Low > 0 || High < 0;

    internal string Figures => $"{NumberText.Difference(Points)} (95 % interval {NumberText.DifferenceInterval(Low, High)})";
}

/// <summary>One of the two stretches of days that are held against each other.</summary>
/// <param name="Days">The stretch.</param>
/// <param name="Mean">Mean of its cups as they are.</param>
/// <param name="Cups">Its scored cups.</param>
/// <param name="Bags">Bags these came from.</param>
/// <param name="Coffees">Coffees these came from.</param>
public sealed record RisePeriod(DaySpan Days, double Mean, int Cups, int Bags, int Coffees)
{
    internal string Counts => $"{NumberText.Count(Cups, "cup")} of {NumberText.Count(Bags, "bag")}";
}

/// <summary>What the part of the drift rests on.</summary>
public abstract record RiseDrift
{
    private RiseDrift()
    {
    }

    /// <summary>Handles every case.</summary>
    public T Match<T>(Func<NotTold, T> notTold, Func<Anchored, T> anchored, Func<Stated, T> stated)
    {
        ArgumentNullException.ThrowIfNull(notTold);
        ArgumentNullException.ThrowIfNull(anchored);
        ArgumentNullException.ThrowIfNull(stated);
        return this switch
        {
            NotTold none => notTold(none),
            Anchored some => anchored(some),
            Stated user => stated(user),
            _ => throw new InvalidOperationException("The cases of RiseDrift are closed."),
        };
    }

    /// <summary>Nothing in the log tells drift: it stays together with the coffees.</summary>
    public sealed record NotTold : RiseDrift;

    /// <summary>An anchor tells it under its assumption.</summary>
    /// <param name="Drift">The drift and what it rests on.</param>
    public sealed record Anchored(AnchoredDrift Drift) : RiseDrift;

    /// <summary>It follows from what the user states of rest.</summary>
    /// <param name="RestAMonth">What a month of rest does by itself, as stated, in points.</param>
    /// <param name="AYear">The drift that follows, in points a year.</param>
    public sealed record Stated(double RestAMonth, DriftSlope AYear) : RiseDrift;

    internal DriftSlope? Slope => Match<DriftSlope?>(_ => null, anchored => anchored.Drift.AYear, stated => stated.AYear);

    /// <summary>What the part of the drift assumes, as the beginning of a sentence: <c>If …</c>; empty where drift does not stand alone.</summary>
    public string Assumption => Match(_ => "", anchored => anchored.Drift.Anchor.Assumption, stated => $"If rest by itself does {NumberText.Difference(stated.RestAMonth)} points a month (stated)");
}
