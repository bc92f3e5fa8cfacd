namespace TastingKit.Calibration;

/// <summary>
/// The parts of a change from the first quarter of a year's cups to the last, each against what the year was simulated from: what the mix of
/// coffees and of brews was truly worth, how much better the coffees of like kinds were that were bought, and the drift between the two.
/// </summary>
public sealed class RiseCalibration(Func<TastingLog, ScoreRise> analyse) : ICalibratedAnalysis
{
    /// <inheritdoc/>
    public string Name => "rise";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var rise = analyse(year.Log);
        foreach (var caution in rise.Cautions)
            record.Cautions.Add($"{Name}: {caution.Name}");
        if (!rise.Support.IsSupported)
        {
            record.Cautions.Add($"{Name}: not answered");
            return;
        }

        var truth = new Truths(year, rise);
        foreach (var part in rise.Parts)
        {
            if (truth.Of(part) is { } known)
                Cover(Named(part), part, known);
        }

        if (rise.Purchasing is { } bought)
            Cover("all of purchasing", bought, truth.Purchasing);
        if (rise.Brewing is { } brewed)
            Cover("all of brewing", brewed, truth.Brewing);
        if (rise.BeyondMix is { } steady)
        {
            Cover("steady change beyond the mix", steady, truth.Steady);
            if (truth.Steady == 0)
                record.Count($"{Name}: a change beyond the mix told where there is none", steady.IsToldFromNone);
        }

        if (rise.Parts.FirstOrDefault(part => part.Source == RiseSource.Drift) is { } drift && truth.Drift == 0)
            record.Count($"{Name}: a share of drift told where there is none", drift.IsToldFromNone);

