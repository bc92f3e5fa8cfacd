namespace TastingKit;

/// <summary>The bags that a cup can be brewed from on a day, by what the log knows of their grams, their opening and the freezer.</summary>
internal sealed class BrewShelf
{
    /// <summary>Days past the longest rest tasted up to which what rest does is carried on, with a caution.</summary>
    private const int CarriedOn = 7;

    private readonly BrewCandidates _candidates;
    private readonly int? _longestRest;
    private readonly HashSet<string>? _coffees;

    /// <param name="log">The log.</param>
    /// <param name="scored">The cups of the model.</param>
    /// <param name="candidates">What may be chosen.</param>
    /// <param name="isWithinCoffees">Whether brews are compared within coffees, of which a first cup says nothing.</param>
    public BrewShelf(TastingLog log, IReadOnlyList<Tasting> scored, BrewCandidates candidates, bool isWithinCoffees)
    {
        _coffees = isWithinCoffees ? [.. scored.Select(cup => cup.Bag.Coffee.Id)] : null;
        _candidates = candidates;
        double[] doses = [.. log.Tastings.Select(cup => cup.DoseGrams).OfType<double>().Order()];
        Dose = candidates.DoseGrams ?? (doses.Length > 0 ? doses[doses.Length / 2] : null);
        LastCup = log.Tastings.Max(cup => cup.TastedAt);
        _longestRest = scored.Max(cup => cup.RestDays);
        var cups = log.Tastings.ToLookup(cup => cup.Bag.Id);
        Bags = [.. log.Bags.Where(bag => !bag.IsTestEntry).Select(bag => StockOf(bag, [.. cups[bag.Id]]))];
        Unknown("bag", candidates.Bags.Concat(candidates.GramsLeft.Keys), [.. log.Bags.Select(bag => bag.Id)]);
    }

    /// <summary>Grams of a whole dose; nothing where no cup of the log has one and none is given.</summary>
    public double? Dose { get; }

    public DateTime LastCup { get; }

    public IReadOnlyList<BagStock> Bags { get; }

    /// <summary>Why a bag is not considered on a day; nothing where it is.</summary>
    public string? ReasonAgainst(BagStock stock, DateOnly day)
    {
        if (_candidates.Bags.Count > 0 && !_candidates.Bags.Contains(stock.Bag.Id))
            return "not among those named";
        if (stock.IsControl && _candidates.Bags.Count == 0)
            return "kept for control doses";
        if (_coffees?.Contains(stock.Bag.Coffee.Id) == false)
            return "of a coffee without a scored cup, whose first one says nothing within coffees";
        if (stock.GramsLeft is not { } grams)
            return "without a net weight or grams left";
        if (Dose is not { } dose)
            return "of a dose that no cup tells";
        if (grams < _candidates.GramsOf(dose) - 1e-9)
            return "with less than a dose left";
        if (stock.Bag.RoastDate > day)
            return "roasted later than that day";
        return !_candidates.RestBeyondTasted && _longestRest is { } longest && stock.RestOn(day) > longest + CarriedOn
            ? $"rested over a week longer than any cup tasted ({longest} days)"
            : null;
    }

    /// <summary>Refuses a name that the log does not have.</summary>
    public static void Unknown(string kind, IEnumerable<string> named, IReadOnlyList<string> known)
    {
        if (named.FirstOrDefault(name => !known.Contains(name)) is { } unknown)
        {
            throw new ArgumentException(
                $"The log has no {kind} '{unknown}' that can be asked about; it has {(known.Count == 0 ? "none" : string.Join(", ", known.Take(40).Select(name => $"'{name}'")))}{(known.Count > 40 ? " and others" : "")}.");
        }
    }

    private BagStock StockOf(Bag bag, IReadOnlyList<Tasting> cups)
    {
        var last = cups.MaxBy(cup => cup.TastedAt);
        var guessed = cups.Count(cup => cup.DoseGrams is null);
        double? grams = _candidates.GramsLeft.TryGetValue(bag.Id, out var weighed) ? weighed
            : bag.NetWeightGrams is not { } net || (Dose is null && guessed > 0) ? null
            : Math.Max(0, net - cups.Sum(cup => cup.DoseGrams ?? Dose!.Value));
        return new BagStock(
            bag, grams, _candidates.GramsLeft.ContainsKey(bag.Id) ? 0 : guessed, cups.Count == 0 && bag.OpenedOn is null, last?.FrozenOn,
            cups.Count > 0 && cups.All(cup => cup.Purpose == Purpose.Control));
    }
}

/// <summary>What is left of a bag.</summary>
/// <param name="Bag">The bag.</param>
/// <param name="GramsLeft">Grams left; nothing where neither a net weight nor a weighing is known.</param>
/// <param name="DosesGuessed">Cups of it without a dose, for which the middle dose stands in.</param>
/// <param name="IsSealed">Whether nothing says that it was opened.</param>
/// <param name="FrozenOn">The day its doses went into the freezer, by its last cup; nothing where that was not frozen.</param>
/// <param name="IsControl">Whether all its cups are control doses.</param>
internal sealed record BagStock(Bag Bag, double? GramsLeft, int DosesGuessed, bool IsSealed, DateOnly? FrozenOn, bool IsControl)
{
    /// <summary>Effective rest on a day; a dose from the freezer is thawed on that day.</summary>
    public int? RestOn(DateOnly day) => Cup(day, null, null, null, "").RestDays;

    /// <summary>A cup that could be brewed of it.</summary>
    /// <param name="day">The day.</param>
    /// <param name="brewer">The brewer.</param>
    /// <param name="recipeFrom">Whose recipe.</param>
    /// <param name="position">Its place in the sitting.</param>
    /// <param name="session">The sitting.</param>
    /// <param name="taster">Who tastes.</param>
    /// <param name="like">A cup whose filter, grinder, water, dose and temperature it takes over.</param>
    public Tasting Cup(DateOnly day, string? brewer, string? recipeFrom, int? position, string session, string? taster = null, Tasting? like = null) => new()
    {
        Id = "planned",
        Bag = Bag,
        TastedAt = day.ToDateTime(TimeOnly.MinValue),
        Brewer = brewer,
        RecipeFrom = recipeFrom,
        Recipe = like?.Recipe,
        Filter = like?.Filter,
        Grinder = like?.Grinder,
        Grind = like?.Grind,
        Water = like?.Water,
        DoseGrams = like?.DoseGrams,
        WaterGrams = like?.WaterGrams,
        StatedRatio = like?.StatedRatio,
        WaterCelsius = like?.WaterCelsius,
        Position = position,
        Session = session,
        Taster = taster,
        FrozenOn = FrozenOn,
    };
}
