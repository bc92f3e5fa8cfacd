using System.Diagnostics;

namespace TastingKit.NotebookHost;

/// <summary>Hands on how far work has come, a few times a second: an event is a line that somebody has to read.</summary>
internal sealed class SparseProgress(Action<WorkProgress> report) : IProgress<WorkProgress>
{
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(0.25);

    private readonly Lock _gate = new();
    private long _reported = Stopwatch.GetTimestamp();

    public void Report(WorkProgress value)
    {
        lock (_gate)
        {
            if (Stopwatch.GetElapsedTime(_reported) < Pause)
                return;
            _reported = Stopwatch.GetTimestamp();
        }

        report(value);
    }
}
