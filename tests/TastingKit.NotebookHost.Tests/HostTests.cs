using System.Runtime.InteropServices;

namespace TastingKit.NotebookHost.Tests;

/// <summary>Runs the host as a process, as the command does, and reads its events.</summary>
public sealed class HostTests : IDisposable
{
    private const string SetUp = "#r \"TastingKit.Notebooks\"\nusing TastingKit; using TastingKit.Charts; using TastingKit.Notebooks;\nTastingNotebook.Start()";

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-host-");

    public void Dispose() => _folder.Delete(recursive: true);

    [Fact]
    public async Task Cells_run_in_order_and_show_what_they_show()
    {
        var run = await RunAsync(
            SetUp,
            "var log = TastingNotebook.Log;\nlog",
            "Console.WriteLine(\"said\");\nConsole.Error.WriteLine(\"warned\");\nlog.Tastings.Count + 1",
            "display(Chart.Nothing(\"Why\", \"No cups.\"));",
            "System.IO.Path.GetFileName(System.IO.Directory.GetCurrentDirectory())");

        Assert.Equal(0, run.ExitCode);
        Assert.Equal(
            [
                "started 1", "displayed 1", "finished 1",
                "started 2", "displayed 2", "finished 2",
                "started 3", "printed 3", "printed 3", "displayed 3", "finished 3",
                "started 4", "displayed 4", "finished 4",
                "started 5", "displayed 5", "finished 5",
                "run finished",
            ],
            run.Events.Select(Word));
        var shown = run.Events.OfType<CellDisplayed>().ToArray();
        Assert.Contains("window.tastingKitCharts", shown[0].Data["text/html"], StringComparison.Ordinal);
        Assert.Contains("1 cup of 1 bag", shown[1].Data["text/html"], StringComparison.Ordinal);
        Assert.Equal("2", shown[2].Data["text/plain"]);
        Assert.True(shown[2].IsResult);
        Assert.False(shown[3].IsResult);
        Assert.Contains("No chart: No cups.", shown[3].Data["text/html"], StringComparison.Ordinal);
        Assert.Equal(_folder.Name, shown[4].Data["text/plain"]);
        Assert.Equal([("said\n", false), ("warned\n", true)], run.Events.OfType<CellPrinted>().Select(printed => (printed.Text, printed.IsError)));
    }

    [Fact]
    public async Task Long_work_tells_how_far_it_is_and_leaves_no_output()
    {
        var run = await RunAsync(
            SetUp,
            "System.Threading.Thread.Sleep(300);\nTastingNotebook.Progress.Report(new WorkProgress(\"drawing\", 0.5));\nTastingNotebook.Progress.Report(new WorkProgress(\"drawing\", 0.6));");
        Assert.Equal(0, run.ExitCode);
        Assert.Equal(new CellProgress(2, "drawing", 0.5), Assert.Single(run.Events.OfType<CellProgress>()));
        Assert.Single(run.Events.OfType<CellDisplayed>());
    }

    [Theory]
    [InlineData("var x = 1;\nvar y = favouritez;", 2, "CS0103", "favouritez")]
    [InlineData("var x = 0;\n\nvar y = 1 / x;", 3, "DivideByZeroException", "zero")]
    [InlineData("int Half(int x) =>\n    x / (x - 3);\nHalf(3)", 2, "DivideByZeroException", "zero")]
    [InlineData("await System.Threading.Tasks.Task.Yield();\nthrow new ArgumentException(\"bad\\nlines\");", 2, "ArgumentException", "bad\nlines")]
    [InlineData("#r \"No.Such.Assembly\"", 1, "CS0006", "No.Such.Assembly")]
    public async Task An_error_names_its_cell_its_line_and_what_went_wrong(string source, int line, string error, string message)
    {
        var run = await RunAsync("1", source, "Console.WriteLine(\"never\");");
        Assert.Equal(1, run.ExitCode);
        var failed = Assert.IsType<CellFailed>(run.Events[^1]);
        Assert.Equal((2, line, error), (failed.Number, failed.Line, failed.Error));
        Assert.Contains(message, failed.Message, StringComparison.Ordinal);
        Assert.DoesNotContain("started 3", run.Events.Select(Word));
    }

