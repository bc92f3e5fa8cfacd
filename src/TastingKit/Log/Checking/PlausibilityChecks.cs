namespace TastingKit.Checking;

/// <summary>
/// The rules that need more than a cell or a row. Each passes over the rows once, and makes nothing for a row on which there is nothing to say.
/// </summary>
internal static class PlausibilityChecks
{
    private static readonly Action<RowsToCheck>[] Checks =
    [
        BagChecks.Run, CupDates.Run, CupSequence.Run, LikeCups.Run, BagHoldings.Run, ScoreColumnChecks.Run, ScoreSums.Run, LevelChecks.Run,
    ];

    /// <summary>Judges the rows; what is found goes to the reports on their files.</summary>
    public static void Run(RowsToCheck rows, CancellationToken cancellation)
    {
        foreach (var check in Checks)
        {
            cancellation.ThrowIfCancellationRequested();
            check(rows);
        }
    }
}
