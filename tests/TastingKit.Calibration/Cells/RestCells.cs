namespace TastingKit.Calibration;

/// <summary>Cells that ask when a peak is named: courses without one, by themselves and with each habit that makes a log no experiment.</summary>
internal static class RestCells
{
    private const double Late = 60;
    private const double Early = 1;
    private const double Levelling = 14;

    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        new("rest-flat", "The matching year without any effect of rest.", Match.Strained, 8301, Flat(CalibrationCells.MatchingYear), []),
        new("rest-rising", "Every coffee rises to day 60, and levels off before it: hardly a cup is older.", Match.Misspecified, 8302, Peaking(CalibrationCells.MatchingYear, Late, 1), []),
        new("rest-rising-steeply", "The same, twice as deep.", Match.Misspecified, 8303, Peaking(CalibrationCells.MatchingYear, Late, 2), []),
        new("rest-falling", "Every coffee falls from day 2, fast at first.", Match.Misspecified, 8304, Peaking(CalibrationCells.MatchingYear, Early, 2), []),
        new("rest-deep", "Kinds and bags with peaks of their own, twice as deep as by default.", Match.Misspecified, 8305,
            CalibrationCells.DefaultYear with { Rest = CalibrationCells.DefaultYear.Rest with { Depth = 2 } }, []),
        new("rest-flat-default", "The default year, on steps and with deviations of every kind, without any effect of rest.", Match.Misspecified, 8306, Flat(CalibrationCells.DefaultYear), []),
        new("rest-flat-small-year", "The small year without any effect of rest.", Match.Strained, 8307, Flat(CalibrationCells.SmallYear), []),
        new("rest-rising-drift", "Every coffee rises to day 60, and the scale sinks by 0.6 points over the year.", Match.Misspecified, 8308,
            Peaking(CalibrationCells.MatchingYear, Late, 1) with { Taster = CalibrationCells.MatchingYear.Taster with { DriftPerYear = -0.6 } }, ["rest-runs-with-calendar"]),
        new("rest-levelling", "Every coffee rises to day 14 and stays there: the fall that a peak needs is nought.", Match.Misspecified, 8309, Staying(1), []),
        new("rest-levelling-steeply", "The same, twice as deep.", Match.Misspecified, 8310, Staying(2), []),
        new("opened-apart", "Bags opened from day 4 to day 34 of their age and drunk over two or three weeks; every coffee peaks on day 20, three points deep.", Match.Misspecified, 4501, Opened(CalibrationCells.MatchingYear, 4, 34, 3), []),
        new("opened-apart-default", "The same of the default year, with kinds and bags that have peaks of their own.", Match.Misspecified, 4502, Opened(CalibrationCells.DefaultYear, 4, 34, 3), []),
        new("opened-apart-shallow", "The same, one point deep.", Match.Misspecified, 4503, Opened(CalibrationCells.DefaultYear, 4, 34, 1), []),
        new("opened-apart-flat", "Bags opened as far apart, without any effect of rest.", Match.Misspecified, 4504, Opened(CalibrationCells.MatchingYear, 4, 34, 0), []),
        new("opened-alike", "Bags opened from day 8 to day 14 of their age, which does not tell when to open one.", Match.Misspecified, 4505, Opened(CalibrationCells.DefaultYear, 8, 14, 3), []),
        .. Habits.Select((habit, i) => new CalibrationCell(
            $"rest-flat-{habit.Name}", $"No effect of rest. {habit.Why}", Match.Misspecified, 8401 + (ulong)i, Flat(habit.Settings), habit.Cautions)),
    ];

    /// <summary>The cells whose years have one habit on.</summary>
    private static IEnumerable<CalibrationCell> Habits => CalibrationCells.Habits;

    private static SimulationSettings Flat(SimulationSettings settings) => settings with { Rest = settings.Rest with { Depth = 0 } };

    private static SimulationSettings Peaking(SimulationSettings settings, double day, double depth) => settings with
    {
        Rest = settings.Rest with { Depth = depth, PeakDays = settings.Rest.PeakDays.ToDictionary(kind => kind.Key, _ => day) },
    };

    private static SimulationSettings Opened(SimulationSettings settings, int from, int to, double depth) => settings with
    {
        Rest = settings.Rest with { Depth = depth },
        Schedule = settings.Schedule with { OpeningRestFrom = from, OpeningRestTo = to, DaysOpenFrom = 14, DaysOpenTo = 21 },
    };

    private static SimulationSettings Staying(double depth)
    {
        var settings = Peaking(CalibrationCells.MatchingYear, Levelling, depth);
        return settings with { Rest = settings.Rest with { StaysAtPeak = true } };
    }
}