    [Fact]
    public async Task An_error_in_what_an_earlier_cell_defined_is_told_on_the_line_that_called_it()
    {
        var run = await RunAsync("int Half(int x) =>\n\n\n    x / (x - 3);", "var three = 3;\nHalf(three)");
        var failed = Assert.IsType<CellFailed>(run.Events[^1]);
        Assert.Equal((2, 2), (failed.Number, failed.Line));
    }

    [Fact]
    public async Task A_value_shown_can_be_updated()
    {
        // Not display("before"), whose value the kernel shows under one identifier and updates under another.
        var run = await RunAsync(
            "using Microsoft.DotNet.Interactive;\n" +
            "var shown = KernelInvocationContextExtensions.Display(KernelInvocationContext.Current, \"before\", \"text/plain\");\nshown.Update(\"after\");");
        Assert.Equal(0, run.ExitCode);
        var first = Assert.Single(run.Events.OfType<CellDisplayed>());
        var update = Assert.Single(run.Events.OfType<CellDisplayUpdated>());
        Assert.Equal(first.DisplayId, update.DisplayId);
        Assert.Equal("after", update.Data["text/plain"]);
    }

    [Fact]
    public async Task A_log_that_cannot_be_read_stops_the_run_before_its_first_cell()
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "tastings.csv"), "no,such,columns\n1,2,3\n");
        var run = await HostProcess.RunAsync(new RunRequest([new(1, "1")], _folder.FullName, _folder.FullName));
        Assert.Equal(1, run.ExitCode);
        Assert.Contains("tastings.csv", Assert.IsType<LogUnreadable>(Assert.Single(run.Events)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public async Task The_host_ends_with_whoever_started_it_even_in_an_endless_cell()
    {
        using var host = HostProcess.Start();
        await HostProcess.SendAsync(host, new RunRequest([new(1, "while (true) { }")], _folder.FullName, null));
        Assert.Contains("cell-started", await host.StandardOutput.ReadLineAsync(), StringComparison.Ordinal);
        host.StandardInput.Close();
        await host.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(30));
        Assert.Equal(3, host.ExitCode);
    }

    [Fact]
    public async Task An_interrupt_of_the_terminal_is_left_to_whoever_started_the_host()
    {
        if (OperatingSystem.IsWindows())
            return;
        using var host = HostProcess.Start();
        await HostProcess.SendAsync(host, new RunRequest([new(1, "await System.Threading.Tasks.Task.Delay(2000);")], _folder.FullName, null));
        Assert.Contains("cell-started", await host.StandardOutput.ReadLineAsync(), StringComparison.Ordinal);
        const int Interrupt = 2;
        Assert.Equal(0, Signal(host.Id, Interrupt));
        Assert.Contains("cell-finished", await host.StandardOutput.ReadLineAsync(), StringComparison.Ordinal);
        await host.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(30));
        Assert.Equal(0, host.ExitCode);
    }

    [Fact]
    public async Task Started_by_hand_the_host_says_what_it_is()
    {
        using var host = HostProcess.Start();
        host.StandardInput.Close();
        Assert.Contains("Started by the command tastingkit", await host.StandardError.ReadToEndAsync(), StringComparison.Ordinal);
        await host.WaitForExitAsync();
        Assert.Equal(2, host.ExitCode);
    }

    [DllImport("libc", EntryPoint = "kill")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Signal(int process, int signal);

    private Task<HostRun> RunAsync(params string[] cells)
    {
        File.WriteAllText(Path.Combine(_folder.FullName, "bags.csv"), "bag_id\nB1\n");
        File.WriteAllText(Path.Combine(_folder.FullName, "tastings.csv"), "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-12 08:30,7.5\n");
        return HostProcess.RunAsync(new RunRequest([.. cells.Select((source, i) => new RunRequest.Cell(i + 1, source))], _folder.FullName, _folder.FullName));
    }

    private static string Word(HostEvent happened) => happened switch
    {
        CellStarted cell => $"started {cell.Number}",
        CellPrinted cell => $"printed {cell.Number}",
        CellDisplayed cell => $"displayed {cell.Number}",
        CellDisplayUpdated cell => $"updated {cell.Number}",
        CellFinished cell => $"finished {cell.Number}",
        CellFailed cell => $"failed {cell.Number}",
        LogUnreadable => "log unreadable",
        RunFinished => "run finished",
        _ => throw new InvalidOperationException($"Unknown event {happened}."),
    };
}

internal sealed record HostRun(int ExitCode, IReadOnlyList<HostEvent> Events);
