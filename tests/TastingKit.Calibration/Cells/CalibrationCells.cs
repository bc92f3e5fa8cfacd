namespace TastingKit.Calibration;

/// <summary>The cells, fixed beforehand.</summary>
public static class CalibrationCells
{
    /// <summary>
    /// A year made by the model that the analyses fit: additive effects, one rest curve for all, nothing rounded, nothing left
    /// out. Texts and attributes are left away to save time.
    /// </summary>
    public static SimulationSettings MatchingYear { get; } = new()
    {
        Method = new SimulatedMethod
        {
            BrewerByProcessStandardDeviation = 0,
            BrewerByCoffeeStandardDeviation = 0,
            RecipeByProcessStandardDeviation = 0,
            RecipeByCoffeeStandardDeviation = 0,
        },
        Rest = new SimulatedRest
        {
            PeakDays = new Dictionary<string, double> { ["washed"] = 20, ["natural"] = 20, ["honey"] = 20, ["wet-hulled"] = 20 },
            MediumRoastEarlier = 0,
            DarkRoastEarlier = 0,
            AnaerobicLater = 0,
            PeakBagStandardDeviation = 0,
        },
        Taster = new SimulatedTaster { BagDayStandardDeviation = 0, RoundsToSteps = false, StaysWithinScale = false },
        Attributes = [],
        WithTexts = false,
    };

    /// <summary>The year as it is simulated by default, rounded and with deviations of every kind, without texts and attributes.</summary>
    public static SimulationSettings DefaultYear { get; } = new() { Attributes = [], WithTexts = false };

    /// <summary>A matching year small enough that hundreds are gone through while one waits; processes and brewers are few, as ever.</summary>
    public static SimulationSettings SmallYear { get; } = MatchingYear with
    {
        Bags = 16,
        Cups = 90,
        Roasters = 5,
        Countries = 4,
        Processes = 3,
        Schedule = MatchingYear.Schedule with { ControlDoses = 0, BlindRepeats = 5, LotsBoughtAgain = 2 },
    };

