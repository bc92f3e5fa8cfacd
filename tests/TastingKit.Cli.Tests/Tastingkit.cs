using System.Diagnostics;

namespace TastingKit.Cli.Tests;

/// <summary>The command as a person starts it: a process, in a folder of its own.</summary>
internal sealed class Tastingkit : IDisposable
{
    private static readonly TimeSpan Limit = TimeSpan.FromMinutes(5);

    private readonly DirectoryInfo _folder = Directory.CreateTempSubdirectory("tastingkit-cli-");

    internal static string SampleData => Path.Combine(AppContext.BaseDirectory, "sample-data");

    internal string JupyterData => PathOf("jupyter");

    internal string Folder => _folder.FullName;

    internal static string Notebook(string name) => Path.Combine(AppContext.BaseDirectory, "Notebooks", name);

    public void Dispose() => _folder.Delete(recursive: true);

    internal string PathOf(string name) => Path.Combine(Folder, name);

    internal string Write(string name, string text)
    {
        Directory.CreateDirectory(Path.GetDirectoryName(PathOf(name))!);
        File.WriteAllText(PathOf(name), text);
        return PathOf(name);
    }

    internal Process Start(params string[] arguments)
    {
        var start = new ProcessStartInfo("dotnet", [Path.Combine(AppContext.BaseDirectory, "TastingKit.Cli.dll"), .. arguments])
        {
            RedirectStandardOutput = true,
            RedirectStandardError = true,
            WorkingDirectory = Folder,
        };
        // Jupyter's own folder of whoever runs the tests is none of their business.
        start.Environment["JUPYTER_DATA_DIR"] = JupyterData;
        return Process.Start(start)!;
    }

    internal async Task<(int ExitCode, string Output, string Error)> RunAsync(params string[] arguments)
    {
        using var process = Start(arguments);
        using var limit = new CancellationTokenSource(Limit);
        try
        {
            var output = process.StandardOutput.ReadToEndAsync(limit.Token);
            var error = process.StandardError.ReadToEndAsync(limit.Token);
            await process.WaitForExitAsync(limit.Token);
            return (process.ExitCode, await output, await error);
        }
        finally
        {
            if (!process.HasExited)
                process.Kill(entireProcessTree: true);
        }
    }
}
