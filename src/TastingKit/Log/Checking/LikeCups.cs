using System.Globalization;
using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>Finds two cups of one bag, brewer and taster in one minute. Cups with no time of day, or that stand at two places of a session, are none.</summary>
internal static class LikeCups
{
    public static void Run(RowsToCheck rows) => Run(rows.Cups, (earlier, index) =>
        rows.OnCup(index, Severity.Doubtful, "tasted_at", Minute(rows.Cups[index].TastedAt), Fault(FormattableString.Invariant($"Line {rows.LineOfCup(earlier)}"), rows.Cups[earlier])));

    /// <summary>When a cup was tasted, as reports write it.</summary>
    public static string Minute(DateTime moment) => moment.ToString("yyyy-MM-dd'T'HH:mm", CultureInfo.InvariantCulture);

    /// <summary>What is said of the later of two cups.</summary>
    /// <param name="place">Where the other stands.</param>
    /// <param name="earlier">The other.</param>
    public static CellFault Fault(string place, Tasting earlier) => new(Rule.NearDuplicate,
        $"{place} has a cup of the same bag and brewer in the same minute; both were kept.", "one row a cup; position where two stood side by side")
    {
        Beside = $"cup {earlier.Id}",
    };

    /// <summary>Finds them.</summary>
    /// <param name="cups">The cups.</param>
    /// <param name="found">Told of two, by their places.</param>
    public static void Run(Tasting[] cups, Action<int, int> found)
    {
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

        var (first, minute) = (0, long.MinValue);
        for (var i = 0; i <= cups.Length; i++)
        {
            var next = i < cups.Length ? Minute(cups[At(i)]) : long.MaxValue;
            if (next == minute)
                continue;
            if (i - first > 1)
                Compare(Enumerable.Range(first, i - first).Select(At).Where(index => cups[index].HasTimeOfDay), cups, found);
            (first, minute) = (i, next);
        }

        int At(int place) => order is null ? place : order[place];
    }

    private static void Compare(IEnumerable<int> ofOneMinute, Tasting[] cups, Action<int, int> found)
    {
        var seen = new Dictionary<(string Bag, string? Brewer, string? Taster), int>();
        // By identifier, so that the same one of two is reported, and stays confirmed, however the file is sorted.
        foreach (var index in ofOneMinute.OrderBy(index => cups[index].Id, StringComparer.Ordinal))
        {
            var cup = cups[index];
            var key = (cup.Bag.Id, cup.Brewer, cup.Taster);
            if (seen.TryAdd(key, index))
                continue;
            if (cup.Position is { } place && cups[seen[key]].Position is { } other && place != other)
                continue;
            found(seen[key], index);
        }
    }

    private static long Minute(Tasting cup) => cup.TastedAt.Ticks / TimeSpan.TicksPerMinute;
}
