using TastingKit.Reading;
using static TastingKit.Checking.RowsToCheck;

namespace TastingKit.Checking;

/// <summary>Holds the doses of all cups of a bag against what it held.</summary>
internal static class BagHoldings
{
    // Bags are filled a little over what they state.
    private const double Allowance = 1.02;

    public static void Run(RowsToCheck rows) =>
        Run(rows.Cups, (crossing, fault) => rows.OnCup(crossing, Severity.Doubtful, "dose_g", Number(rows.Cups[crossing].DoseGrams!.Value), fault));

    /// <summary>Finds the bags of which more was brewed.</summary>
    /// <param name="all">The cups.</param>
    /// <param name="found">Told of the cup at which it shows, by its place, and what there is to say.</param>
    public static void Run(Tasting[] all, Action<int, CellFault> found)
    {
        var brewed = new Dictionary<Bag, double>(ReferenceEqualityComparer.Instance);
        var (bagBefore, sum) = ((Bag?)null, 0.0);
        // Cups of one bag mostly stand together: its sum is looked up where another bag begins.
        foreach (var cup in all)
        {
            if (cup is not { DoseGrams: { } dose, Bag.NetWeightGrams: not null })
                continue;
            if (!ReferenceEquals(cup.Bag, bagBefore))
            {
                if (bagBefore is not null)
                    brewed[bagBefore] = sum;
                (bagBefore, sum) = (cup.Bag, brewed.GetValueOrDefault(cup.Bag));
            }

            sum += dose;
        }

        if (bagBefore is not null)
            brewed[bagBefore] = sum;

        var over = brewed.Where(pair => pair.Value > pair.Key.NetWeightGrams * Allowance).Select(pair => pair.Key)
            .ToHashSet<Bag>(ReferenceEqualityComparer.Instance);
        if (over.Count == 0)
            return;
        foreach (var cups in Enumerable.Range(0, all.Length).Where(i => over.Contains(all[i].Bag)).GroupBy(i => all[i].Bag.Id))
        {
            var used = 0.0;
            var bag = all[cups.First()].Bag;
            var held = bag.NetWeightGrams!.Value;
            // The cup at which it shows comes first in time, wherever it stands in the file.
            var crossing = cups.OrderBy(i => all[i].TastedAt).First(i => (used += all[i].DoseGrams ?? 0) > held * Allowance);
            found(crossing, new CellFault(Rule.MoreBrewedThanHeld,
                FormattableString.Invariant($"With this cup {used:0.#} g of bag {bag.Id} are brewed, {brewed[bag]:0.#} g by its last; it held {held:0.#} g. The values were kept."),
                "doses that a bag can hold; the net weight of all of it; the bag_id of the bag it was")
            {
                Beside = FormattableString.Invariant($"{brewed[bag]:0.#} g brewed in all; net_weight_g {held:0.#}"),
            });
        }
    }
}
