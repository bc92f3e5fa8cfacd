using System.Collections.ObjectModel;
using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A bag of a simulated year with what is true of it. Days are counted from 1 January, from 0; a bag can be roasted before.</summary>
internal sealed record ShelfBag(Bag Bag, int Coffee, BagTruth Truth, int RoastDay, int OpenDay, int LastDay, bool IsControl);

/// <summary>The water temperature and the grams of water a gram of coffee that a recipe brews with.</summary>
internal sealed record SimulatedRecipe(double Celsius, double Ratio)
{
    public static SimulatedRecipe House { get; } = new(94, 16);
}

/// <summary>The bags of a simulated year, drawn with their coffees and every coffee's truth.</summary>
internal sealed class SimulatedShelf
{
    private readonly SimulationSettings _settings;
    private readonly SimulatedCalendar _calendar;
    private readonly double[] _countryEffects;
    private readonly double[] _processEffects;
    private readonly double[] _roasterEffects;
    private readonly string[] _habitualRoastLevels;

    public SimulatedShelf(SimulationSettings settings, SimulatedCalendar calendar, RandomStream random)
    {
        _settings = settings;
        _calendar = calendar;
        var quality = settings.Quality;
        var effects = random.Split(0);
        _countryEffects = Normals(settings.Countries, quality.CountryStandardDeviation, effects);
        _processEffects = Normals(settings.Processes, quality.ProcessStandardDeviation, effects);
        _roasterEffects = Normals(settings.Roasters, quality.RoasterStandardDeviation, effects);
        RecipeByProcess = Normals(settings.Processes, settings.Method.RecipeByProcessStandardDeviation, effects);
        BrewerByProcess = new double[settings.Method.Brewers.Count, settings.Processes];
        for (var b = 0; b < settings.Method.Brewers.Count; b++)
        {
            for (var p = 0; p < settings.Processes; p++)
                BrewerByProcess[b, p] = settings.Method.BrewerByProcessStandardDeviation * effects.NextNormal();
        }

        var habits = random.Split(1);
        RoasterRecipes = new SimulatedRecipe[settings.Roasters];
        _habitualRoastLevels = new string[settings.Roasters];
        for (var r = 0; r < settings.Roasters; r++)
        {
            RoasterRecipes[r] = new SimulatedRecipe(90 + habits.NextInt32(8), 15 + 0.5 * habits.NextInt32(5));
            _habitualRoastLevels[r] = habits.NextInt32(10) switch { < 6 => "light", < 9 => "medium", _ => "dark" };
        }

        (Bags, Truths, RoasterOf, ProcessOf) = Fill(random);
    }

    /// <summary>The bags by day of opening, the control bag first if there is one.</summary>
    public IReadOnlyList<ShelfBag> Bags { get; }

    /// <summary>The coffees in the order of their first bags.</summary>
    public IReadOnlyList<CoffeeTruth> Truths { get; }

    /// <summary>The roaster's index by coffee.</summary>
    public IReadOnlyList<int> RoasterOf { get; }

    /// <summary>The process's index by coffee.</summary>
    public IReadOnlyList<int> ProcessOf { get; }

    public SimulatedRecipe[] RoasterRecipes { get; }

    public double[,] BrewerByProcess { get; }

    public double[] RecipeByProcess { get; }

    /// <summary>Whether the label of a roaster impresses.</summary>
    public bool IsRenowned(int roaster) => roaster < (_settings.Roasters + 1) / 2;

    private (ShelfBag[] Bags, CoffeeTruth[] Coffees, int[] Roasters, int[] Processes) Fill(RandomStream random)
    {
        var control = _settings.Schedule.ControlDoses > 0 ? 1 : 0;
        var openings = DrawOpenings(_settings.Bags - control, random.Split(2));
        var coffeeOfBag = LotsOf(control, random.Split(3));
        var coffeeCount = coffeeOfBag.Max() + 1;
        var farms = new int[InventedNames.Farms];
        for (var i = 0; i < farms.Length; i++)
            farms[i] = i;
        random.Split(4).Shuffle<int>(farms);

        var drafts = new CoffeeDraft[coffeeCount];
        for (var c = 0; c < coffeeCount; c++)
            drafts[c] = DrawCoffee(c, farms[c % farms.Length], random.Split(5).Split((ulong)c));

        var bagsOf = new List<BagTruth>[coffeeCount];
        var bags = new ShelfBag[_settings.Bags];
        for (var b = 0; b < bags.Length; b++)
        {
            var isControl = b < control;
            bags[b] = DrawBag(b, coffeeOfBag[b], drafts[coffeeOfBag[b]], isControl ? 0 : openings[b - control], isControl, random.Split(6).Split((ulong)b));
            (bagsOf[coffeeOfBag[b]] ??= []).Add(bags[b].Truth);
        }

        var truths = new CoffeeTruth[coffeeCount];
        for (var c = 0; c < coffeeCount; c++)
            truths[c] = drafts[c].Truth with { Bags = bagsOf[c] };
        return (bags, truths, [.. drafts.Select(draft => draft.Roaster)], [.. drafts.Select(draft => draft.Process)]);
    }

