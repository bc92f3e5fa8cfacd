using System.Text.Json.Nodes;

namespace TastingKit.Cli.Tests.Kernel;

/// <summary>The kernel put in place, looked at and taken away, in a data folder of the test's own.</summary>
public sealed class KernelCommandTests : IDisposable
{
    private readonly Tastingkit _command = new();

    private string Folder => Path.Combine(_command.JupyterData, "kernels", "tastingkit");

    private string Specification => Path.Combine(Folder, "kernel.json");

    public void Dispose() => _command.Dispose();

    [Fact]
    public async Task Installed_twice_it_is_there_once_and_removed_it_is_gone()
    {
        _command.Write("jupyter/kernels/other/kernel.json", "{}");
        Assert.Equal(0, (await _command.RunAsync("kernel", "install")).ExitCode);
        var first = Directory.GetFileSystemEntries(Folder).Order().ToArray();
        // As a build before this one would have left it.
        Directory.Move(Directory.GetDirectories(Folder).Single(), Path.Combine(Folder, "host-000000000000"));
        Assert.Equal(0, (await _command.RunAsync("kernel", "install")).ExitCode);
        Assert.Equal(first, Directory.GetFileSystemEntries(Folder).Order());

        var arguments = JsonNode.Parse(await File.ReadAllTextAsync(Specification))!["argv"]!.AsArray().Select(argument => (string)argument!).ToArray();
        Assert.All(arguments[..2], file => Assert.True(File.Exists(file), file));
        Assert.Equal(["jupyter", "{connection_file}"], arguments[2..]);
        Assert.Equal(
            File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, "host", "TastingKit.dll")),
            File.ReadAllBytes(Path.Combine(Path.GetDirectoryName(arguments[1])!, "TastingKit.dll")));

        var removed = await _command.RunAsync("kernel", "remove");
        Assert.Equal(0, removed.ExitCode);
        Assert.Contains($"Deleted {Specification}", removed.Output, StringComparison.Ordinal);
        Assert.Equal([Path.Combine(_command.JupyterData, "kernels", "other")], Directory.GetFileSystemEntries(Path.Combine(_command.JupyterData, "kernels")));
        Assert.Contains("There was no kernel", (await _command.RunAsync("kernel", "remove")).Output, StringComparison.Ordinal);
    }

    [Fact]
    public async Task A_file_that_somebody_else_put_there_stays()
    {
        await _command.RunAsync("kernel", "install");
        var logo = _command.Write("jupyter/kernels/tastingkit/logo-64x64.png", "a logo");
        await _command.RunAsync("kernel", "remove");
        Assert.Equal([logo], Directory.GetFileSystemEntries(Folder));
    }

    [Theory]
    [InlineData("install")]
    [InlineData("remove")]
    [InlineData("check")]
    public async Task A_kernel_of_that_name_by_somebody_else_is_left_alone(string verb)
    {
        const string Theirs = """{"argv": ["theirs"], "display_name": "Theirs", "language": "x"}""";
        _command.Write("jupyter/kernels/tastingkit/kernel.json", Theirs);
        var run = await _command.RunAsync("kernel", verb);
        Assert.Equal(2, run.ExitCode);
        Assert.Contains("that this command has not made. It is left alone", run.Error, StringComparison.Ordinal);
        Assert.Equal(Theirs, await File.ReadAllTextAsync(Specification));
        Assert.Single(Directory.GetFileSystemEntries(Folder));
    }

    [Fact]
    public async Task A_check_says_what_is_missing_and_how_to_get_it()
    {
        var before = await _command.RunAsync("kernel", "check");
        Assert.Equal(1, before.ExitCode);
        Assert.Matches("missing +The kernel: there is none in .*\n +Run: tastingkit kernel install\n", before.Output);

        await _command.RunAsync("kernel", "install");
        Assert.Contains("ok       The kernel is that of this build.", (await _command.RunAsync("kernel", "check")).Output, StringComparison.Ordinal);

        await File.AppendAllTextAsync(Path.Combine(Directory.GetDirectories(Folder).Single(), "TastingKit.NotebookHost.runtimeconfig.json"), "\n");
        var stale = await _command.RunAsync("kernel", "check");
        Assert.Equal(1, stale.ExitCode);
        Assert.Contains("missing  The kernel is that of another build", stale.Output, StringComparison.Ordinal);

        Directory.Delete(Directory.GetDirectories(Folder).Single(), recursive: true);
        Assert.Matches("missing +The kernel: .* wants .*TastingKit.NotebookHost.dll, which is not there", (await _command.RunAsync("kernel", "check")).Output);
    }
}
