using Microsoft.DotNet.Interactive;
using Microsoft.DotNet.Interactive.Commands;
using Microsoft.DotNet.Interactive.Events;

namespace TastingKit.Notebooks.Tests;

[Collection(nameof(TastingNotebookTests))]
public sealed class CellWatchTests
{
    private static string Text(DisplayEvent shown) => Assert.Single(shown.FormattedValues, value => value.MimeType == "text/plain").Value;

    private static async Task<List<KernelEvent>> RunAsync(Action cell)
    {
        using var kernel = new CompositeKernel { new ActionKernel(cell) };
        var events = new List<KernelEvent>();
        using var subscription = kernel.KernelEvents.Subscribe(events.Add);
        await kernel.SendAsync(new SubmitCode("work", "action"));
        return events;
    }

    [Fact]
    public async Task Long_work_is_shown_below_its_cell_and_taken_away_when_it_is_done()
    {
        var events = await RunAsync(() =>
        {
            foreach (var share in new[] { 0.1, 0.3, 0.6, 0.9, 1 })
            {
                CellWatch.OfRunningCell.Report(new WorkProgress("drawing", share));
                Thread.Sleep(TimeSpan.FromSeconds(0.55));
            }
        });

        Assert.Equal(
            ["shown drawing: 60 %", "updated drawing: 90 %", "updated ", "succeeded"],
            events.Select(happened => happened switch
            {
                DisplayedValueProduced shown => "shown " + Text(shown),
                DisplayedValueUpdated updated => "updated " + Text(updated),
                CommandSucceeded => "succeeded",
                _ => "other",
            }).Where(word => word != "other"));
        Assert.Single(events.OfType<DisplayEvent>().Select(shown => shown.ValueId).Distinct());
    }

    [Fact]
    public async Task Work_on_other_threads_is_shown_below_the_cell_that_began_it()
    {
        var events = await RunAsync(() =>
        {
            CellWatch.OfRunningCell.Report(new WorkProgress("drawing", 0));
            Thread.Sleep(TimeSpan.FromSeconds(1.1));
            Parallel.For(0, 8, _ => CellWatch.OfRunningCell.Report(new WorkProgress("drawing", null)));
        });
        Assert.Equal("drawing", Text(Assert.Single(events.OfType<DisplayedValueProduced>())));
    }

    [Fact]
    public async Task Quick_work_shows_nothing()
    {
        var events = await RunAsync(() => CellWatch.OfRunningCell.Report(new WorkProgress("drawing", 0.5)));
        Assert.Empty(events.OfType<DisplayEvent>());
        Assert.Single(events.OfType<CommandSucceeded>());
    }

    [Fact]
    public async Task Interrupting_a_cell_ends_the_work_of_the_kit_in_it_and_the_next_cell_runs()
    {
        using var began = new ManualResetEventSlim();
        var cells = 0;
        using var kernel = new CompositeKernel
        {
            new ActionKernel(() =>
            {
                if (Interlocked.Increment(ref cells) > 1)
                    return;
                var token = CellWatch.OfRunningCell.CancellationToken;
                began.Set();
                Assert.True(token.WaitHandle.WaitOne(TimeSpan.FromSeconds(20)));
                token.ThrowIfCancellationRequested();
            }),
        };
        var first = Task.Run(() => kernel.SendAsync(new SubmitCode("work", "action")));
        Assert.True(began.Wait(TimeSpan.FromSeconds(20)));
        await CellInterrupt.EndCellAsync(kernel);
        Assert.IsType<OperationCanceledException>(Assert.Single((await first).Events.OfType<CommandFailed>()).Exception);
        Assert.False(CellWatch.OfRunningCell.CancellationToken.IsCancellationRequested);
        Assert.Single((await kernel.SendAsync(new SubmitCode("more", "action"))).Events.OfType<CommandSucceeded>());
    }

    [Fact]
    public void Outside_a_cell_progress_goes_nowhere()
    {
        CellWatch.OfRunningCell.Report(new WorkProgress("drawing", 0.5));
        Assert.Null(KernelInvocationContext.Current);
    }
}