    /// <summary>Days of opening, in order: bags come in orders of a few, and the last are opened in time to be brewed.</summary>
    private int[] DrawOpenings(int bags, RandomStream random)
    {
        var span = _calendar.DayCount - _settings.Schedule.DaysOpenTo + 8;
        var orders = new double[Math.Max(1, (int)Math.Round(bags / 2.6, MidpointRounding.AwayFromZero))];
        var sizes = new double[orders.Length];
        for (var o = 0; o < orders.Length; o++)
        {
            orders[o] = (o + random.NextDouble()) / orders.Length * span - 8;
            sizes[o] = 0.4 + random.NextDouble();
        }

        var openings = new int[bags];
        var dealt = Chance.Deal(bags, sizes);
        for (int o = 0, b = 0; o < orders.Length; o++)
        {
            for (var i = 0; i < dealt[o]; i++)
                openings[b++] = (int)Math.Floor(orders[o]) + random.NextInt32(12);
        }

        Array.Sort(openings);
        return openings;
    }

    /// <summary>The coffee of each bag: its own, but for lots of the year's first part that are bought again in its last.</summary>
    private int[] LotsOf(int control, RandomStream random)
    {
        var bags = _settings.Bags;
        var lots = new int[bags];
        Array.Fill(lots, -1);
        var half = control + (bags - control) / 2;
        var earlier = Enumerable.Range(control, half - control).ToArray();
        var later = Enumerable.Range(half, bags - half).ToArray();
        random.Shuffle<int>(earlier);
        random.Shuffle<int>(later);
        var again = new Dictionary<int, int>();
        for (var i = 0; i < _settings.Schedule.LotsBoughtAgain; i++)
            again[later[i]] = earlier[i];
        for (int b = 0, next = 0; b < bags; b++)
            lots[b] = again.TryGetValue(b, out var first) ? lots[first] : next++;
        return lots;
    }

    private sealed record CoffeeDraft(Coffee Coffee, CoffeeTruth Truth, int Roaster, int Process, string RoastLevel);

    private CoffeeDraft DrawCoffee(int index, int farm, RandomStream random)
    {
        // Some roasters and countries are bought from far more than others.
        var roaster = SkewedIndex(_settings.Roasters, random);
        var country = SkewedIndex(_settings.Countries, random);
        var (countryName, processWeights) = InventedNames.Countries[country];
        var open = processWeights.AsSpan(0, _settings.Processes);
        var process = open.IndexOfAnyExcept(0.0) < 0 ? random.NextInt32(_settings.Processes) : Chance.Pick(open, random);
        var anaerobic = random.NextDouble() < process switch { 0 => 0.12, 1 => 0.28, 2 => 0.25, _ => 0.06 };
        var roastLevel = random.NextDouble() < 0.75 ? _habitualRoastLevels[roaster] : "medium";
        var variety = InventedNames.Varieties[random.NextInt32(InventedNames.Varieties.Count)];
        var region = InventedNames.Regions[random.NextInt32(InventedNames.Regions.Count)];
        var decaf = random.NextDouble() < 0.02;

        var method = _settings.Method;
        var lot = _settings.Quality.LotStandardDeviation * random.NextNormal();
        var recipe = method.RecipeByCoffeeStandardDeviation * random.NextNormal();
        var brewers = new Dictionary<string, double>(method.Brewers.Count, StringComparer.Ordinal);
        foreach (var brewer in method.Brewers)
            brewers[brewer.Name] = method.BrewerByCoffeeStandardDeviation * random.NextNormal();
        var attributes = new Dictionary<TastingAttribute, double>(_settings.Attributes.Count);
        foreach (var attribute in _settings.Attributes)
            attributes[attribute.Attribute] = attribute.CoffeeStandardDeviation * random.NextNormal();

        var producer = InventedNames.Farm(farm);
        var processName = InventedNames.Processes[process];
        var id = Invariant("c", index + 1, 3);
        var coffee = new Coffee
        {
            Id = id,
            Name = $"{producer} {(anaerobic ? "anaerobic " : "")}{processName}",
            Roaster = InventedNames.Roasters[roaster],
            Countries = [countryName],
            Region = region,
            Producer = producer,
            Lot = Invariant("lot ", 1 + random.NextInt32(40), 1),
            Harvest = HarvestOf(countryName),
            Variety = variety,
            Process = processName,
            Fermentation = anaerobic ? "anaerobic" : null,
            Decaf = decaf,
        };
        var truth = new CoffeeTruth
        {
            CoffeeId = id,
            Country = countryName,
            Process = processName,
            Anaerobic = anaerobic,
            Roaster = InventedNames.Roasters[roaster],
            CountryEffect = _countryEffects[country],
            ProcessEffect = _processEffects[process],
            FermentationEffect = anaerobic ? _settings.Quality.AnaerobicEffect : 0,
            RoasterEffect = _roasterEffects[roaster],
            LotEffect = lot,
            BrewerDeviations = brewers,
            RoasterRecipeDeviation = recipe,
            RoasterBrewingEffect = method.EffectOf(RoasterRecipes[roaster]),
            AttributeDeviations = attributes,
            Notes = _settings.WithTexts ? NoteLexicon.Draw(process, random.Split(0)) : [],
            Bags = ReadOnlyCollection<BagTruth>.Empty,
        };
        return new CoffeeDraft(coffee, truth, roaster, process, roastLevel);
    }