    /// <summary>The matching year with one habit on, or one thing moving, that makes a log no experiment.</summary>
    internal static IReadOnlyList<CalibrationCell> Habits { get; } =
    [
        new("drift", "The scale drifts by 0.6 points over the year.", Match.Misspecified, 1010,
            MatchingYear with { Taster = MatchingYear.Taster with { DriftPerYear = 0.6 } }, ["scale-drift"]),
        new("dropped-bags", "A bag whose first two scores average below 6.0 is brewed no more.", Match.Misspecified, 1011,
            With(new SimulatedHabits { DropBagsBelow = 6.0 }), []),
        new("brewed-again", "A cup scored below 6.0 is brewed again at once, and both stay.", Match.Misspecified, 1012,
            With(new SimulatedHabits { BrewAgainBelow = 6.0 }), ["brewed-again"]),
        new("brewed-again-failed", "A cup scored below 6.0 is brewed again at once, and every other of them is called failed.", Match.Misspecified, 1013,
            With(new SimulatedHabits { BrewAgainBelow = 6.0, PoorCupCalledFailed = 0.5 }), ["brewed-again"]),
        new("late-brewer", "The last brewer is hardly used before day 25 of the rest, and mostly after.", Match.Misspecified, 1014,
            With(new SimulatedHabits { LastBrewerLate = true }), ["brewed-at-other-rest"]),
        new("best-brewer-kept", "From a bag's fourth cup on, the brewer with its best mean so far is mostly kept.", Match.Misspecified, 1015,
            With(new SimulatedHabits { BestBrewerKept = true }), []),
        new("carry-over", "Three tenths of the last cup's departure from the mean colour the next cup of the session.", Match.Misspecified, 1016,
            MatchingYear with { Taster = MatchingYear.Taster with { CarryOver = 0.3 } }, ["carried-over"]),
        new("anchoring", "A cup is drawn by three tenths to the last score that its bag was given.", Match.Misspecified, 1017,
            MatchingYear with { Taster = MatchingYear.Taster with { AnchoringOnLastScore = 0.3 } }, ["neighbours-alike"]),
        new("ceiling", "The taster never gives more than 7.5.", Match.Misspecified, 1018, With(new SimulatedHabits { Ceiling = 7.5 }), ["ceiling"]),
        new("spoiled", "Three brews in a hundred lose 2.5 points, and nobody notices.", Match.Misspecified, 5019,
            With(new SimulatedHabits { SpoiledShare = 0.03 }), ["precision: one-offs-counted"]),
        new("one-in-a-hundred", "One brew in a hundred loses four standard deviations of a cup from day to day, and nobody notices.", Match.Misspecified, 8063,
            With(new SimulatedHabits { SpoiledShare = 0.01, SpoiledLoss = 1.8 }), ["precision: one-offs-counted"]),
        new("five-in-a-hundred", "Five brews in a hundred lose as much.", Match.Misspecified, 8064,
            With(new SimulatedHabits { SpoiledShare = 0.05, SpoiledLoss = 1.8 }), ["precision: one-offs-counted"]),
        new("water-change", "A change of water on 1 September adds 0.5 points to every cup.", Match.Misspecified, 1020,
            MatchingYear with
            {
                Schedule = MatchingYear.Schedule with
                {
                    Changes = [new SimulatedChange(new DateOnly(2025, 9, 1), "water", "filtered tap", "remineralised", 0.5)],
                },
            },
            ["equipment-changed"]),
        new("drift-no-anchor", "The scale drifts by 0.6 points over the year, and nothing was kept the same.", Match.Exact, 7201, Drifting(0, 0), []),
        new("drift-6-doses", "The same drift, with six frozen doses.", Match.Exact, 7202, Drifting(6, 0), []),
        new("drift-12-doses", "The same with twelve.", Match.Exact, 7203, Drifting(12, 0), []),
        new("drift-24-doses", "The same with twenty-four.", Match.Exact, 7204, Drifting(24, 0), []),
        new("drift-6-doses-loss", "Six frozen doses that lose 0.3 points a year, which the taster states.", Match.Exact, 7205, Drifting(6, 0.3), []),
        new("drift-12-doses-loss", "Twelve frozen doses with the same loss.", Match.Exact, 7206, Drifting(12, 0.3), []),
        new("drift-24-doses-loss", "Twenty-four frozen doses with the same loss.", Match.Exact, 7207, Drifting(24, 0.3), []),
        new("no-drift-better-coffee", "No drift, coffee that gets better by 0.8 points a year, and twelve frozen doses.", Match.Exact, 7208,
            Drifting(12, 0) with { Taster = MatchingYear.Taster, Quality = MatchingYear.Quality with { BuyingTrendPerYear = 0.8 } }, []),
        new("drift-roasted-again", "The scale drifts by 0.6 points, and six lots were bought again from a later roasting.", Match.Strained, 7209,
            Drifting(0, 0) with { Schedule = MatchingYear.Schedule with { ControlDoses = 0, LotsBoughtAgain = 6 } }, []),
        new("drift-water-change", "The scale drifts by 0.6 points, and a change of water on 1 September adds 0.5; twelve frozen doses.", Match.Exact, 7210,
            Drifting(12, 0) with
            {
                Schedule = Drifting(12, 0).Schedule with { Changes = [new SimulatedChange(new DateOnly(2025, 9, 1), "water", "filtered tap", "remineralised", 0.5)] },
            },
            []),
        new("drift-flight", "The same drift, coffee that gets better by 0.5 points a year, and a dose of each of fourteen bags frozen when opened, all tasted blind on the last day; they lose 0.3 points a year.", Match.Exact, 7211,
            Drifting(0, 0.3) with { Quality = MatchingYear.Quality with { BuyingTrendPerYear = 0.5 }, Schedule = Drifting(0, 0.3).Schedule with { FlightBags = 14 } }, []),
        new("drift-freezing-step", "Twelve frozen doses, and twelve pairs of a fresh and a frozen cup on one day; freezing itself takes 0.3 points.", Match.Exact, 7212,
            Drifting(12, 0) with { Schedule = Drifting(12, 0).Schedule with { FreshFrozenPairs = 12, FreezingStep = -0.3 } }, []),
    ];

    /// <summary>
    /// Analyses that look for what brewers and recipes, kinds, bags or days have to themselves, none of which the matching year has.
    /// </summary>
    private static readonly string[] DeviationsSought =
        ["favourites", "brewer effects", "recipe source effects", "step effects", "precision", "rest peaks", "rest peaks by process", "rise"];

