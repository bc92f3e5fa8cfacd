using System.Collections.ObjectModel;
using TastingKit.Reading;
using TastingKit.Writing;

namespace TastingKit.Joining;

/// <summary>The bags of several folders: those that go on from one to the next are one, those that only share an identifier get one of their own.</summary>
internal sealed class JoinedBags
{
    private readonly List<Bag> _bags = [];
    private readonly Dictionary<string, int> _places = new(StringComparer.Ordinal);
    private readonly Dictionary<string, List<int>> _bagsOfCoffee = new(StringComparer.Ordinal);
    private readonly Dictionary<string, (Coffee Coffee, string Label)> _coffees = new(StringComparer.Ordinal);
    private readonly Dictionary<(FolderLog Folder, string Id), string> _ids = [];

    /// <summary>The bags, in the order of folders and files.</summary>
    public IReadOnlyList<Bag> Bags => _bags;

    /// <summary>The identifier that a folder's bag has now.</summary>
    public string IdOf(FolderLog folder, string bagId) => _ids[(folder, bagId)];

    /// <summary>The bag that a folder's bag is now.</summary>
    public Bag Of(FolderLog folder, string bagId) => _bags[_places[IdOf(folder, bagId)]];

    /// <summary>Adds the bags of a folder.</summary>
    public void Add(FolderLog folder)
    {
        var reused = new List<string>();
        var coffeesReused = new List<string>();
        foreach (var bag in folder.Log.Bags)
        {
            if (_places.TryGetValue(bag.Id, out var place) && IsOne(_bags[place], bag))
            {
                _ids.Add((folder, bag.Id), bag.Id);
                GoOn(folder, place, bag);
                continue;
            }

            var id = Unused(folder, bag.Id, _places.ContainsKey, reused);
            _ids.Add((folder, bag.Id), id);
            _places.Add(id, _bags.Count);
            var coffee = CoffeeOf(folder, bag, id, coffeesReused);
            _bags.Add(bag with { Id = id, Coffee = coffee });
            if (!_bagsOfCoffee.TryGetValue(coffee.Id, out var ofCoffee))
                _bagsOfCoffee.Add(coffee.Id, ofCoffee = []);
            ofCoffee.Add(_bags.Count - 1);
        }

        folder.IdsReused(folder.BagsFile, "bag_id", reused);
        folder.IdsReused(folder.BagsFile, "coffee_id", coffeesReused);
    }

    /// <summary>An identifier; with the folder's name in front where another thing has it.</summary>
    public static string Unused(FolderLog folder, string id, Func<string, bool> isUsed, List<string> reused)
    {
        if (!isUsed(id))
            return id;
        reused.Add(id);
        var own = $"{folder.Label}/{id}";
        while (isUsed(own))
            own += "+";
        return own;
    }

    private static bool IsOne(Bag first, Bag second) =>
        Agree(first.Coffee.Name, second.Coffee.Name) && Agree(first.Coffee.Roaster, second.Coffee.Roaster)
        && (first.RoastDate is null || second.RoastDate is null || first.RoastDate == second.RoastDate)
        && ((first.Coffee.Name is not null && second.Coffee.Name is not null) || !LogDifference.Of(first, second).Any());

    private static bool Agree(string? one, string? other) => one is null || other is null || Words.Folded(one) == Words.Folded(other);

    /// <summary>Takes what a later folder says more of a bag, and reports what it says otherwise.</summary>
    private void GoOn(FolderLog folder, int place, Bag bag)
    {
        var first = _bags[place];
        foreach (var (column, earlier, later) in LogDifference.Of(first, bag))
        {
            if (column is "test entry" or "other columns" or "coffee_id" || string.IsNullOrEmpty(earlier) || string.IsNullOrEmpty(later) || Agree(earlier, later))
                continue;
            folder.OnBag(bag, Severity.Doubtful, column, later, new CellFault(Rule.BagContradicts,
                $"An earlier folder says '{earlier}' of the same bag; the first statement holds.", "the same in every folder, or another bag_id"));
        }

        _bags[place] = first with
        {
            Coffee = Filled(first.Coffee, bag.Coffee),
            RoastLevel = first.RoastLevel ?? bag.RoastLevel,
            RoastFor = first.RoastFor ?? bag.RoastFor,
            RoastDate = first.RoastDate ?? bag.RoastDate,
            OpenedOn = first.OpenedOn ?? bag.OpenedOn,
            NetWeightGrams = first.NetWeightGrams ?? bag.NetWeightGrams,
            Price = first.Price ?? bag.Price,
            Currency = first.Currency ?? bag.Currency,
            Obtained = first.Obtained ?? bag.Obtained,
            OtherColumns = Filled(first.OtherColumns, bag.OtherColumns),
            AsWritten = Filled(first.AsWritten, TextsTakenOver(first, bag)),
        };
        Share(_bags[place].Coffee, folder.Label);
    }

