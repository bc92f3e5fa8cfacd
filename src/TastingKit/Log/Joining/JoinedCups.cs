using TastingKit.Checking;

namespace TastingKit.Joining;

/// <summary>The cups of all folders, each with where it comes from, and what only shows when they are held together.</summary>
internal sealed class JoinedCups
{
    private readonly List<Tasting> _cups = [];
    private readonly List<(FolderLog Folder, Tasting Cup)> _origins = [];

    /// <summary>The cups.</summary>
    public IReadOnlyList<Tasting> Cups => _cups;

    /// <summary>Adds a cup.</summary>
    /// <param name="folder">Its folder.</param>
    /// <param name="cup">The cup as it stands there.</param>
    /// <param name="joined">The same in the joined log.</param>
    public void Add(FolderLog folder, Tasting cup, Tasting joined)
    {
        _cups.Add(joined);
        _origins.Add((folder, cup));
    }

    /// <summary>Reports what the folders say together and none of them alone: a cup logged in two years, a bag that two years brewed more of than it held.</summary>
    public void Check()
    {
        Tasting[] cups = [.. _cups];
        LikeCups.Run(cups, (earlier, later) =>
        {
            var (folder, cup) = _origins[later];
            if (folder != _origins[earlier].Folder)
                folder.OnCup(cup, Severity.Doubtful, "tasted_at", LikeCups.Minute(cup.TastedAt), LikeCups.Fault(_origins[earlier].Folder.PlaceOf(_origins[earlier].Cup), cups[earlier]));
        });
        BagHoldings.Run(cups, (crossing, fault) =>
        {
            var (folder, cup) = _origins[crossing];
            var bag = cups[crossing].Bag;
            // What one folder shows by itself is reported there.
            var ofBag = Enumerable.Range(0, cups.Length).Where(i => cups[i].Bag.Id == bag.Id).GroupBy(i => _origins[i].Folder);
            if (!ofBag.Any(inFolder => IsOver([.. inFolder.Select(i => cups[i])])))
                folder.OnCup(cup, Severity.Doubtful, "dose_g", RowsToCheck.Number(cup.DoseGrams!.Value), fault);
        });
    }

    private static bool IsOver(Tasting[] cups)
    {
        var isOver = false;
        BagHoldings.Run(cups, (_, _) => isOver = true);
        return isOver;
    }
}
