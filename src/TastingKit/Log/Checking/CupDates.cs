using TastingKit.Reading;
using static TastingKit.Checking.RowsToCheck;

namespace TastingKit.Checking;

/// <summary>Rules on a cup's day against the days of its bag: roast, opening, freezing.</summary>
internal static class CupDates
{
    // A leap year's days: a year's rest to the day is not over a year.
    private const int MostRest = 366;

    public static void Run(RowsToCheck rows)
    {
        for (var i = 0; i < rows.Cups.Length; i++)
        {
            var cup = rows.Cups[i];
            var tasted = cup.TastedOn;
            if (cup.Bag.OpenedOn is { } opened && tasted < opened)
            {
                rows.OnCup(i, Severity.Doubtful, "tasted_at", Iso(tasted), new CellFault(Rule.TastedBeforeOpened,
                    $"The cup was tasted before its bag was opened, on {Iso(opened)}; both were kept.", "a day not before the bag's opened_on")
                {
                    Beside = $"opened_on {Iso(opened)}",
                });
            }

            if (cup.Bag.RoastDate is not { } roasted)
                continue;
            if (tasted < roasted)
            {
                rows.OnCup(i, Severity.Doubtful, "tasted_at", Iso(tasted), new CellFault(Rule.TastedBeforeRoast,
                    $"The cup was tasted before its bag was roasted, on {Iso(roasted)}; it has no days of rest.", "a day not before the bag's roast date"));
            }
            else if (cup.FrozenOn < roasted)
            {
                rows.OnCup(i, Severity.Doubtful, "frozen_on", Iso(cup.FrozenOn.Value), new CellFault(Rule.FrozenBeforeRoast,
                    $"The dose was frozen before its bag was roasted, on {Iso(roasted)}; its days of rest can't be told.", "a day not before the bag's roast date"));
            }
            else if (cup.RestDays is > MostRest and var rest)
            {
                rows.OnCup(i, Severity.Doubtful, "tasted_at", Iso(tasted), new CellFault(Rule.RestOverAYear,
                    FormattableString.Invariant($"The cup was tasted {rest} days after its bag was roasted, on {roasted:yyyy-MM-dd}, days frozen left out."),
                    "a year or less of rest; the days frozen in frozen_on and thawed_on")
                {
                    Beside = FormattableString.Invariant($"roast_date {roasted:yyyy-MM-dd}; days frozen {cup.FrozenDays}"),
                });
            }
        }
    }
}
