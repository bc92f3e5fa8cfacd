using System.Diagnostics;
using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Formatting;

namespace TastingKit.Notebooks;

/// <summary>
/// Watches work for the cell that asked for it: shows how far it is below the cell once it takes longer than a moment, takes that away
/// when a step is done, and ends the work when the cell is interrupted.
/// </summary>
internal sealed class CellWatch : WorkWatch
{
    /// <summary>A cell that is done sooner shows no progress, so that its output does not flicker.</summary>
    private static readonly TimeSpan Moment = TimeSpan.FromSeconds(1);

    /// <summary>Between two updates: each is a message to the browser.</summary>
    private static readonly TimeSpan Pause = TimeSpan.FromSeconds(0.25);

    private readonly Lock _gate = new();
    private KernelInvocationContext? _cell;
    private DisplayedValue? _shown;
    private long _began;
    private long _updated;

    private CellWatch()
    {
    }

    internal static CellWatch OfRunningCell { get; } = new();

    public override CancellationToken CancellationToken => CellInterrupt.Token;

    public override void Report(WorkProgress progress)
    {
        if (TastingNotebook.Progress is { } elsewhere)
        {
            elsewhere.Report(progress);
            return;
        }

        // Worker threads of an analysis carry the cell they work for.
        if (KernelInvocationContext.Current is not { } cell)
            return;
        lock (_gate)
        {
            if (cell != _cell)
                (_cell, _shown, _began, _updated) = (cell, null, Stopwatch.GetTimestamp(), 0);

            // Once its cell has ended a value can't be changed any more: a line is taken away as soon as its step is done.
            if (progress.Share >= 1)
            {
                _shown?.Update("");
                _updated = 0;
                return;
            }

            if (Stopwatch.GetElapsedTime(_began) < Moment || (_shown is not null && Stopwatch.GetElapsedTime(_updated) < Pause))
                return;
            var line = progress.Share is { } share ? $"{progress.Doing}: {NumberText.Percent(share)}" : progress.Doing;
            if (_shown is null)
                _shown = KernelInvocationContextExtensions.Display(cell, line, PlainTextFormatter.MimeType);
            else
                _shown.Update(line);
            _updated = Stopwatch.GetTimestamp();
        }
    }
}
