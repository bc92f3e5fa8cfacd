using System.Globalization;
using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>Finds two cups of one bag, brewer and taster in one minute. Cups with no time of day, or that stand at two places of a session, are none.</summary>
internal static class LikeCups
{
    public static void Run(RowsToCheck rows)
    {
        var cups = rows.Cups;
        int[]? order = null;
        for (var i = 1; i < cups.Length; i++)
        {
            if (cups[i].TastedAt < cups[i - 1].TastedAt)
            {
                order = [.. Enumerable.Range(0, cups.Length)];
                Array.Sort(order, (a, b) => cups[a].TastedAt.CompareTo(cups[b].TastedAt) is not 0 and var byTime ? byTime : a.CompareTo(b));
                break;
            }
        }

        var first = 0;
        for (var i = 1; i <= cups.Length; i++)
        {
            if (i < cups.Length && Minute(cups[At(i)]) == Minute(cups[At(first)]))
                continue;
            if (i - first > 1)
                Compare(Enumerable.Range(first, i - first).Select(At).Where(index => cups[index].HasTimeOfDay), rows);
            first = i;
        }

        int At(int place) => order is null ? place : order[place];
    }

    private static void Compare(IEnumerable<int> ofOneMinute, RowsToCheck rows)
    {
        var seen = new Dictionary<(string Bag, string? Brewer, string? Taster), int>();
        // By identifier, so that the same one of two is reported, and stays confirmed, however the file is sorted.
        foreach (var index in ofOneMinute.OrderBy(index => rows.Cups[index].Id, StringComparer.Ordinal))
        {
            var cup = rows.Cups[index];
            var key = (cup.Bag.Id, cup.Brewer, cup.Taster);
            if (seen.TryAdd(key, index))
                continue;
            var earlier = rows.Cups[seen[key]];
            if (cup.Position is { } place && earlier.Position is { } other && place != other)
                continue;
            rows.OnCup(index, Severity.Doubtful, "tasted_at", cup.TastedAt.ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture), new CellFault(Rule.NearDuplicate,
                FormattableString.Invariant($"Line {rows.LineOfCup(seen[key])} has a cup of the same bag and brewer in the same minute; both were kept."),
                "one row a cup; position where two stood side by side")
            {
                Beside = $"cup {earlier.Id}",
            });
        }
    }

    private static long Minute(Tasting cup) => cup.TastedAt.Ticks / TimeSpan.TicksPerMinute;
}
