namespace TastingKit;

/// <summary>Finds the pairs of a coded cup and one whose label was seen.</summary>
internal static class LabelPairs
{
    private const int FewestOtherCoffees = 2;

    public static IReadOnlyList<LabelPair> Of(IReadOnlyList<Tasting> cups, TastingAttribute attribute)
    {
        Tasting[][] sets = [.. RepeatCups.BrewedAlike(cups).Where(set => set.Any(LabelPair.IsHidden) && !set.All(LabelPair.IsHidden))];
        var paired = sets.SelectMany(set => set).ToHashSet(ReferenceEqualityComparer.Instance);
        // Cups of the pairs stay out of reputations, so that one cup's chance does not stand on both sides.
        var means = cups.Where(cup => !LabelPair.IsHidden(cup) && !paired.Contains(cup) && cup.Bag.Coffee.Roaster is not null)
            .GroupBy(cup => cup.Bag.Coffee.Id).Select(coffee => (coffee.First().Bag.Coffee, Mean: coffee.Average(cup => cup.ValueOf(attribute)!.Value)))
            .ToLookup(coffee => coffee.Coffee.Roaster!, StringComparer.OrdinalIgnoreCase);
        var bagsAtSittings = cups.GroupBy(Sitting).ToDictionary(sitting => sitting.Key, sitting => sitting.Select(cup => cup.Bag.Id).Distinct().Count());
        return [.. sets.Select(set => Pair(set)).OrderBy(pair => pair.TastedOn)];

        LabelPair Pair(Tasting[] set)
        {
            Tasting[] hidden = [.. set.Where(LabelPair.IsHidden)], seen = [.. set.Where(cup => !LabelPair.IsHidden(cup))];
            var coffee = set[0].Bag.Coffee;
            double[] others = coffee.Roaster is null ? [] : [.. means[coffee.Roaster].Where(other => other.Coffee.Id != coffee.Id).Select(other => other.Mean)];
            return new LabelPair(
                set[0].Bag, set[0].TastedOn, seen.Average(Value) - hidden.Average(Value), PlacesLater(seen, hidden), set.Length, bagsAtSittings[Sitting(set[0])] == 1,
                others.Length < FewestOtherCoffees ? null : others.Average());
        }

        double Value(Tasting cup) => cup.ValueOf(attribute)!.Value;
    }

    private static (string?, DateOnly) Sitting(Tasting cup) => (cup.Session, cup.TastedOn);

    /// <summary>By the places logged; else by the time of day, as one place.</summary>
    private static double? PlacesLater(Tasting[] seen, Tasting[] hidden)
    {
        if (seen.Concat(hidden).All(cup => cup.Position is not null))
            return seen.Average(cup => cup.Position!.Value) - hidden.Average(cup => cup.Position!.Value);
        if (!seen.Concat(hidden).All(cup => cup.HasTimeOfDay))
            return null;
        var later = seen.Average(cup => cup.TastedAt.TimeOfDay.TotalMinutes) - hidden.Average(cup => cup.TastedAt.TimeOfDay.TotalMinutes);
        return later == 0 ? null : Math.Sign(later);
    }
}
