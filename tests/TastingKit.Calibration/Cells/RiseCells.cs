namespace TastingKit.Calibration;

/// <summary>Cells that ask what a change in raw scores came of: coffee that gets better, a scale that drifts, both, a change of water, and nothing at all.</summary>
internal static class RiseCells
{
    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        .. Years.Select(cell => cell with { WithNought = ["rise"] }),
    ];

    // What brewers, recipes and rest do to one coffee and not to another is looked for, and there is none.
    private static IReadOnlyList<CalibrationCell> Years =>
    [
        new("rise-none", "Nothing changes over the year but which coffees happen to be bought; twelve frozen doses.", Match.Exact, 9241, Year(0, 0, 12), []),
        new("rise-buying", "No drift, and coffee that gets better by 0.8 points over the year; twelve frozen doses.", Match.Exact, 9242, Year(0.8, 0, 12), []),
        new("rise-drift", "The scale drifts by 0.6 points over the year, and coffee stays as good; twelve frozen doses.", Match.Exact, 9243, Year(0, 0.6, 12), []),
        new("rise-both", "Coffee gets better by 0.8 points and the scale drifts by 0.6; twelve frozen doses.", Match.Exact, 9244, Year(0.8, 0.6, 12), []),
        new("rise-both-no-anchor", "The same, and nothing was kept the same.", Match.Exact, 9245, Year(0.8, 0.6, 0), []),
        new("rise-none-no-anchor", "Nothing changes, and nothing was kept the same.", Match.Exact, 9246, Year(0, 0, 0), []),
        new("rise-water", "A change of water on 1 July adds 0.5 points to every cup, and nothing else changes; twelve frozen doses.", Match.Exact, 9247,
            Year(0, 0, 12) with
            {
                Schedule = Year(0, 0, 12).Schedule with { Changes = [new SimulatedChange(new DateOnly(2025, 7, 1), "water", "filtered tap", "remineralised", 0.5)] },
            },
            []),
    ];

    private static SimulationSettings Year(double buying, double drift, int doses) => CalibrationCells.MatchingYear with
    {
        Quality = CalibrationCells.MatchingYear.Quality with { BuyingTrendPerYear = buying },
        Taster = CalibrationCells.MatchingYear.Taster with { DriftPerYear = drift },
        Schedule = CalibrationCells.MatchingYear.Schedule with { ControlDoses = doses, LotsBoughtAgain = 0 },
    };
}
