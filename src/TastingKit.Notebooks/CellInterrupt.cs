using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;
using Microsoft.DotNet.Interactive.Events;

namespace TastingKit.Notebooks;

/// <summary>
/// Makes the interrupt button end the running cell and nothing else: the kernel's own cancelling gives a cell up without ending its work.
/// </summary>
internal static class CellInterrupt
{
    /// <summary>What work of the kit needs to notice, and more.</summary>
    private static readonly TimeSpan Patience = TimeSpan.FromSeconds(1);

    private static readonly Lock Gate = new();
    private static CancellationTokenSource _source = new();

    /// <summary>Is cancelled by the next interrupt.</summary>
    internal static CancellationToken Token
    {
        get
        {
            lock (Gate)
                return _source.Token;
        }
    }

    /// <summary>
    /// Ends the work of the kit in the running cell, which then fails by itself, as after any error. A cell that goes on, since it is at
    /// something else, is given up by the kernel: its thread may run on, but the next cell can be run.
    /// </summary>
    internal static async Task EndCellAsync(Kernel kernel)
    {
        var ended = new TaskCompletionSource(TaskCreationOptions.RunContinuationsAsynchronously);
        using var subscription = kernel.KernelEvents.Subscribe(happened =>
        {
            if (happened is CommandSucceeded or CommandFailed)
                ended.TrySetResult();
        });
        CancellationTokenSource interrupted;
        lock (Gate)
            (interrupted, _source) = (_source, new CancellationTokenSource());
        await interrupted.CancelAsync();
        if (await Task.WhenAny(ended.Task, Task.Delay(Patience)) != ended.Task)
            await kernel.SendAsync(new Cancel());
    }
}
