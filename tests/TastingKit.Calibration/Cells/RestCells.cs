namespace TastingKit.Calibration;

/// <summary>Cells that ask when a peak is named: courses without one, by themselves and with each habit that makes a log no experiment.</summary>
internal static class RestCells
{
    private const double Late = 60;
    private const double Early = 1;

    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        new("rest-flat", "The matching year without any effect of rest.", Match.Strained, 4001, Flat(CalibrationCells.MatchingYear), []),
        new("rest-rising", "Every coffee rises to day 60, and levels off before it: hardly a cup is older.", Match.Misspecified, 4002, Peaking(CalibrationCells.MatchingYear, Late, 1), []),
        new("rest-rising-steeply", "The same, twice as deep.", Match.Misspecified, 4003, Peaking(CalibrationCells.MatchingYear, Late, 2), []),
        new("rest-falling", "Every coffee falls from day 2, fast at first.", Match.Misspecified, 4004, Peaking(CalibrationCells.MatchingYear, Early, 2), []),
        new("rest-deep", "Kinds and bags with peaks of their own, twice as deep as by default.", Match.Misspecified, 4005,
            CalibrationCells.DefaultYear with { Rest = CalibrationCells.DefaultYear.Rest with { Depth = 2 } }, []),
        new("rest-flat-default", "The default year, on steps and with deviations of every kind, without any effect of rest.", Match.Misspecified, 4006, Flat(CalibrationCells.DefaultYear), []),
        new("rest-flat-small-year", "The small year without any effect of rest.", Match.Strained, 4007, Flat(CalibrationCells.SmallYear), []),
        new("rest-rising-drift", "Every coffee rises to day 60, and the scale sinks by 0.6 points over the year.", Match.Misspecified, 4008,
            Peaking(CalibrationCells.MatchingYear, Late, 1) with { Taster = CalibrationCells.MatchingYear.Taster with { DriftPerYear = -0.6 } }, ["rest-runs-with-calendar"]),
        .. Habits.Select((habit, i) => new CalibrationCell(
            $"rest-flat-{habit.Name}", $"No effect of rest. {habit.Why}", Match.Misspecified, 4101 + (ulong)i, Flat(habit.Settings), habit.Cautions)),
    ];

    /// <summary>The cells whose years have one habit on.</summary>
    private static IEnumerable<CalibrationCell> Habits => CalibrationCells.Habits;

    private static SimulationSettings Flat(SimulationSettings settings) => settings with { Rest = settings.Rest with { Depth = 0 } };

    private static SimulationSettings Peaking(SimulationSettings settings, double day, double depth) => settings with
    {
        Rest = settings.Rest with { Depth = depth, PeakDays = settings.Rest.PeakDays.ToDictionary(kind => kind.Key, _ => day) },
    };
}
