using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A year of one taster's log, simulated from stated truths, together with those truths.</summary>
public sealed class SimulatedYear
{
    private SimulatedYear(TastingLog log, SimulationTruth truth) => (Log, Truth) = (log, truth);

    /// <summary>The log.</summary>
    public TastingLog Log { get; }

    /// <summary>What is true of it.</summary>
    public SimulationTruth Truth { get; }

    /// <summary>Simulates a year.</summary>
    /// <param name="settings">How much is tasted and how large every effect is.</param>
    /// <param name="seed">
    /// The seed; the same settings and seed give the same year on every machine. Years of one seed that differ in a habit
    /// or an effect share everything else: the same coffees, days and errors.
    /// </param>
    /// <exception cref="ArgumentException">A setting is out of its range; the message names it.</exception>
    public static SimulatedYear Create(SimulationSettings settings, ulong seed)
    {
        ArgumentNullException.ThrowIfNull(settings);
        settings.Validate();
        var random = new RandomStream(seed);
        var calendar = new SimulatedCalendar(settings, random.Split(1));
        var shelf = new SimulatedShelf(settings, calendar, random.Split(2));
        var plan = SimulatedPlan.Draw(settings, calendar, shelf, random.Split(3));
        var tastings = new SimulatedTastings(settings, calendar, shelf, random.Split(4)).Taste(plan);
        Bag[] bags = [.. shelf.Bags.Select(bag => bag.Bag)];
        var publications = settings.WithTexts ? new SimulatedPublications(settings, calendar, bags, tastings, random.Split(5)) : null;
        var log = new TastingLog(new LogContents
        {
            Name = "simulated year",
            Bags = bags,
            Tastings = tastings,
            Scales = ScalesOf(settings),
            PublishedVerdicts = publications?.Verdicts ?? [],
            BlindTests = publications?.BlindTests ?? [],
            Changes = [.. settings.Schedule.Changes.Select(change => new EquipmentChange(change.ChangedOn, change.What, change.From, change.To))],
        });
        return new SimulatedYear(log, new SimulationTruth(settings, seed, shelf));
    }

    private static Scale[] ScalesOf(SimulationSettings settings) =>
        [settings.Taster.ScoreScale, .. settings.Attributes.Select(attribute => Scale.Default(attribute.Attribute))];
}
