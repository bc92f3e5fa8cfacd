namespace TastingKit.Calibration;

/// <summary>Cells that ask whether steps of the scale moved against one another: scored on steps of a half, with all, some or none of them moving.</summary>
internal static class ScaleUseCells
{
    private static readonly SimulationSettings OnSteps = CalibrationCells.MatchingYear with
    {
        Taster = CalibrationCells.MatchingYear.Taster with { RoundsToSteps = true, StaysWithinScale = true },
    };

    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        new("steps-still", "The matching year on steps of a half from 1 to 9, none of which moves.", Match.Exact, 7341, OnSteps, []),
        new("steps-drift", "The same, while the whole scale drifts by 0.6 points over the year and coffee gets better by 0.4.", Match.Exact, 7342,
            OnSteps with { Taster = OnSteps.Taster with { DriftPerYear = 0.6 }, Quality = OnSteps.Quality with { BuyingTrendPerYear = 0.4 } }, []),
        new("steps-moved", "In the third and the fourth quarter 7.5 and all steps above begin 0.25 points lower; the coffee is what it was.", Match.Exact, 7343,
            OnSteps with { Taster = OnSteps.Taster with { MovedThresholds = [new(3, 7.5, 0.25), new(4, 7.5, 0.25)] } }, []),
        new("steps-moved-once", "In the fourth quarter alone 7.0 and all steps above begin 0.2 points higher.", Match.Exact, 7344,
            OnSteps with { Taster = OnSteps.Taster with { MovedThresholds = [new(4, 7.0, -0.2)] } }, []),
    ];
}
