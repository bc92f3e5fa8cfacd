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
        Assert.Matches(@"rejected +unknown-bag +1 +tastings\.csv 3 +bag_id 'B9' ", output);
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
    public async Task Check_writes_the_list_the_page_and_the_canonical_form_and_replaces_none_unasked()
    {
        _command.Write("year/bags.csv", "bag_id\nB1\n");
        _command.Write("year/tastings.csv", "tasting_id,bag_id,tasted_at,score,remark\nT1,B1,2025-03-12,12,=1+1\nT2,B9,2025-03-13,7,<i>\n");
        string[] arguments = ["check", "year", "--problems", "list.csv", "--page", "page.html", "--fixed", "canonical"];
        var (exitCode, output, error) = await _command.RunAsync(arguments);
        Assert.Equal((1, ""), (exitCode, error));
        Assert.Contains("canonical holds the canonical form", output, StringComparison.Ordinal);

        Assert.Contains("doubtful,score-off-scale,tastings.csv,2,T1,score,12,", File.ReadAllText(_command.PathOf("list.csv")), StringComparison.Ordinal);
        Assert.Contains("<h1>year: 1 of 3 rows rejected, 1 more doubtful</h1>", File.ReadAllText(_command.PathOf("page.html")), StringComparison.Ordinal);
        Assert.Equal((0, ""), ((await _command.RunAsync("check", "canonical")) is var again ? again.ExitCode : -1, again.Error));
        Assert.Contains("T1,B1,2025-03-12,", File.ReadAllText(_command.PathOf("canonical/tastings.csv")), StringComparison.Ordinal);
        Assert.Contains("'=1+1", File.ReadAllText(_command.PathOf("canonical/tastings.csv")), StringComparison.Ordinal);

        foreach (var there in new[] { "list.csv", "page.html", "canonical/tastings.csv" })
        {
            _command.Write(there, "mine");
            var refused = await _command.RunAsync(arguments[..2].Concat(there switch
            {
                "list.csv" => ["--problems", "list.csv"],
                "page.html" => ["--page", "page.html"],
                _ => (string[])["--fixed", "canonical"],
            }).ToArray());
            Assert.Equal(2, refused.ExitCode);
            Assert.Contains("--force", refused.Error, StringComparison.Ordinal);
            Assert.Equal("mine", File.ReadAllText(_command.PathOf(there)));
        }

        FailsWith("the log's own folder", await _command.RunAsync("check", "year", "--fixed", "year/", "--force"));
        FailsWith("in the log's folder", await _command.RunAsync("check", "year", "--problems", "year/list.csv"));
        Assert.Equal(1, (await _command.RunAsync([.. arguments, "--force"])).ExitCode);
        Assert.Contains("T1,B1,", File.ReadAllText(_command.PathOf("canonical/tastings.csv")), StringComparison.Ordinal);
    }

    [Fact]
    public async Task Check_reads_several_folders_as_one_log()
    {
        foreach (var year in new[] { "2024", "2025" })
        {
            _command.Write($"{year}/bags.csv", $"bag_id,coffee\nB1,Coffee of {year}\n");
            _command.Write($"{year}/tastings.csv", $"tasting_id,bag_id,tasted_at,score\nT1,B1,{year}-03-12,7.5\n");
        }

        var (exitCode, output, error) = await _command.RunAsync("check", "2024", "2025");
        Assert.Equal((0, ""), (exitCode, error));
        Assert.Contains("2024 + 2025: 2 cups of 2 bags", output, StringComparison.Ordinal);
        Assert.Contains("2025/tastings.csv", output, StringComparison.Ordinal);
        FailsWith("--fixed takes one folder", await _command.RunAsync("check", "2024", "2025", "--fixed", "out"));
        FailsWith("given twice", await _command.RunAsync("check", "2024", "2024"));
    }

    [Fact]
    public async Task A_new_log_passes_the_check_and_replaces_nothing()
    {
        Assert.Equal(0, (await _command.RunAsync("new", "my-year")).ExitCode);
        foreach (var folder in new[] { "my-year", "my-year/example" })
        {
            var (exitCode, output, _) = await _command.RunAsync("check", folder);
            Assert.Equal(0, exitCode);
            Assert.DoesNotContain("report", output, StringComparison.Ordinal);
        }

        _command.Write("my-year/bags.csv", "mine");
        FailsWith("--force", await _command.RunAsync("new", "my-year"));
        Assert.Equal("mine", File.ReadAllText(_command.PathOf("my-year/bags.csv")));
        Assert.Equal(0, (await _command.RunAsync("new", "my-year", "--force")).ExitCode);
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
    [InlineData("new")]
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
        HeedInterrupts();
        using var process = _command.Start("run", Tastingkit.Notebook("endless.ipynb"), "--out", "out.html");
        while (await process.StandardError.ReadLineAsync() is { } line && !line.StartsWith("endless.ipynb: cell 2 of 2", StringComparison.Ordinal))
        {
        }

        Assert.Equal(0, Signal(process.Id, Interrupt));
        await process.WaitForExitAsync().WaitAsync(TimeSpan.FromSeconds(30));
        FailsWith("Interrupted; nothing was written.", (process.ExitCode, "", await process.StandardError.ReadToEndAsync()), exitCode: 130);
    }

    private const int Interrupt = 2;

    /// <summary>A shell starts what it runs in the background with interrupts ignored, which every process started from there inherits.</summary>
    private static void HeedInterrupts()
    {
        const nint Default = 0, Ignored = 1;
        if (Handle(Interrupt, Default) is var before and not Ignored)
            Handle(Interrupt, before);
    }

    [DllImport("libc", EntryPoint = "signal")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern nint Handle(int signal, nint handler);

    [DllImport("libc", EntryPoint = "kill")]
    [DefaultDllImportSearchPaths(DllImportSearchPath.SafeDirectories)]
    private static extern int Signal(int process, int signal);
}
