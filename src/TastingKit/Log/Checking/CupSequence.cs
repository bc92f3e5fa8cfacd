using TastingKit.Reading;
using static TastingKit.Checking.RowsToCheck;

namespace TastingKit.Checking;

/// <summary>Finds a day that lies far from those of the rows around it, as a slip in the year does. Only a file kept in order can show it.</summary>
internal static class CupSequence
{
    private const int FewestCups = 10;
    private const double ShareInOrder = 0.8;
    private const int Apart = 180;
    private const int Together = 45;

    public static void Run(RowsToCheck rows)
    {
        var cups = rows.Cups;
        if (cups.Length < FewestCups)
            return;
        // A million cups are fetched once: their days stand side by side.
        var days = new int[cups.Length];
        var inOrder = 0;
        var before = DateTime.MinValue;
        for (var i = 0; i < days.Length; i++)
        {
            var tastedAt = cups[i].TastedAt;
            days[i] = DateOnly.FromDateTime(tastedAt).DayNumber;
            if (i > 0 && tastedAt >= before)
                inOrder++;
            before = tastedAt;
        }

        if (inOrder < ShareInOrder * (cups.Length - 1))
            return;
        for (var i = 0; i < days.Length; i++)
        {
            // The first and the last row have two rows on one side.
            var above = i == 0 ? 1 : i == days.Length - 1 ? i - 2 : i - 1;
            var below = i == 0 ? 2 : i == days.Length - 1 ? i - 1 : i + 1;
            if (Math.Abs(days[above] - days[below]) <= Together && Math.Abs(days[above] - days[i]) >= Apart && Math.Abs(days[below] - days[i]) >= Apart)
            {
                rows.OnCup(i, Severity.Doubtful, "tasted_at", Iso(cups[i].TastedOn), new CellFault(Rule.DateOutOfSequence,
                    $"The rows beside it are of {Iso(cups[above].TastedOn)} and {Iso(cups[below].TastedOn)}; it was kept.", "a day near theirs; look at the year"));
            }
        }
    }
}
