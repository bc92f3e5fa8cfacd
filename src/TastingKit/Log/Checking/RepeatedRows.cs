using System.Numerics;
using TastingKit.Reading;

namespace TastingKit.Checking;

/// <summary>
/// Finds rows that say the same as an earlier one in all but their identifier. They are worth knowing and no fault: a cup can be scored alike twice.
/// </summary>
/// <remarks>
/// What rows say is sorted into parts first, each of which is then looked through in a table that stays at hand: to look for a million in one
/// large table waits for memory at every row.
/// </remarks>
internal static class RepeatedRows
{
    private const int RowsAPart = 2048;

    public static void Run(RowsToCheck rows) => Find(rows.Contents, (earlier, later) => rows.OnCup(later, Severity.Information, "", "", Fault(rows.LineOfCup(earlier))));

    /// <summary>What is said of the later of two rows.</summary>
    /// <param name="line">The line of the earlier one.</param>
    public static CellFault Fault(int line) => new(
        Rule.RepeatedRow, FormattableString.Invariant($"It says the same as line {line}, the identifier left out."), "nothing, if it is no copy");

    /// <summary>Finds them, in the order of the file.</summary>
    /// <param name="contents">What each row says (<see cref="RowReports.Content"/>).</param>
    /// <param name="found">Told of the first row that says so and of a later one, by their places.</param>
    public static void Find(List<ulong> contents, Action<int, int> found)
    {
        var parts = (int)BitOperations.RoundUpToPowerOf2((uint)(contents.Count / RowsAPart + 1));
        var ends = new int[parts];
        for (var i = 0; i < contents.Count; i++)
            ends[PartOf(contents[i])]++;
        for (var part = 1; part < parts; part++)
            ends[part] += ends[part - 1];
        var sorted = new (ulong Content, int Row)[contents.Count];
        for (var i = contents.Count - 1; i >= 0; i--)
            sorted[--ends[PartOf(contents[i])]] = (contents[i], i);

        // From here on each part begins where it was said to end.
        var places = new int[2 * RowsAPart];
        var like = new List<(int Later, int Earlier)>();
        for (var part = 0; part < parts; part++)
            FindWithin(sorted.AsSpan(ends[part]..(part + 1 < parts ? ends[part + 1] : sorted.Length)), ref places, like);
        like.Sort();
        foreach (var (later, earlier) in like)
            found(earlier, later);

        int PartOf(ulong content) => (int)(content >> 32) & (parts - 1);
    }

    /// <summary>Finds those of one part, by a table of their places counted from 1, each in the first free one from where it belongs.</summary>
    private static void FindWithin(ReadOnlySpan<(ulong Content, int Row)> rows, ref int[] places, List<(int Later, int Earlier)> like)
    {
        // As large as this part needs: after one part with most of the rows, clearing it whole for each other would take longest.
        var size = (int)BitOperations.RoundUpToPowerOf2((uint)(2 * rows.Length));
        if (size > places.Length)
            places = new int[size];
        var table = places.AsSpan(0, size);
        table.Clear();
        for (var i = 0; i < rows.Length; i++)
        {
            var at = (int)rows[i].Content & (size - 1);
            while (table[at] != 0 && rows[table[at] - 1].Content != rows[i].Content)
                at = (at + 1) & (size - 1);
            if (table[at] == 0)
                table[at] = i + 1;
            else
                like.Add((rows[i].Row, rows[table[at] - 1].Row));
        }
    }
}
