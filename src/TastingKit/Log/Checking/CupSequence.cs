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
        var inOrder = 0;
        for (var i = 1; i < cups.Length; i++)
        {
            if (cups[i].TastedAt >= cups[i - 1].TastedAt)
                inOrder++;
        }

        if (inOrder < ShareInOrder * (cups.Length - 1))
            return;
        for (var i = 0; i < cups.Length; i++)
        {
            // The first and the last row have two rows on one side.
            var above = i == 0 ? cups[1] : i == cups.Length - 1 ? cups[i - 2] : cups[i - 1];
            var below = i == 0 ? cups[2] : i == cups.Length - 1 ? cups[i - 1] : cups[i + 1];
            if (DaysBetween(above, below) <= Together && DaysBetween(above, cups[i]) >= Apart && DaysBetween(below, cups[i]) >= Apart)
            {
                rows.OnCup(i, Severity.Doubtful, "tasted_at", Iso(cups[i].TastedOn), new CellFault(Rule.DateOutOfSequence,
                    $"The rows beside it are of {Iso(above.TastedOn)} and {Iso(below.TastedOn)}; it was kept.", "a day near theirs; look at the year"));
            }
        }
    }

    private static int DaysBetween(Tasting one, Tasting other) => Math.Abs(one.TastedOn.DayNumber - other.TastedOn.DayNumber);
}