        void Cover(string what, RisePart part, double known) => record.Cover($"{Name}: {what}", part.Points, part.Low, part.High, known);
    }

    private static string Named(RisePart part) => part.Source switch
    {
        RiseSource.Equipment => "change of equipment",
        RiseSource.CoffeesAndDrift => "coffees and drift together",
        _ => part.What,
    };

    /// <summary>What is true of the cups that were held against each other.</summary>
    /// <remarks>
    /// What a bag is worth is what it is worth on average over the days of rest of all cups, as in the analysis; whatever lies beyond its own peak
    /// by that is no work of the day it was tasted on. Of these offsets each kind has what least squares gives it, and the bag the rest.
    /// </remarks>
    internal sealed class Truths
    {
        private readonly SimulationTruth _truth;
        private readonly (Tasting Cup, double Weight)[] _cups;
        private readonly double _rested;
        private readonly Dictionary<string, double> _offUsualRest;
        private readonly Dictionary<string, double> _offUsualRestByKind;
        private readonly bool _standsAlone;

        public Truths(SimulatedYear year, ScoreRise rise)
        {
            _truth = year.Truth;
            Tasting[] cups = [.. ScoredCups.Of(year.Log).Cups];
            _cups = [.. cups
                .Select(cup => (cup, rise.Later!.Days.Holds(cup.TastedOn) ? 1.0 / rise.Later.Cups : rise.Earlier!.Days.Holds(cup.TastedOn) ? -1.0 / rise.Earlier.Cups : 0)).Where(each => each.Item2 != 0)];
            double[] days = [.. cups.Select(cup => (double)cup.RestDays!.Value)];
            _offUsualRest = cups.DistinctBy(cup => cup.Bag.Id).ToDictionary(cup => cup.Bag.Id, cup => days.Average(Bag(cup).RestEffect), StringComparer.Ordinal);
            _offUsualRestByKind = ByKind([.. new[] { Factor.Process, Factor.Fermentation, Factor.RoastLevel }.Where(kind => rise.Parts.Any(part => part.What == kind.Name))], cups);
            _standsAlone = rise.Drift is not RiseDrift.NotTold;
            // What a bag changes while it is drunk is told with the drift in it; only where drift stands alone is it taken off.
            _rested = Change(cup => cup.RestDays!.Value) * DriftADay;
        }

        public double Drift => DriftADay * Change(cup => cup.TastedOn.DayNumber);

        public double Steady => ((_truth.Settings.Quality.BuyingTrendPerYear / DaysOfTheYear) + DriftADay) * Change(cup => cup.Bag.RoastDate!.Value.DayNumber);

        public double Purchasing => Change(cup => Coffee(cup).LotQuality - Coffee(cup).LotEffect) + _offUsualRestByKind.Values.Sum();

        public double Brewing => Brewer + Recipe + Rest + Position;

        private double DriftADay => _truth.DriftPerYear / DaysOfTheYear;

        private double DaysOfTheYear => DateTime.IsLeapYear(_truth.Settings.Year) ? 366 : 365;

        private double Brewer => Change(cup => _truth.BrewerEffect(cup.Brewer!, Coffee(cup).Process));

        private double Recipe => Change(cup => cup.RecipeFrom == SimulatedMethod.Roaster ? _truth.RoasterRecipeContrast(Coffee(cup).Process) : 0);

        private double Rest => Change(cup => Bag(cup).RestEffect(cup.RestDays!.Value) - _offUsualRest[cup.Bag.Id]) + (_standsAlone ? 0 : _rested);

        private double Position => _truth.Settings.Taster.PositionEffect * Change(cup => cup.Position!.Value);

        private double Coffees => Change(cup => Coffee(cup).LotEffect + Bag(cup).BatchEffect + Bag(cup).BuyingTrendEffect + _offUsualRest[cup.Bag.Id]) - _offUsualRestByKind.Values.Sum();

        private double Equipment => Change(cup => _truth.Settings.Schedule.Changes.Where(change => cup.TastedOn >= change.ChangedOn).Sum(change => change.Effect));

        /// <summary>The truth of a part; nothing where the simulator keeps none, as of chance.</summary>
        public double? Of(RisePart part) => (part.Source, part.What) switch
        {
            (RiseSource.Purchasing, _) => Kind(part.What) + _offUsualRestByKind.GetValueOrDefault(part.What),
            (RiseSource.Brewing, "brewer") => Brewer,
            (RiseSource.Brewing, "recipe source") => Recipe,
            (RiseSource.Brewing, "days of rest at tasting") => Rest,
            (RiseSource.Brewing, "place in the sitting") => Position,
            (RiseSource.Brewing, _) => 0,
            (RiseSource.Equipment, _) => Equipment,
            (RiseSource.Coffees, _) => Coffees,
            (RiseSource.CoffeesAndDrift, _) => Coffees + Drift - _rested,
            (RiseSource.Drift, _) => Drift,
            _ => null,
        };

        private double Kind(string what) => what switch
        {
            "country" => Change(cup => Coffee(cup).CountryEffect),
            "process" => Change(cup => Coffee(cup).ProcessEffect),
            "fermentation" => Change(cup => Coffee(cup).FermentationEffect),
            "roaster" => Change(cup => Coffee(cup).RoasterEffect),
            _ => 0,
        };

        /// <summary>What of the change of bags' offsets goes with each of some kinds of coffee.</summary>
        private Dictionary<string, double> ByKind(Factor[] kinds, Tasting[] cups)
        {
            var changes = kinds.ToDictionary(kind => kind.Name, _ => 0.0, StringComparer.Ordinal);
            double[] left = [.. cups.Select(cup => _offUsualRest[cup.Bag.Id])];
            // Taking level means off one kind after the other, again and again, comes to least squares.
            for (var round = 0; round < 30; round++)
            {
                foreach (var kind in kinds)
                {
                    var means = cups.Zip(left).GroupBy(cup => kind.LevelOf(cup.First)).ToDictionary(level => level.Key, level => level.Average(cup => cup.Second), StringComparer.Ordinal);
                    changes[kind.Name] += Change(cup => means[kind.LevelOf(cup)]);
                    left = [.. cups.Zip(left, (cup, value) => value - means[kind.LevelOf(cup)])];
                }
            }

            return changes;
        }

        private CoffeeTruth Coffee(Tasting cup) => _truth.CoffeeOf(cup.Bag.Coffee.Id);

        private BagTruth Bag(Tasting cup) => Coffee(cup).Bags.Single(bag => bag.BagId == cup.Bag.Id);

        private double Change(Func<Tasting, double> value) => _cups.Sum(each => each.Weight * value(each.Cup));
    }
}
