using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>Rules on bags: two that look like one coffee, one that was bought for nothing, those of which no cup is logged.</summary>
internal static class BagChecks
{
    private const int MostNamed = 8;

    public static void Run(RowsToCheck rows)
    {
        SameCoffee(rows);
        foreach (var bag in rows.Bags)
        {
            if (bag is { Price: 0, Obtained: "bought" })
            {
                rows.OnBag(bag, Severity.Doubtful, "price", "0", new CellFault(Rule.PriceOfNought,
                    "The bag was bought, and its price is nought; the value was kept.", "the price, or an empty cell where it is not known"));
            }
        }

        WithoutCups(rows);
    }

    private static void SameCoffee(RowsToCheck rows)
    {
        var first = new Dictionary<(string Roaster, string Name), Bag>(new NamePair());
        // By identifier, so that the same one of two is reported, and stays confirmed, however the file is sorted.
        foreach (var bag in rows.Bags.OrderBy(bag => bag.Id, StringComparer.Ordinal))
        {
            var coffee = bag.Coffee;
            if (coffee is not { Name: { } name, Roaster: { } roaster } || bag.IsTestEntry || first.TryAdd((roaster, name), bag))
                continue;
            var earlier = first[(roaster, name)];
            // Two identifiers that the user wrote are two coffees by the user's word; a bag without one stands for its own coffee.
            var stated = coffee.Id != bag.Id && earlier.Coffee.Id != earlier.Id;
            if (coffee.Id == earlier.Coffee.Id || stated || !CouldBeOne(coffee, earlier.Coffee))
                continue;
            rows.OnBag(bag, Severity.Doubtful, "coffee_id", coffee.Id == bag.Id ? "" : coffee.Id, new CellFault(Rule.SameCoffee,
                FormattableString.Invariant($"'{coffee.Label}' is the coffee of bag {earlier.Id} on line {rows.LineOfBag(earlier.Id)} too, and they share no coffee_id: they count as two coffees."),
                $"one coffee_id in both rows, such as {earlier.Coffee.Id}; or one for each, if they are two lots")
            {
                Beside = $"bag {earlier.Id}, coffee_id {earlier.Coffee.Id}",
            });
        }
    }

    private static bool CouldBeOne(Coffee one, Coffee other) =>
        Agree(one.Lot, other.Lot) && Agree(one.Harvest, other.Harvest) && Agree(one.Process, other.Process) && Agree(one.Fermentation, other.Fermentation)
        && Agree(one.Variety, other.Variety) && Agree(one.Producer, other.Producer) && Agree(one.Added, other.Added) && one.Decaf == other.Decaf
        && (one.Countries.Count == 0 || other.Countries.Count == 0 || one.Countries.SequenceEqual(other.Countries, StringComparer.OrdinalIgnoreCase));

    private static bool Agree(string? one, string? other) => one is null || other is null || one.Equals(other, StringComparison.OrdinalIgnoreCase);

    private static void WithoutCups(RowsToCheck rows)
    {
        if (rows.Cups.Length == 0)
            return;
        var brewed = new HashSet<Bag>(ReferenceEqualityComparer.Instance);
        Bag? last = null;
        foreach (var cup in rows.Cups)
        {
            // Most cups are of the bag of the cup before.
            if (!ReferenceEquals(cup.Bag, last))
                brewed.Add(last = cup.Bag);
        }

        if (brewed.Count == rows.Bags.Count)
            return;
        var without = rows.Bags.Where(bag => !brewed.Contains(bag)).ToList();
        var named = string.Join(", ", without.Take(MostNamed).Select(bag => bag.Id)) + (without.Count > MostNamed ? ", …" : "");
        rows.BagReports.AboutFile(rows.LineOfBag(without[0].Id), "bag_id", named, new CellFault(Rule.BagWithoutCups,
            $"{NumberText.Count(without.Count, "bag")} without a cup; kept, and in no analysis of cups.", "nothing, if none was brewed"));
    }

    private sealed class NamePair : IEqualityComparer<(string Roaster, string Name)>
    {
        public bool Equals((string Roaster, string Name) x, (string Roaster, string Name) y) =>
            x.Name.Equals(y.Name, StringComparison.OrdinalIgnoreCase) && x.Roaster.Equals(y.Roaster, StringComparison.OrdinalIgnoreCase);

        public int GetHashCode((string Roaster, string Name) pair) => HashCode.Combine(
            pair.Name.GetHashCode(StringComparison.OrdinalIgnoreCase), pair.Roaster.GetHashCode(StringComparison.OrdinalIgnoreCase));
    }
}
