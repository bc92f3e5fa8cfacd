namespace TastingKit;

/// <summary>
/// Habits that make a taster's log no experiment: what is tasted, and what is written down, depends on what was found before.
/// Each is off by default.
/// </summary>
public sealed record SimulatedHabits
{
    /// <summary>
    /// Poor bags are dropped: a bag whose first two scores average less than this is brewed no more, and another open bag
    /// takes its place. <see langword="null"/> is off; 6.0 drops about one bag in five of a default year.
    /// </summary>
    public double? DropBagsBelow { get; init; }

    /// <summary>
    /// Poor cups are brewed again: a cup scored below this is followed at once by another of the same bag, brewer and recipe,
    /// which uses up a later cup of that bag. Both stay in the log. <see langword="null"/> is off.
    /// </summary>
    public double? BrewAgainBelow { get; init; }

    /// <summary>Share of the poor cups brewed again that are then called failed, and so leave the models; 0 to 1.</summary>
    public double PoorCupCalledFailed { get; init; }

    /// <summary>Brewers chosen late: the last brewer of the list is hardly used before <see cref="LateFromRestDays"/>, and mostly after.</summary>
    public bool LastBrewerLate { get; init; }

    /// <summary>Effective rest in days from which the last brewer is taken, where <see cref="LastBrewerLate"/> is on.</summary>
    public int LateFromRestDays { get; init; } = 25;

    /// <summary>The best is kept: from a bag's fourth cup on, seven cups in ten take the brewer with its best mean so far.</summary>
    public bool BestBrewerKept { get; init; }

    /// <summary>A ceiling of the taster's own: no score above it is ever given. <see langword="null"/> is off.</summary>
    public double? Ceiling { get; init; }

    /// <summary>Share of brews that went wrong without anybody noticing; 0 to 1.</summary>
    public double SpoiledShare { get; init; }

    /// <summary>Points that a spoiled brew loses.</summary>
    public double SpoiledLoss { get; init; } = 2.5;

    internal void Validate()
    {
        if (DropBagsBelow is { } drop)
            SimulationSettings.Finite(drop, nameof(DropBagsBelow));
        if (BrewAgainBelow is { } again)
            SimulationSettings.Finite(again, nameof(BrewAgainBelow));
        if (Ceiling is { } ceiling)
            SimulationSettings.Finite(ceiling, nameof(Ceiling));
        SimulationSettings.Between(PoorCupCalledFailed, 0, 1, nameof(PoorCupCalledFailed));
        SimulationSettings.AtLeast(LateFromRestDays, 0, nameof(LateFromRestDays));
        SimulationSettings.Between(SpoiledShare, 0, 1, nameof(SpoiledShare));
        SimulationSettings.Finite(SpoiledLoss, nameof(SpoiledLoss));
    }
}
