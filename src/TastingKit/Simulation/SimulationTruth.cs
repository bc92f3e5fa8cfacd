namespace TastingKit;

/// <summary>A standard deviation that a year was simulated from.</summary>
/// <param name="Name">What varies.</param>
/// <param name="StandardDeviation">In score points.</param>
public sealed record VarianceComponentTruth(string Name, double StandardDeviation);

/// <summary>
/// Everything that is true of a simulated year. Expected scores stand on the scale of the taster's impression,
/// before rounding and before the ends of the scale.
/// </summary>
/// <remarks>
/// <para>
/// The standard brew that coffees are compared under is one stated brewer, recipe (house or roaster's) and effective
/// rest, brewed with the recipe's water temperature and ratio (the house recipe's: 94 °C, 16 g of water a gram), unfrozen, first in an average session, blind to the label, at mid-year
/// (2 July), with the water and equipment that the year began with, and no habit at work.
/// </para>
/// <para>
/// A coffee's expected score averages over its bags in the log, the bags' own effects included, and holds the
/// brewer's and the recipe's deviations for that coffee. A contrast of brewers or recipes leaves coffees' own deviations out:
/// it is what the brewer does to coffees of a process, or on average over the log's coffees.
/// </para>
/// </remarks>
public sealed class SimulationTruth
{
    private readonly Dictionary<string, CoffeeTruth> _coffees;
    private readonly Dictionary<string, int> _processes;
    private readonly Dictionary<string, int> _brewers;
    private readonly double[,] _brewerByProcess;
    private readonly double[] _recipeByProcess;
    private readonly HashSet<string> _ofRenown;

    internal SimulationTruth(SimulationSettings settings, ulong seed, SimulatedShelf shelf)
    {
        Settings = settings;
        Seed = seed;
        Coffees = shelf.Truths;
        _coffees = Coffees.ToDictionary(coffee => coffee.CoffeeId, StringComparer.Ordinal);
        _brewerByProcess = shelf.BrewerByProcess;
        _recipeByProcess = shelf.RecipeByProcess;
        _ofRenown = [.. Coffees.Index().Where(coffee => shelf.IsRenowned(shelf.RoasterOf[coffee.Index])).Select(coffee => coffee.Item.CoffeeId)];
        _brewers = settings.Method.Brewers.Index().ToDictionary(item => item.Item.Name, item => item.Index, StringComparer.Ordinal);
        _processes = InventedNames.Processes.Take(settings.Processes).Index()
            .ToDictionary(item => item.Item, item => item.Index, StringComparer.Ordinal);
    }

    /// <summary>The settings the year was simulated from, with the effects that are the same every year.</summary>
    public SimulationSettings Settings { get; }

    /// <summary>The seed the year was simulated from.</summary>
    public ulong Seed { get; }

    /// <summary>The coffees, in the log's order, each with its effects.</summary>
    public IReadOnlyList<CoffeeTruth> Coffees { get; }

    /// <summary>The processes the year can have, in the order of the settings.</summary>
    public IReadOnlyCollection<string> Processes => _processes.Keys;

    /// <summary>The standard deviations the year was drawn with.</summary>
    public IReadOnlyList<VarianceComponentTruth> VarianceComponents =>
    [
        new("country", Settings.Quality.CountryStandardDeviation),
        new("process", Settings.Quality.ProcessStandardDeviation),
        new("roaster", Settings.Quality.RoasterStandardDeviation),
        new("lot", Settings.Quality.LotStandardDeviation),
        new("bag", Settings.Quality.BagStandardDeviation),
        new("brewer by process", Settings.Method.BrewerByProcessStandardDeviation),
        new("brewer by coffee", Settings.Method.BrewerByCoffeeStandardDeviation),
        new("recipe by process", Settings.Method.RecipeByProcessStandardDeviation),
        new("recipe by coffee", Settings.Method.RecipeByCoffeeStandardDeviation),
        new("session", Settings.Taster.SessionStandardDeviation),
        new("bag and day", Settings.Taster.BagDayStandardDeviation),
        new("repeat", Settings.Taster.RepeatStandardDeviation),
    ];

