using System.Diagnostics;

namespace TastingKit.Cli.Tests.Jupyter;

/// <summary>Jupyter with the kit's kernel and a folder of notebooks, all in a folder of the tests' own.</summary>
public sealed class JupyterHome : IAsyncLifetime, IDisposable
{
    /// <summary>How many notebooks are opened unless all are asked for: each takes a minute on a small machine.</summary>
    private const int FirstNotebooks = 2;

    private static readonly TimeSpan ConversionLimit = TimeSpan.FromMinutes(8);

    private readonly Tastingkit _command = new();

    /// <summary>
    /// The notebooks that the repository has, those that come later among them: the first two by name, or with
    /// <c>TASTINGKIT_ALL_NOTEBOOKS</c> set all of them.
    /// </summary>
    internal static IEnumerable<string> Notebooks { get; } = Directory.GetFiles(SourceFolder, "*.ipynb").Select(path => Path.GetFileName(path)!)
        .Order(StringComparer.Ordinal).Take(Environment.GetEnvironmentVariable("TASTINGKIT_ALL_NOTEBOOKS") is null ? FirstNotebooks : int.MaxValue);

    /// <summary>The notebooks' folder, with the sample log beside it.</summary>
    internal string Folder => _command.PathOf("notebooks");

    private static string SourceFolder => Path.Combine(AppContext.BaseDirectory, "notebooks");

    public async Task InitializeAsync()
    {
        var installed = await _command.RunAsync("kernel", "install");
        Assert.True(installed.ExitCode == 0, installed.Error);
        foreach (var source in Directory.GetFiles(SourceFolder, "*.ipynb").Concat(Directory.GetFiles(Tastingkit.SampleData)))
            Copy(source, Path.Combine(_command.Folder, Path.GetRelativePath(AppContext.BaseDirectory, source)));
    }

    public Task DisposeAsync() => Task.CompletedTask;

    public void Dispose() => _command.Dispose();

    /// <summary>Writes a notebook of the cells given into the folder.</summary>
    internal string Write(string name, params ReadOnlySpan<(string Kind, string Source)> cells) => _command.Write(Path.Combine("notebooks", name), NotebookText.Of(cells));

    /// <summary>Starts a program of Jupyter in the notebooks' folder; it knows no other kernel, setting or file than those of this home.</summary>
    internal Process Start(string program, params string[] arguments)
    {
        var start = new ProcessStartInfo(program, arguments) { RedirectStandardOutput = true, RedirectStandardError = true, WorkingDirectory = Folder };
        start.Environment["JUPYTER_DATA_DIR"] = _command.JupyterData;
        foreach (var (variable, folder) in new[] { ("JUPYTER_CONFIG_DIR", "settings"), ("JUPYTER_RUNTIME_DIR", "runtime"), ("IPYTHONDIR", "ipython") })
            start.Environment[variable] = _command.PathOf(folder);
        return Process.Start(start)!;
    }

    /// <summary>Makes a page of a notebook by nbconvert, beside it.</summary>
    internal async Task<(int ExitCode, string Error)> ConvertAsync(string name, params string[] options)
    {
        using var process = Start("jupyter", ["nbconvert", "--to", "html", "--execute", .. options, name]);
        using var limit = new CancellationTokenSource(ConversionLimit);
        try
        {
            _ = process.StandardOutput.ReadToEndAsync(limit.Token);
            var error = await process.StandardError.ReadToEndAsync(limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return (process.ExitCode, error);
        }
        finally
        {
            if (!process.HasExited)
                process.Kill(entireProcessTree: true);
        }
    }

    private static void Copy(string source, string target)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(target)!);
        File.Copy(source, target);
    }
}