    /// <summary>What a later folder writes for the values that are taken from it.</summary>
    private static Dictionary<string, string> TextsTakenOver(Bag first, Bag later) => later.AsWritten.Where(pair => pair.Key switch
    {
        "roast_date" => first.RoastDate is null,
        "opened_on" => first.OpenedOn is null,
        "net_weight_g" => first.NetWeightGrams is null,
        "price" => first.Price is null,
        "decaf" => first.Coffee.Decaf is null,
        "roast_for" => first.RoastFor is null,
        "obtained" => first.Obtained is null,
        _ => false,
    }).ToDictionary(StringComparer.Ordinal);

    private Coffee CoffeeOf(FolderLog folder, Bag bag, string id, List<string> reused)
    {
        var standsForItself = bag.Coffee.Id == bag.Id;
        var coffeeId = standsForItself ? id : bag.Coffee.Id;
        if (!_coffees.TryGetValue(coffeeId, out var known))
        {
            Share(bag.Coffee with { Id = coffeeId }, folder.Label);
            return _coffees[coffeeId].Coffee;
        }

        // The same folder has said already what it has to say of its own coffee.
        var isOne = known.Label == folder.Label || (!standsForItself && Agree(known.Coffee.Name, bag.Coffee.Name) && Agree(known.Coffee.Roaster, bag.Coffee.Roaster));
        if (isOne)
        {
            Share(Filled(known.Coffee, bag.Coffee), known.Label);
            return _coffees[coffeeId].Coffee;
        }

        var own = $"{folder.Label}/{bag.Coffee.Id}";
        if (!_coffees.ContainsKey(own))
        {
            reused.Add(bag.Coffee.Id);
            Share(bag.Coffee with { Id = own }, folder.Label);
        }

        return _coffees[own].Coffee;
    }

    /// <summary>Gives all bags of a lot the one coffee.</summary>
    private void Share(Coffee coffee, string label)
    {
        _coffees[coffee.Id] = (coffee, _coffees.TryGetValue(coffee.Id, out var known) ? known.Label : label);
        foreach (var place in _bagsOfCoffee.GetValueOrDefault(coffee.Id) ?? [])
            _bags[place] = _bags[place] with { Coffee = coffee };
    }

    private static Coffee Filled(Coffee first, Coffee later) => first with
    {
        Name = first.Name ?? later.Name,
        Roaster = first.Roaster ?? later.Roaster,
        Countries = first.Countries.Count > 0 ? first.Countries : later.Countries,
        Region = first.Region ?? later.Region,
        Producer = first.Producer ?? later.Producer,
        Lot = first.Lot ?? later.Lot,
        Harvest = first.Harvest ?? later.Harvest,
        Variety = first.Variety ?? later.Variety,
        Process = first.Process ?? later.Process,
        Fermentation = first.Fermentation ?? later.Fermentation,
        Added = first.Added ?? later.Added,
        Decaf = first.Decaf ?? later.Decaf,
        AsWritten = Filled(first.AsWritten, later.AsWritten),
    };

    private static ReadOnlyDictionary<string, string> Filled(IReadOnlyDictionary<string, string> first, IReadOnlyDictionary<string, string> later) =>
        later.Concat(first).GroupBy(pair => pair.Key).ToDictionary(group => group.Key, group => group.Last().Value, StringComparer.Ordinal).AsReadOnly();
}