    private ShelfBag DrawBag(int index, int coffee, CoffeeDraft draft, int opening, bool isControl, RandomStream random)
    {
        var schedule = _settings.Schedule;
        var rest = _settings.Rest;
        var age = Chance.Between(schedule.OpeningRestFrom, schedule.OpeningRestTo, random);
        var daysOpen = Chance.Between(schedule.DaysOpenFrom, schedule.DaysOpenTo, random);
        var batch = _settings.Quality.BagStandardDeviation * random.NextNormal();
        var peak = rest.PeakOf(draft.Truth.Process, draft.Truth.Anaerobic, draft.RoastLevel)
            * Math.Max(0.4, 1 + rest.PeakBagStandardDeviation * random.NextNormal());
        var weight = WeightFor(isControl ? schedule.ControlDoses : 1.6 * _settings.Cups / _settings.Bags, random.NextInt32(4) switch { 0 => 200, 3 => 350, _ => 250 });
        var obtained = random.NextInt32(20) switch { < 14 => "bought", < 17 => "sample", < 19 => "gift", _ => "sponsored" };
        var price = 10 + 0.5 * random.NextInt32(17) + (IsRenowned(draft.Roaster) ? 3 : 0);

        // The control bag rests a fortnight, and its doses go into the freezer on the day it is opened.
        var roastDay = isControl ? opening - 14 : opening - age;
        var lastDay = isControl ? _calendar.DayCount - 1 : opening + daysOpen;
        var trend = _settings.Quality.BuyingTrendPerYear * (roastDay - _calendar.MidYear) / _calendar.DayCount;
        var truth = new BagTruth(Invariant("b", index + 1, 3), batch, trend, rest.Depth, peak) { StaysAtPeak = rest.StaysAtPeak };
        var bag = new Bag
        {
            Id = truth.BagId,
            Coffee = draft.Coffee,
            RoastLevel = draft.RoastLevel,
            RoastFor = "filter",
            RoastDate = _calendar.FirstDay.AddDays(roastDay),
            OpenedOn = _calendar.FirstDay.AddDays(opening),
            NetWeightGrams = weight,
            Price = obtained == "bought" ? (decimal)price : null,
            Currency = obtained == "bought" ? "EUR" : null,
            Obtained = obtained,
        };
        return new ShelfBag(bag, coffee, truth, roastDay, opening, lastDay, isControl);
    }

    /// <summary>The harvest before the year: within one year where it falls into its middle, else over two.</summary>
    private string HarvestOf(string country)
    {
        var first = (_settings.Year - 1).ToString(CultureInfo.InvariantCulture);
        return country is "Rwanda" or "Burundi" or "Peru" or "Bolivia" or "Indonesia" ? first : first + Invariant("/", _settings.Year % 100, 2);
    }

    /// <summary>Grams of a bag: a usual size, or as many quarter kilograms as so many cups of 15 grams need.</summary>
    private static double WeightFor(double cups, double usual) => 15 * cups <= usual ? usual : 250 * Math.Ceiling(15 * cups / 250);

    private static double[] Normals(int count, double standardDeviation, RandomStream random)
    {
        var values = new double[count];
        for (var i = 0; i < count; i++)
            values[i] = standardDeviation * random.NextNormal();
        return values;
    }

    private static int SkewedIndex(int count, RandomStream random)
    {
        var u = random.NextDouble();
        return Math.Min(count - 1, (int)(count * (0.5 * u + 0.5 * u * u)));
    }

    /// <summary>A prefix and a number with leading zeros.</summary>
    internal static string Invariant(string prefix, int number, int digits) =>
        prefix + number.ToString(CultureInfo.InvariantCulture).PadLeft(digits, '0');
}