    /// <summary>What is true of one coffee.</summary>
    /// <exception cref="ArgumentException">The year has no such coffee.</exception>
    public CoffeeTruth CoffeeOf(string coffeeId) =>
        _coffees.GetValueOrDefault(coffeeId)
        ?? throw new ArgumentException($"The simulated year has no coffee '{coffeeId}'; it has '{Coffees[0].CoffeeId}' to '{Coffees[^1].CoffeeId}'.", nameof(coffeeId));

    /// <summary>A coffee's expected score under one standard brew.</summary>
    /// <param name="coffeeId">The coffee.</param>
    /// <param name="brewer">The brewer, as named in the settings.</param>
    /// <param name="recipeFrom"><see cref="SimulatedMethod.House"/> or <see cref="SimulatedMethod.Roaster"/>.</param>
    /// <param name="restDays">Effective rest in days; not negative.</param>
    /// <returns>Score points.</returns>
    /// <exception cref="ArgumentException">The year has no such coffee, brewer or recipe.</exception>
    public double ExpectedScore(string coffeeId, string brewer, string recipeFrom, double restDays)
    {
        var coffee = CoffeeOf(coffeeId);
        return Settings.Taster.Mean + coffee.Quality + Departure(coffee, brewer, recipeFrom, restDays);
    }

    /// <summary>An attribute's expected value under one standard brew, on the attribute's own scale.</summary>
    /// <param name="attribute">The attribute, or the score.</param>
    /// <param name="coffeeId">The coffee.</param>
    /// <param name="brewer">The brewer, as named in the settings.</param>
    /// <param name="recipeFrom"><see cref="SimulatedMethod.House"/> or <see cref="SimulatedMethod.Roaster"/>.</param>
    /// <param name="restDays">Effective rest in days; not negative.</param>
    /// <exception cref="ArgumentException">The year has no such attribute, coffee, brewer or recipe.</exception>
    public double ExpectedValue(TastingAttribute attribute, string coffeeId, string brewer, string recipeFrom, double restDays)
    {
        if (attribute.Equals(TastingAttribute.Score))
            return ExpectedScore(coffeeId, brewer, recipeFrom, restDays);
        var coffee = CoffeeOf(coffeeId);
        var setting = SettingOf(attribute);
        return setting.Mean + setting.CoffeeLoading * coffee.Quality
            + setting.CupLoading * Departure(coffee, brewer, recipeFrom, restDays)
            + setting.ByProcess.GetValueOrDefault(coffee.Process) + setting.ByBrewer.GetValueOrDefault(brewer)
            + coffee.AttributeDeviations[attribute];
    }

    /// <summary>Points that a brewer adds to coffees of a process, against the same reference for every brewer.</summary>
    /// <exception cref="ArgumentException">The year has no such brewer or process.</exception>
    public double BrewerEffect(string brewer, string process)
    {
        var b = BrewerIndex(brewer);
        return Settings.Method.Brewers[b].Effect + _brewerByProcess[b, ProcessIndex(process)];
    }

    /// <summary>Points by which one brewer's cups are better than another's of the same coffee.</summary>
    /// <param name="brewer">The one.</param>
    /// <param name="against">The other.</param>
    /// <param name="process">The coffees' base process; <see langword="null"/> for the mean over the log's coffees, each counted once.</param>
    /// <exception cref="ArgumentException">The year has no such brewer or process.</exception>
    public double BrewerContrast(string brewer, string against, string? process = null) =>
        process is not null
            ? BrewerEffect(brewer, process) - BrewerEffect(against, process)
            : Coffees.Average(coffee => BrewerEffect(brewer, coffee.Process) - BrewerEffect(against, coffee.Process));

    /// <summary>
    /// Points by which cups of the roaster's recipe are better than cups of the house recipe of the same coffee, what the recipe's own
    /// water temperature and ratio do included.
    /// </summary>
    /// <param name="process">The coffees' base process; <see langword="null"/> for the mean over the log's coffees, each counted once.</param>
    /// <exception cref="ArgumentException">The year has no such process.</exception>
    public double RoasterRecipeContrast(string? process = null) =>
        process is not null
            ? RoasterRecipeEffect(process) + Coffees.Where(coffee => coffee.Process == process).Select(coffee => coffee.RoasterBrewingEffect).DefaultIfEmpty().Average()
            : Coffees.Average(coffee => RoasterRecipeEffect(coffee.Process) + coffee.RoasterBrewingEffect);

