namespace TastingKit.Tests.Simulation;

/// <summary>Settings from which one effect at a time can be turned on.</summary>
internal static class Years
{
    /// <summary>A year in which every cup is the same: all effects nought, nothing rounded, nothing left out.</summary>
    public static SimulationSettings Quiet { get; } = new()
    {
        Quality = new SimulatedQuality
        {
            CountryStandardDeviation = 0,
            ProcessStandardDeviation = 0,
            AnaerobicEffect = 0,
            RoasterStandardDeviation = 0,
            LotStandardDeviation = 0,
            BagStandardDeviation = 0,
        },
        Method = new SimulatedMethod
        {
            Brewers = [new("cone dripper", 0, 0.4), new("flat-bed dripper", 0, 0.3), new("steep-and-release", 0, 0.3)],
            BrewerByProcessStandardDeviation = 0,
            BrewerByCoffeeStandardDeviation = 0,
            RoasterRecipeEffect = 0,
            RecipeByProcessStandardDeviation = 0,
            RecipeByCoffeeStandardDeviation = 0,
        },
        Rest = new SimulatedRest { Depth = 0, PeakBagStandardDeviation = 0 },
        Taster = new SimulatedTaster
        {
            SessionStandardDeviation = 0,
            BagDayStandardDeviation = 0,
            RepeatStandardDeviation = 0,
            PositionEffect = 0,
            RoundsToSteps = false,
            StaysWithinScale = false,
        },
        Schedule = new SimulatedSchedule
        {
            BlindRepeats = 0,
            ControlDoses = 0,
            LotsBoughtAgain = 0,
            DialInShare = 0,
            FailedShare = 0,
            CuppingShare = 0,
            UnscoredShare = 0,
            WithoutAttributesShare = 0,
        },
        Attributes = [],
        WithTexts = false,
    };

    public static TastingLog Log(SimulationSettings settings, ulong seed = 1) => SimulatedYear.Create(settings, seed).Log;

    public static double StandardDeviation(IEnumerable<double> values)
    {
        var all = values.ToArray();
        var mean = all.Average();
        return Math.Sqrt(all.Sum(value => (value - mean) * (value - mean)) / (all.Length - 1));
    }

    /// <summary>Asserts that a value lies within a share of what it should be.</summary>
    public static void Near(double expected, double actual, double share) =>
        Assert.True(Math.Abs(actual - expected) <= share * Math.Abs(expected), $"{actual} is not within {share:P0} of {expected}.");
}
