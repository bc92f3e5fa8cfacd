namespace TastingKit;

/// <summary>
/// What a simulated year is made of: how much is tasted, and how large every effect in it truly is.
/// Every effect can be set to zero, and every switch is off unless turned on.
/// </summary>
/// <remarks>
/// Scores are points on the taster's own scale, on which a cup makes an impression before it is rounded to a step.
/// A score is the sum of the taster's mean, the coffee's quality, the brewer and recipe with their deviations by process
/// and by coffee, the rest curve, the session, the place in the session, the day's bag, the calendar, and repeat error.
/// </remarks>
public sealed record SimulationSettings
{
    /// <summary>The calendar year that is tasted through, from 1 January to 31 December.</summary>
    public int Year { get; init; } = 2025;

    /// <summary>Bags in the log, the control bag among them; at least 1, and at least 2 where there are control doses.</summary>
    public int Bags { get; init; } = 70;

    /// <summary>
    /// Cups in the log, repeats, control doses, failed and dial-in cups among them. Fewer are brewed only where
    /// dropped bags leave nothing to brew.
    /// </summary>
    public int Cups { get; init; } = 480;

    /// <summary>Roasters, from 1 to 20.</summary>
    public int Roasters { get; init; } = 14;

    /// <summary>Countries of origin, from 1 to 10.</summary>
    public int Countries { get; init; } = 10;

    /// <summary>Base processes, from 1 to 4, in the order washed, natural, honey, wet-hulled.</summary>
    public int Processes { get; init; } = 4;

    /// <summary>How far coffees differ, and by what.</summary>
    public SimulatedQuality Quality { get; init; } = new();

    /// <summary>What brewer and recipe do.</summary>
    public SimulatedMethod Method { get; init; } = new();

    /// <summary>What rest does.</summary>
    public SimulatedRest Rest { get; init; } = new();

    /// <summary>The taster: mean, scatter, drift, use of the scale.</summary>
    public SimulatedTaster Taster { get; init; } = new();

    /// <summary>When and what is brewed, repeats and control doses included.</summary>
    public SimulatedSchedule Schedule { get; init; } = new();

    /// <summary>Habits that make a log no experiment; all off by default.</summary>
    public SimulatedHabits Habits { get; init; } = new();

    /// <summary>The attributes scored beside the overall score; empty for none.</summary>
    public IReadOnlyList<SimulatedAttribute> Attributes { get; init; } = SimulatedAttribute.Defaults;

    /// <summary>Whether notes, verdicts, blind tests and the other texts of a log are written; without them a year takes less time.</summary>
    public bool WithTexts { get; init; } = true;

    internal void Validate()
    {
        AtLeast(Bags, Schedule.ControlDoses > 0 ? 2 : 1, nameof(Bags));
        AtLeast(Cups, 0, nameof(Cups));
        Between(Year, 1900, 9000, nameof(Year));
        Between(Roasters, 1, InventedNames.MostRoasters, nameof(Roasters));
        Between(Countries, 1, InventedNames.MostCountries, nameof(Countries));
        Between(Processes, 1, InventedNames.MostProcesses, nameof(Processes));
        Quality.Validate();
        Method.Validate();
        Rest.Validate();
        Taster.Validate();
        Schedule.Validate(this);
        Habits.Validate();
        foreach (var attribute in Attributes)
            attribute.Validate();
    }

    internal static void AtLeast(double value, double least, string name)
    {
        if (!double.IsFinite(value) || value < least)
            throw new ArgumentException($"The setting {name} is {value}; it must be a number of at least {least}.", name);
    }

    internal static void Between(double value, double least, double most, string name)
    {
        if (!double.IsFinite(value) || value < least || value > most)
            throw new ArgumentException($"The setting {name} is {value}; it must lie between {least} and {most}.", name);
    }

    internal static void Finite(double value, string name)
    {
        if (!double.IsFinite(value))
            throw new ArgumentException($"The setting {name} is {value}; it must be a finite number.", name);
    }
}
