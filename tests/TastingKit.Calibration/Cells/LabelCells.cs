namespace TastingKit.Calibration;

/// <summary>
/// Cells with coded cups beside seen ones: labels that do nothing, all the same, or more by price or renown; and each habit on. Errors are clustered by
/// roaster, between whose labels nothing differs by chance here: a variance is nought, so that intervals may be wide.
/// </summary>
internal static class LabelCells
{
    private static readonly SimulationSettings Matching = CalibrationCells.MatchingYear;

    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        new("label-none", "Twenty-four pairs of a coded cup and one whose label was seen, which makes no difference.", Match.Strained, 7471, Pairs(24, Matching.Taster), []),
        new("label-effect", "The same pairs; seeing any label adds 0.3 points.", Match.Strained, 7472, Seen(24), []),
        new("label-few-pairs", "Ten such pairs.", Match.Strained, 7473, Seen(10), []),
        new("label-price", "Forty pairs; seeing the label adds 0.15 points for each euro a 100 g above 5.5.", Match.Strained, 7474, Pairs(40, Matching.Taster with { LabelPremiumByPrice = 0.15 }), []),
        new("label-renown", "Forty pairs; seeing the label of a renowned roaster adds 0.6 points.", Match.Strained, 7475, Pairs(40, Matching.Taster with { LabelPremium = 0.6 }), []),
        new("label-on-steps", "Twenty-four pairs scored on steps of a half from 1 to 9; seeing any label adds 0.3 points.", Match.Misspecified, 7476,
            Pairs(24, Matching.Taster with { LabelEffect = 0.3, RoundsToSteps = true, StaysWithinScale = true }), []),
        new("label-dropped-bags", "The label cell with poor bags dropped.", Match.Misspecified, 7481, Seen(24) with { Habits = new() { DropBagsBelow = 6.0 } }, []),
        new("label-brewed-again", "The label cell with poor cups brewed again, every other of them called failed.", Match.Misspecified, 7482,
            Seen(24) with { Habits = new() { BrewAgainBelow = 6.0, PoorCupCalledFailed = 0.5 } }, []),
        new("label-brewers-chosen", "The label cell with a brewer that is used late, and the best brewer kept.", Match.Misspecified, 7483,
            Seen(24) with { Habits = new() { LastBrewerLate = true, BestBrewerKept = true } }, []),
        new("label-carry-over", "The label cell, where three tenths of the last cup's departure colour the next.", Match.Misspecified, 7484,
            Pairs(24, Matching.Taster with { LabelEffect = 0.3, CarryOver = 0.3 }), []),
        new("label-anchoring", "The label cell, where a cup is drawn by three tenths to its bag's last score.", Match.Misspecified, 7485,
            Pairs(24, Matching.Taster with { LabelEffect = 0.3, AnchoringOnLastScore = 0.3 }), ["neighbours-alike"]),
        new("label-ceiling", "The label cell, where the taster never gives more than 7.5.", Match.Misspecified, 7486, Seen(24) with { Habits = new() { Ceiling = 7.5 } }, []),
        new("label-spoiled", "The label cell, where three brews in a hundred lose 2.5 points unnoticed.", Match.Misspecified, 7487, Seen(24) with { Habits = new() { SpoiledShare = 0.03 } }, []),
    ];

    private static SimulationSettings Seen(int pairs) => Pairs(pairs, Matching.Taster with { LabelEffect = 0.3 });

    private static SimulationSettings Pairs(int pairs, SimulatedTaster taster) => Matching with { Taster = taster, Schedule = Matching.Schedule with { LabelPairs = pairs } };
}