    /// <summary>Points that the roaster's recipe adds to coffees of a process, its own water temperature and ratio left out.</summary>
    /// <exception cref="ArgumentException">The year has no such process.</exception>
    public double RoasterRecipeEffect(string process) => Settings.Method.RoasterRecipeEffect + _recipeByProcess[ProcessIndex(process)];

    /// <summary>Points of an attribute's scale by which one brewer's cups differ from another's of the same coffee.</summary>
    /// <param name="attribute">The attribute, or the score.</param>
    /// <param name="brewer">The one.</param>
    /// <param name="against">The other.</param>
    /// <param name="process">The coffees' base process; <see langword="null"/> for the mean over the log's coffees, each counted once.</param>
    /// <exception cref="ArgumentException">The year has no such attribute, brewer or process.</exception>
    public double BrewerContrast(TastingAttribute attribute, string brewer, string against, string? process = null)
    {
        var ofScore = BrewerContrast(brewer, against, process);
        if (attribute.Equals(TastingAttribute.Score))
            return ofScore;
        var setting = SettingOf(attribute);
        return setting.CupLoading * ofScore + setting.ByBrewer.GetValueOrDefault(brewer) - setting.ByBrewer.GetValueOrDefault(against);
    }

    /// <summary>The day of effective rest at which coffees of a kind are at their best; a bag's own peak scatters about it.</summary>
    /// <param name="process">Base process.</param>
    /// <param name="anaerobic">Whether fermented without air.</param>
    /// <param name="roastLevel">light, medium or dark.</param>
    /// <exception cref="ArgumentException">The settings have no such process.</exception>
    public double PeakRestDays(string process, bool anaerobic, string roastLevel) => Settings.Rest.PeakOf(process, anaerobic, roastLevel);

    /// <summary>Points that seeing a bag's label adds to a cup of it.</summary>
    /// <param name="bag">A bag of the year's log.</param>
    public double LabelAdds(Bag bag)
    {
        ArgumentNullException.ThrowIfNull(bag);
        return Settings.Taster.LabelAdds(bag, _ofRenown.Contains(bag.Coffee.Id));
    }

    /// <summary>The scale's drift in points a year.</summary>
    public double DriftPerYear => Settings.Taster.DriftPerYear;

    private double Departure(CoffeeTruth coffee, string brewer, string recipeFrom, double restDays)
    {
        ArgumentOutOfRangeException.ThrowIfNegative(restDays);
        var recipe = recipeFrom switch
        {
            SimulatedMethod.House => 0,
            SimulatedMethod.Roaster => RoasterRecipeEffect(coffee.Process) + coffee.RoasterBrewingEffect + coffee.RoasterRecipeDeviation,
            _ => throw new ArgumentException(
                $"The recipe is '{recipeFrom}'; a simulated year knows '{SimulatedMethod.House}' and '{SimulatedMethod.Roaster}'.", nameof(recipeFrom)),
        };
        return BrewerEffect(brewer, coffee.Process) + coffee.BrewerDeviations[brewer] + recipe
            + coffee.Bags.Average(bag => bag.RestEffect(restDays));
    }

    private SimulatedAttribute SettingOf(TastingAttribute attribute) =>
        Settings.Attributes.FirstOrDefault(candidate => candidate.Attribute.Equals(attribute))
        ?? throw new ArgumentException($"The simulated year has no attribute '{attribute}'.", nameof(attribute));

    private int BrewerIndex(string brewer) =>
        _brewers.TryGetValue(brewer, out var index)
            ? index
            : throw new ArgumentException($"The simulated year has no brewer '{brewer}'; it has {string.Join(", ", _brewers.Keys)}.", nameof(brewer));

    private int ProcessIndex(string process) =>
        _processes.TryGetValue(process, out var index)
            ? index
            : throw new ArgumentException($"The simulated year has no process '{process}'; it has {string.Join(", ", _processes.Keys)}.", nameof(process));
}