    /// <summary>Every cell, in the order of the results page.</summary>
    public static IReadOnlyList<CalibrationCell> All { get; } =
    [
        new("matching", "The model that the analyses fit made the years.", Match.Exact, 1001, MatchingYear, []) { WithNought = DeviationsSought },
        new("default", "Scores on steps, brewers that differ by process and by coffee, rest curves that differ by kind and bag.",
            Match.Misspecified, 1002, DefaultYear, ["precision: coffees-take-to-brews"]),
        new("repeats", "The matching year with thirty blind and thirty sighted pairs of repeats.", Match.Exact, 3061,
            MatchingYear with { Schedule = MatchingYear.Schedule with { BlindRepeats = 30, SightedRepeats = 30 } }, []) { WithNought = DeviationsSought },
        new("rounded-repeats", "The matching year with as many pairs, scored on steps of a half from 1 to 9.", Match.Misspecified, 3062,
            MatchingYear with
            {
                Taster = MatchingYear.Taster with { RoundsToSteps = true, StaysWithinScale = true },
                Schedule = MatchingYear.Schedule with { BlindRepeats = 30, SightedRepeats = 30 },
            },
            []),
        new("small-year", "The model that the analyses fit made years of 16 bags and 90 cups.", Match.Strained, 1006, SmallYear, []),
        new("few-groups", "Three countries, two processes, three roasters, two brewers, twenty bags, 140 cups.", Match.Strained, 1003, FewGroups(), []),
        new("few-coffees", "Eight bags and 60 cups of two countries and one process.", Match.Strained, 1004, FewCoffees(), []),
        new("no-variance", "Countries, processes, roasters, bags and sessions do not differ at all.", Match.Strained, 1005, NoVariance(), []),
        new("steps", "A degree of the water costs 0.05 points, and a gram more of water a gram of coffee adds 0.15.", Match.Exact, 9107,
            MatchingYear with { Method = MatchingYear.Method with { EffectPerDegree = -0.05, EffectPerRatioUnit = 0.15 } }, []) { WithNought = DeviationsSought },
        new("attributes", "Brewers change four of seven attributes, and the other three not at all.", Match.Strained, 8508, MatchingYear with { Attributes = Attributes(true) }, []),
        new("attributes-alike", "Brewers change none of seven attributes.", Match.Strained, 8509, MatchingYear with { Attributes = Attributes(false) }, []),
        .. Habits.Where(habit => habit.Settings.Habits != new SimulatedHabits()).Select((habit, i) => new CalibrationCell(
            $"attributes-{habit.Name}", $"Brewers change four of seven attributes. {habit.Why}", Match.Misspecified, 8511 + (ulong)i, habit.Settings with { Attributes = Attributes(true) }, habit.Cautions)),
        new("further-cups", "Five bags, twenty cups, and two brewers whose difference is exactly the margin: too little to tell it.", Match.Strained, 1032, FurtherCups(), []),
        .. Habits,
        .. RestCells.All,
        .. RiseCells.All,
        .. ScaleUseCells.All,
        .. LabelCells.All,
    ];

    /// <summary>The cell of a name.</summary>
    /// <exception cref="ArgumentException">There is none; the message lists those there are.</exception>
    public static CalibrationCell Named(string name) =>
        All.FirstOrDefault(cell => cell.Name == name)
        ?? throw new ArgumentException($"There is no cell '{name}'; there are {string.Join(", ", All.Select(cell => cell.Name))}.", nameof(name));

    private static SimulationSettings Drifting(int doses, double lossAYear) => MatchingYear with
    {
        Taster = MatchingYear.Taster with { DriftPerYear = 0.6 },
        Schedule = MatchingYear.Schedule with { ControlDoses = doses, FreezerLossPerYear = lossAYear, LotsBoughtAgain = 0 },
    };

    private static SimulationSettings With(SimulatedHabits habits) => MatchingYear with { Habits = habits };

    /// <summary>Four attributes that brewers change, if they change any, and three that they do not.</summary>
    private static SimulatedAttribute[] Attributes(bool changed)
    {
        string[] changing = ["acidity", "sweetness", "body", "clarity"];
        return [.. SimulatedAttribute.Defaults.Select(a => a with
        {
            CupLoading = 0,
            ByBrewer = changed && changing.Contains(a.Attribute.Name) ? a.ByBrewer : new Dictionary<string, double>(),
        })];
    }

    private static SimulationSettings FurtherCups() => FewGroups() with
    {
        Bags = 5,
        Cups = 20,
        Method = MatchingYear.Method with { Brewers = [new("cone dripper", 0.5, 0.5), new("flat-bed dripper", 0, 0.5)], BrewerByCoffeeStandardDeviation = 0.15 },
        Schedule = MatchingYear.Schedule with { ControlDoses = 0, BlindRepeats = 0, LotsBoughtAgain = 0, DialInShare = 0, CuppingShare = 0, FailedShare = 0 },
    };

    private static SimulationSettings FewGroups() => MatchingYear with
    {
        Bags = 20,
        Cups = 140,
        Countries = 3,
        Processes = 2,
        Roasters = 3,
        Method = MatchingYear.Method with { Brewers = [new("cone dripper", 0, 0.6), new("flat-bed dripper", 0.2, 0.4)] },
        Schedule = MatchingYear.Schedule with { ControlDoses = 0, BlindRepeats = 6, LotsBoughtAgain = 2 },
    };

    private static SimulationSettings FewCoffees() => FewGroups() with
    {
        Bags = 8,
        Cups = 60,
        Countries = 2,
        Processes = 1,
        Schedule = MatchingYear.Schedule with { ControlDoses = 0, BlindRepeats = 3, LotsBoughtAgain = 0 },
    };

    private static SimulationSettings NoVariance() => MatchingYear with
    {
        Quality = new SimulatedQuality
        {
            CountryStandardDeviation = 0,
            ProcessStandardDeviation = 0,
            AnaerobicEffect = 0,
            RoasterStandardDeviation = 0,
            BagStandardDeviation = 0,
        },
        Taster = MatchingYear.Taster with { SessionStandardDeviation = 0 },
    };
}
