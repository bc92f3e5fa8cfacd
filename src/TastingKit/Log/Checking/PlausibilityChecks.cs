namespace TastingKit.Checking;

/// <summary>
/// The rules that need more than a cell or a row. Each passes over the rows once, and makes nothing for a row on which there is nothing to say.
/// None looks at what another found, so that they run side by side; their reports are filed in one order.
/// </summary>
internal static class PlausibilityChecks
{
    private static readonly Action<RowsToCheck>[] Checks =
    [
        BagChecks.Run, CupDates.Run, CupSequence.Run, LikeCups.Run, BagHoldings.Run, ScoreColumnChecks.Run, ScoreSums.Run, LevelChecks.Run, RepeatedRows.Run,
    ];

    private const int ManyCups = 5000;

    /// <summary>Judges the rows; what is found goes to the reports on their files.</summary>
    public static void Run(RowsToCheck rows, CancellationToken cancellation)
    {
        var apart = Checks.Select(_ => rows.Apart()).ToArray();
        Parallel.For(0, Checks.Length, new ParallelOptions { MaxDegreeOfParallelism = rows.Cups.Length < ManyCups ? 1 : -1, CancellationToken = cancellation }, i => Checks[i](apart[i]));
        foreach (var found in apart)
            rows.Join(found);
    }
}
