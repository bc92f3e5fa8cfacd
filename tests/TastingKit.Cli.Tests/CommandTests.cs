using System.Runtime.InteropServices;

namespace TastingKit.Cli.Tests;

public sealed class CommandTests : IDisposable
{
    private readonly Tastingkit _command = new();

    public void Dispose() => _command.Dispose();

    /// <summary>One line or two for a person, no stack trace, and nothing left behind.</summary>
    private void FailsWith(string message, (int ExitCode, string Output, string Error) run, int exitCode = 2)
    {
        Assert.Equal(exitCode, run.ExitCode);
        Assert.Contains(message, run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("   at ", run.Error, StringComparison.Ordinal);
        Assert.Empty(Directory.GetFiles(_command.Folder, "*.unfinished"));
        Assert.Empty(Directory.GetFiles(_command.Folder, "out*"));
    }

    [Fact]
    public async Task Check_reports_each_rejected_row_and_exits_with_1()
    {
        _command.Write("year/bags.csv", "bag_id\nB1\n");
        _command.Write("year/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-12,7.5\nT2,B9,2025-03-13,7\n");
        var (exitCode, output, error) = await _command.RunAsync("check", "year");
        Assert.Equal(1, exitCode);
        Assert.Matches(@"tastings\.csv +3 +bag_id +rejected +B9 ", output);
        Assert.Equal("", error);
    }

    [Fact]
    public async Task Check_of_a_sound_log_exits_with_0()
    {
        _command.Write("year/bags.csv", "bag_id\nB1\n");
        _command.Write("year/tastings.csv", "tasting_id,bag_id,tasted_at,score\nT1,B1,2025-03-12,7.5\n");
        var (exitCode, output, _) = await _command.RunAsync("check", "year");
        Assert.Equal(0, exitCode);
        Assert.Contains("1 cup of 1 bag", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_folder_that_is_not_there_is_said_to_be_missing()
    {
        FailsWith("There is no folder 'nowhere'.", await _command.RunAsync("check", "nowhere"));
        FailsWith("There is no folder 'nowhere'.", await _command.RunAsync("review", "nowhere", "--out", "out.html"));
    }

    [Fact]
    public async Task A_file_that_is_no_csv_is_refused_by_name()
    {
        File.WriteAllBytes(_command.PathOf("picture.csv"), [0x89, 0x50, 0x4e, 0x47, 0, 1, 2, 3]);
        FailsWith("picture.csv", await _command.RunAsync("check", "picture.csv"));
        var review = await _command.RunAsync("review", "picture.csv", "--out", "out.html");
        FailsWith("picture.csv", review);
        Assert.DoesNotContain("cell 1", review.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_target_that_cannot_be_written_is_refused_before_any_work()
    {
        Directory.CreateDirectory(_command.PathOf("folder.html"));
        var run = await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--out", "folder.html");
        FailsWith("Can't write 'folder.html': it is a folder.", run);
        Assert.DoesNotContain("cell 1", run.Error, StringComparison.Ordinal);
        FailsWith("there is no folder 'nowhere'", await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--out", "nowhere/out.html"));
        FailsWith("ends in .html (a page) or .ipynb", await _command.RunAsync("run", Tastingkit.Notebook("small.ipynb"), "--out", "out.pdf"));
    }

    [Fact]
    public async Task A_file_that_is_no_notebook_is_refused()
    {
        FailsWith("There is no notebook 'nowhere.ipynb'.", await _command.RunAsync("run", "nowhere.ipynb", "--out", "out.html"));
        FailsWith("is no notebook: its line 1 is not JSON", await _command.RunAsync("run", _command.Write("text.ipynb", "text"), "--out", "out.html"));
    }

    [Theory]
    [InlineData("frobnicate")]
    [InlineData("review", "somewhere")]
    [InlineData("run", "x.ipynb", "--out", "out.html", "--cell-limit", "0")]
    [InlineData("run", "x.ipynb", "--out", "out", "--jobs", "0")]
    [InlineData("run", "--out", "out")]
    [InlineData("run", "x.ipynb", "--all", ".", "--out", "out")]
    [InlineData]
    public async Task Wrong_arguments_exit_with_2_and_point_to_the_help(params string[] arguments) =>
        FailsWith("--help", await _command.RunAsync(arguments));

    [Theory]
    [InlineData("check")]
    [InlineData("review")]
    [InlineData("run")]
    [InlineData("kernel")]
    [InlineData("kernel", "install")]
    [InlineData]
    public async Task Help_has_examples(params string[] arguments)
    {
        var (exitCode, output, _) = await _command.RunAsync([.. arguments, "--help"]);
        Assert.Equal(0, exitCode);
        Assert.Matches($"(?s)Example.*tastingkit {string.Join(' ', arguments)}", output);
        Assert.Contains($"Usage:\n  tastingkit {string.Join(' ', arguments)}", output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_failing_cell_is_named_with_its_line_and_nothing_is_written()
    {
        var run = await _command.RunAsync("run", Tastingkit.Notebook("failing.ipynb"), "--log", Tastingkit.SampleData, "--out", "out.html", "--out", "out.ipynb");
        FailsWith("\nfailing.ipynb: failed: cell 2, line 3: ", run, exitCode: 3);
        Assert.EndsWith("OutOfRangeException) in: var missing = log.Bags[1000];\n", run.Error, StringComparison.Ordinal);
        Assert.DoesNotContain("cell 3", run.Error, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_failing_first_cell_stops_the_run_with_advice() => FailsWith(
        "first.ipynb: failed: cell 1, line 1: " + NotebookText.FailingSetUpAdvice,
        await _command.RunAsync("run", _command.Write("first.ipynb", NotebookText.Of(("code", NotebookText.FailingSetUp), ("code", "Environment.Exit(1)"))), "--out", "out.html"),
        exitCode: 3);

    [Fact]
    public async Task An_endless_cell_is_stopped_at_its_limit() => FailsWith(
        "endless.ipynb: failed: cell 2: took longer than 15 seconds and was stopped.",
        await _command.RunAsync("run", Tastingkit.Notebook("endless.ipynb"), "--cell-limit", "15", "--out", "out.html"),
        exitCode: 4);

    [Fact]
    public async Task A_cell_that_ends_the_process_is_named() => FailsWith(
        "ending.ipynb: failed: cell 1: ended the notebook's process.",
        await _command.RunAsync("run", Tastingkit.Notebook("ending.ipynb"), "--out", "out.html"),
        exitCode: 3);

    [Fact]
    public async Task An_interrupted_run_leaves_nothing_behind()
    {
        if (OperatingSystem.IsWindows())
            return;
        using var process = _command.Start("run", Tastingkit.Notebook("endless.ipynb"), "--out", "out.html");
        while (await process.StandardError.ReadLineAsync() is { } line && !line.StartsWith("endless.ipynb: cell 2 of 2", StringComparison.Ordinal))
        {
        }

        const int Interrupt = 2;
        Assert.Equal(0, Signal(process.Id, Interrupt));
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(30));
        FailsWith("Interrupted; nothing was written.", (process.ExitCode, "", await process.StandardError.ReadToEndAsync()), exitCode: 130);
    }

    [DllImport("libc", EntryPoint = "kill")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Signal(int process, int signal);
}
