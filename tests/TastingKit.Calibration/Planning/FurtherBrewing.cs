using TastingKit.Statistics;

namespace TastingKit.Calibration.Planning;

/// <summary>A simulated log that goes on: cups are brewed as told and taste as the year's truth has it.</summary>
public sealed class FurtherBrewing
{
    private readonly SimulatedYear _year;

    /// <summary>Makes a log of little chance by rest, so that cups can be brewed on without end.</summary>
    /// <param name="settings">The year.</param>
    /// <param name="seed">Its seed.</param>
    public FurtherBrewing(SimulationSettings settings, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(settings);
        _year = SimulatedYear.Create(
            settings with
            {
                Rest = new SimulatedRest { Depth = 0 },
                Schedule = new SimulatedSchedule { ControlDoses = 0, BlindRepeats = 0, LotsBoughtAgain = 0, DialInShare = 0, FailedShare = 0, CuppingShare = 0, UnscoredShare = 0 },
                Method = settings.Method with { RoasterRecipeShare = 0 },
                Attributes = [],
                WithTexts = false,
            },
            seed);
        // Without roast dates nothing is said of rest, and without end of grams a plan is not held back.
        var bags = _year.Log.Bags.ToDictionary(bag => bag.Id, bag => bag with { RoastDate = null, NetWeightGrams = 5000 });
        Start = LogOf([.. bags.Values], [.. _year.Log.Tastings.Select(cup => cup with { Bag = bags[cup.Bag.Id] })]);
    }

    /// <summary>The log before any further cup.</summary>
    public TastingLog Start { get; }

    /// <summary>What is true.</summary>
    public SimulationTruth Truth => _year.Truth;

    /// <summary>The true score of a coffee under a brew.</summary>
    public double TrueScore(string coffeeId, string brewer) => Truth.ExpectedScore(coffeeId, brewer, SimulatedMethod.House, 20);

    /// <summary>The log with further cups, all of one sitting.</summary>
    /// <param name="log">The log so far.</param>
    /// <param name="cups">Bag and brewer of each.</param>
    /// <param name="sitting">The sitting's number, from which its chance and its cups' are drawn, whoever chose them.</param>
    public TastingLog Brew(TastingLog log, IReadOnlyList<(Bag Bag, string Brewer)> cups, int sitting)
    {
        ArgumentNullException.ThrowIfNull(log);
        ArgumentNullException.ThrowIfNull(cups);
        var random = new RandomStream(Truth.Seed).Split(500 + (ulong)sitting);
        var taster = Truth.Settings.Taster;
        var ofSitting = taster.SessionStandardDeviation * random.NextNormal();
        var day = log.Tastings.Max(cup => cup.TastedAt).Date.AddDays(1);
        var brewed = cups.Select((cup, i) =>
        {
            var score = TrueScore(cup.Bag.Coffee.Id, cup.Brewer) + ofSitting + (taster.RepeatStandardDeviation * random.NextNormal());
            var scale = taster.ScoreScale;
            // With what else this brewer was used last, or the further cups would differ from the log's by more than was asked.
            return Start.Tastings.Last(before => before.Brewer == cup.Brewer && before.Score is not null) with
            {
                Id = $"f{sitting:000}-{i}",
                Bag = cup.Bag,
                TastedAt = day.AddHours(9 + i),
                Session = $"further {sitting:000}",
                Position = i + 1,
                Score = Math.Clamp(scale.Min + (Math.Round((score - scale.Min) / scale.Step) * scale.Step), scale.Min, scale.Max),
            };
        });
        return LogOf(log.Bags, [.. log.Tastings, .. brewed]);
    }

    private TastingLog LogOf(IReadOnlyList<Bag> bags, IReadOnlyList<Tasting> cups) =>
        new(new LogContents { Name = "further brewing", Bags = bags, Tastings = cups, Scales = [_year.Log.ScaleOf(TastingAttribute.Score)] });
}
