namespace TastingKit;

/// <summary>A change of water or equipment in a simulated year, and what it truly does.</summary>
/// <param name="ChangedOn">The first day with the new one.</param>
/// <param name="What">water, grinder, burrs, filter or kettle.</param>
/// <param name="From">What it was before.</param>
/// <param name="To">What it is since.</param>
/// <param name="Effect">Points it adds to every cup from that day on.</param>
public sealed record SimulatedChange(DateOnly ChangedOn, string What, string From, string To, double Effect);

/// <summary>When and what is brewed: bags and their ages, the gaps and clumps of a real year, repeats and control doses.</summary>
public sealed record SimulatedSchedule
{
    /// <summary>Least age in days at which a bag is opened.</summary>
    public int OpeningRestFrom { get; init; } = 4;

    /// <summary>Greatest age in days at which a bag is opened; ages are uniform between the two.</summary>
    public int OpeningRestTo { get; init; } = 18;

    /// <summary>Least number of days over which an open bag is brewed.</summary>
    public int DaysOpenFrom { get; init; } = 18;

    /// <summary>Greatest number of days over which an open bag is brewed.</summary>
    public int DaysOpenTo { get; init; } = 40;

    /// <summary>Times in the year that the taster is away for five to sixteen days.</summary>
    public int Absences { get; init; } = 3;

    /// <summary>Share of weekdays on which anything is tasted; weekends have twice that, at most 0.95.</summary>
    public double WeekdayShare { get; init; } = 0.42;

    /// <summary>Share of cups brewed in the afternoon, as a session of its own; 0 to 1.</summary>
    public double AfternoonShare { get; init; } = 0.12;

    /// <summary>Coffees of which a second bag is bought later in the year.</summary>
    public int LotsBoughtAgain { get; init; } = 4;

    /// <summary>Pairs of cups of one bag, session, brewer, recipe and grind, tasted blind.</summary>
    public int BlindRepeats { get; init; } = 20;

    /// <summary>Pairs of cups of one bag, session, brewer, recipe and grind, tasted knowing what they are.</summary>
    public int SightedRepeats { get; init; }

    /// <summary>Pairs of cups of one bag, session, brewer, recipe and grind, of which one is coded and the label of the other seen, in an order drawn by lot.</summary>
    public int LabelPairs { get; init; }

    /// <summary>Pairs of one bag, session, brewer, recipe and grind, of which one is fresh and the other of a dose frozen on the day the bag was opened, tasted coded.</summary>
    public int FreshFrozenPairs { get; init; }

    /// <summary>Bags of which one dose is frozen on the day they are opened, all tasted blind at one sitting on the year's last day of tasting.</summary>
    public int FlightBags { get; init; }

    /// <summary>Points that freezing itself adds to a dose, however long it stays frozen; negative where it takes.</summary>
    public double FreezingStep { get; init; }

    /// <summary>Frozen doses of one control bag, thawed and tasted blind to the coffee at even distances over the year.</summary>
    public int ControlDoses { get; init; } = 12;

    /// <summary>Points a year that a frozen dose loses.</summary>
    public double FreezerLossPerYear { get; init; }

    /// <summary>Share of bags whose first cup is brewed to find the grind, and scores half a point lower; 0 to 1.</summary>
    public double DialInShare { get; init; } = 0.20;

    /// <summary>Share of cups that went wrong and are logged as failed; 0 to 1.</summary>
    public double FailedShare { get; init; } = 0.015;

    /// <summary>Share of bags whose second cup is a cupping bowl, without brewer or recipe; 0 to 1.</summary>
    public double CuppingShare { get; init; } = 0.10;

    /// <summary>Share of cups that were not scored; 0 to 1.</summary>
    public double UnscoredShare { get; init; } = 0.01;

    /// <summary>Share of cups whose attributes were left out; 0 to 1.</summary>
    public double WithoutAttributesShare { get; init; } = 0.05;

    /// <summary>Share of coded cups at which the process is guessed right.</summary>
    public double ProcessGuessedRight { get; init; } = 0.60;

    /// <summary>Series of blind triangle tests between two bags; six trials each.</summary>
    public int TriangleTests { get; init; } = 4;

    /// <summary>Probability that one triangle trial is answered right; a third is guessing.</summary>
    public double TriangleCorrect { get; init; } = 0.6;

    /// <summary>Changes of water and equipment, with what they truly do.</summary>
    public IReadOnlyList<SimulatedChange> Changes { get; init; } = [];

    internal void Validate(SimulationSettings settings)
    {
        SimulationSettings.Between(OpeningRestFrom, 0, OpeningRestTo, nameof(OpeningRestFrom));
        SimulationSettings.Between(OpeningRestTo, OpeningRestFrom, 365, nameof(OpeningRestTo));
        SimulationSettings.Between(DaysOpenFrom, 1, DaysOpenTo, nameof(DaysOpenFrom));
        SimulationSettings.Between(DaysOpenTo, DaysOpenFrom, 300, nameof(DaysOpenTo));
        SimulationSettings.Between(Absences, 0, 10, nameof(Absences));
        SimulationSettings.Between(WeekdayShare, 0.01, 1, nameof(WeekdayShare));
        SimulationSettings.Between(AfternoonShare, 0, 1, nameof(AfternoonShare));
        SimulationSettings.Between(LotsBoughtAgain, 0, (settings.Bags - (ControlDoses > 0 ? 1 : 0)) / 2, nameof(LotsBoughtAgain));
        SimulationSettings.AtLeast(BlindRepeats, 0, nameof(BlindRepeats));
        SimulationSettings.AtLeast(SightedRepeats, 0, nameof(SightedRepeats));
        SimulationSettings.AtLeast(ControlDoses, 0, nameof(ControlDoses));
        SimulationSettings.AtLeast(LabelPairs, 0, nameof(LabelPairs));
        SimulationSettings.AtLeast(FreshFrozenPairs, 0, nameof(FreshFrozenPairs));
        SimulationSettings.Between(FlightBags, 0, settings.Bags - (ControlDoses > 0 ? 1 : 0), nameof(FlightBags));
        SimulationSettings.Between(
            ControlDoses + FlightBags + 2 * (BlindRepeats + SightedRepeats + LabelPairs + FreshFrozenPairs), 0, settings.Cups,
            "ControlDoses + FlightBags + 2 · (BlindRepeats + SightedRepeats + LabelPairs + FreshFrozenPairs)");
        SimulationSettings.Finite(FreezingStep, nameof(FreezingStep));
        SimulationSettings.Finite(FreezerLossPerYear, nameof(FreezerLossPerYear));
        SimulationSettings.Between(DialInShare, 0, 1, nameof(DialInShare));
        SimulationSettings.Between(FailedShare, 0, 1, nameof(FailedShare));
        SimulationSettings.Between(CuppingShare, 0, 1, nameof(CuppingShare));
        SimulationSettings.Between(UnscoredShare, 0, 1, nameof(UnscoredShare));
        SimulationSettings.Between(WithoutAttributesShare, 0, 1, nameof(WithoutAttributesShare));
        SimulationSettings.Between(ProcessGuessedRight, 0, 1, nameof(ProcessGuessedRight));
        SimulationSettings.AtLeast(TriangleTests, 0, nameof(TriangleTests));
        SimulationSettings.Between(TriangleCorrect, 0, 1, nameof(TriangleCorrect));
        foreach (var change in Changes)
            SimulationSettings.Finite(change.Effect, $"effect of the change of {change.What}");
    }
}
