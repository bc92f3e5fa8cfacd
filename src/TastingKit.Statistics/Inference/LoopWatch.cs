namespace TastingKit.Statistics;

/// <summary>Counts the turns of loops that run on several threads, reports their share, and lets them be cancelled.</summary>
internal sealed class LoopWatch(IProgress<double>? progress, CancellationToken cancellationToken)
{
    private const int ReportsAtMost = 200;

    private readonly Lock _gate = new();
    private int _expected;
    private int _done;
    private double _reported = -1;

    public ParallelOptions Options(int threads) => new() { MaxDegreeOfParallelism = threads, CancellationToken = cancellationToken };

    /// <summary>More turns are to come; what was reported before stands.</summary>
    public void Expect(int turns)
    {
        lock (_gate)
            _expected += turns;
    }

    /// <summary>One more turn is done.</summary>
    public void Done()
    {
        if (progress is null) return;
        lock (_gate)
        {
            // Turns may be added; only the end is reported as such.
            double share = Math.Min(0.99, (double)++_done / _expected);
            if (share >= _reported + 1.0 / ReportsAtMost) progress.Report(_reported = share);
        }
    }

    /// <summary>The work is done, whether or not all turns were needed.</summary>
    public void Finish() => progress?.Report(1);
}
