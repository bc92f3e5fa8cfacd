using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A sum of slopes that a log can tell although it can't tell the slopes apart.</summary>
public enum DriftSum
{
    /// <summary>Effective rest and drift together: what changes within a bag as it is drunk.</summary>
    RestAndDrift,

    /// <summary>Better or poorer coffee and drift together: what changes between bags at equal rest, by roast date.</summary>
    CoffeeAndDrift,

    /// <summary>What the freezer does and drift together: what changes between doses of one bag, frozen on one day.</summary>
    FreezerAndDrift,

    /// <summary>Better or poorer coffee less what the freezer does: what changes by roast date between frozen doses tasted blind at one sitting.</summary>
    CoffeeLessFreezer,

    /// <summary>What freezing itself does on the day, between fresh and frozen cups of one bag.</summary>
    FreezingStep,
}

/// <summary>A slope, or a sum of slopes, with its uncertainty.</summary>
/// <param name="Estimate">In points of the scale, for the time that its holder names.</param>
/// <param name="Low">Lower end of its 95 % interval.</param>
/// <param name="High">Upper end of its 95 % interval.</param>
/// <param name="StandardError">Standard error.</param>
/// <param name="DegreesOfFreedom">Of the t distribution that the interval is made with.</param>
public sealed record DriftSlope(double Estimate, double Low, double High, double StandardError, double DegreesOfFreedom)
{
    /// <summary>Whether the interval lies on one side of nought.</summary>
    public bool IsToldFromNone => Low > 0 || High < 0;

    internal static DriftSlope Of(Estimate estimate) => new(estimate.Value, estimate.Low, estimate.High, estimate.StandardError, estimate.DegreesOfFreedom);

    internal DriftSlope Times(double factor) => factor < 0
        ? throw new ArgumentOutOfRangeException(nameof(factor), factor, "A slope is scaled to another stretch of time, which is positive.")
        : new DriftSlope(factor * Estimate, factor * Low, factor * High, factor * StandardError, DegreesOfFreedom);

    internal DriftSlope Plus(double points) => this with { Estimate = Estimate + points, Low = Low + points, High = High + points };
}

/// <summary>A sum of slopes as a log tells it.</summary>
/// <param name="Sum">Which slopes are in it.</param>
/// <param name="Slope">In points a month for <see cref="DriftSum.RestAndDrift"/>, in points for <see cref="DriftSum.FreezingStep"/>, else in points a year.</param>
/// <param name="Cups">Cups that tell it.</param>
/// <param name="Bags">Bags that these came from.</param>
public sealed record IdentifiedSum(DriftSum Sum, DriftSlope Slope, int Cups, int Bags);

/// <summary>What was kept the same over the year, so that it tells drift if one thing is assumed of it.</summary>
public abstract record DriftAnchor
{
    private DriftAnchor()
    {
    }

    /// <summary>Handles all cases.</summary>
    public T Match<T>(Func<FrozenDoses, T> frozenDoses, Func<RoastedAgain, T> roastedAgain, Func<StatedRest, T> statedRest)
    {
        ArgumentNullException.ThrowIfNull(frozenDoses);
        ArgumentNullException.ThrowIfNull(roastedAgain);
        ArgumentNullException.ThrowIfNull(statedRest);
        return this switch
        {
            FrozenDoses frozen => frozenDoses(frozen),
            RoastedAgain again => roastedAgain(again),
            StatedRest stated => statedRest(stated),
            _ => throw new InvalidOperationException("The cases of DriftAnchor are closed."),
        };
    }

    /// <summary>The assumption that the drift rests on, as the beginning of a sentence: <c>If …</c>.</summary>
    public string Assumption => Match(
        frozen => frozen.LossAYear == 0
            ? "If coffee does not change in the freezer"
            : $"If doses {(frozen.LossAYear > 0 ? "lose" : "gain")} {NumberText.Fixed(Math.Abs(frozen.LossAYear))} points a year (stated)",
        _ => "If batches of a lot are alike on average",
        stated => $"If rest by itself does {NumberText.Difference(stated.PointsAMonth)} points a month (stated)");

    /// <summary>What it rests on, in a few words.</summary>
    public string RestsOn => Match(
        frozen => $"{NumberText.Count(frozen.Doses, "frozen dose")} of {NumberText.Count(frozen.Bags, "bag")}",
        again => $"{NumberText.Count(again.Lots, "lot")} roasted again, {NumberText.Count(again.Roastings, "roasting")}",
        stated => $"{NumberText.Count(stated.Cups, "cup")} of {NumberText.Count(stated.Bags, "bag")} tasted on several days");

    /// <summary>Frozen doses: they do not rest, so that what changes between them is drift and the freezer.</summary>
    /// <param name="Doses">Scored doses.</param>
    /// <param name="Bags">Bags that they came from.</param>
    /// <param name="LossAYear">Points a year that a dose is assumed to lose in the freezer.</param>
    public sealed record FrozenDoses(int Doses, int Bags, double LossAYear) : DriftAnchor;

    /// <summary>Lots roasted again: at equal rest, what changes between roastings is drift and how batches differ.</summary>
    /// <param name="Lots">Lots with at least two roastings.</param>
    /// <param name="Roastings">Their roastings.</param>
    public sealed record RoastedAgain(int Lots, int Roastings) : DriftAnchor;

    /// <summary>Nothing that was kept the same, but what the user states of rest: what a bag does beyond it over its days is drift.</summary>
    /// <param name="PointsAMonth">What a month of rest does by itself on average, as stated.</param>
    /// <param name="Cups">Cups of bags that were tasted on several days.</param>
    /// <param name="Bags">These bags.</param>
    public sealed record StatedRest(double PointsAMonth, int Cups, int Bags) : DriftAnchor;
}

/// <summary>The drift of the scale under one assumption.</summary>
/// <param name="Anchor">What it rests on and what is assumed of it.</param>
/// <param name="AYear">Drift in points a year: by so much the same cup is scored higher a year later.</param>
/// <param name="RestAMonth">What rest then does by itself, in points a month; <see langword="null"/> where the log does not tell rest and drift together.</param>
public sealed record AnchoredDrift(DriftAnchor Anchor, DriftSlope AYear, DriftSlope? RestAMonth);

/// <summary>What a log can say of drift.</summary>
public abstract record DriftCase
{
    private DriftCase()
    {
    }

    /// <summary>Handles both cases.</summary>
    public T Match<T>(Func<NoAnchor, T> noAnchor, Func<Anchored, T> anchored)
    {
        ArgumentNullException.ThrowIfNull(noAnchor);
        ArgumentNullException.ThrowIfNull(anchored);
        return this switch
        {
            NoAnchor none => noAnchor(none),
            Anchored some => anchored(some),
            _ => throw new InvalidOperationException("The cases of DriftCase are closed."),
        };
    }

    /// <summary>Nothing was kept the same over the year: no drift can be estimated.</summary>
    /// <param name="WhatIsMissing">What the log lacks, by kind of anchor, with its counts; sentences.</param>
    public sealed record NoAnchor(IReadOnlyList<string> WhatIsMissing) : DriftCase;

    /// <summary>Something was kept the same: a drift by anchor, each under its own assumption.</summary>
    /// <param name="Drifts">At least one.</param>
    public sealed record Anchored(IReadOnlyList<AnchoredDrift> Drifts) : DriftCase;
}
