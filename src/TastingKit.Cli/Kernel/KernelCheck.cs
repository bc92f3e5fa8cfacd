using System.Diagnostics;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Cli;

/// <summary>Whether notebooks can be opened in Jupyter with the kit's kernel: what is there, what is not, and how to get it.</summary>
internal sealed class KernelCheck(KernelInstallation installation)
{
    private const string GetJupyter = "On Debian: apt-get install jupyter-notebook jupyter-nbconvert. Elsewhere: pip install notebook nbconvert.";
    private const string Install = "Run: tastingkit kernel install";

    private static readonly string[] Fronts = ["jupyter-notebook", "jupyter-lab"];

    private static readonly TimeSpan JupyterLimit = TimeSpan.FromSeconds(30);

    /// <summary>One thing that was looked at.</summary>
    /// <param name="What">What it is and what was found.</param>
    /// <param name="Remedy">How to get it; <see langword="null"/> if it is as it should be.</param>
    internal sealed record Finding(string What, string? Remedy);

    /// <summary>Looks at everything, in the order in which it is needed.</summary>
    internal IReadOnlyList<Finding> Run()
    {
        var jupyter = FindOnPath("jupyter");
        List<Finding> findings = [Runtime(), Notebooks(jupyter), NbConvert(), Installed(), .. Current()];
        if (jupyter is not null && installation.CommandLine() is not null)
            findings.Add(SeenBy(jupyter));
        return findings;
    }

    private static Finding Runtime() => new($".NET {Environment.Version} by {DotnetExecutable.Find()}", null);

    private static Finding Notebooks(string? jupyter)
    {
        var fronts = Fronts.Select(FindOnPath).OfType<string>().ToArray();
        return jupyter is not null && fronts.Length > 0
            ? new($"Jupyter: {string.Join(", ", fronts)}", null)
            : new("Jupyter: there is no jupyter with a jupyter-notebook or jupyter-lab on the PATH.", GetJupyter);
    }

    private static Finding NbConvert() => FindOnPath("jupyter-nbconvert") is { } found
        ? new($"nbconvert: {found}", null)
        : new("nbconvert: there is no jupyter-nbconvert on the PATH, which makes pages of notebooks.", GetJupyter);

    private Finding Installed()
    {
        if (installation.CommandLine() is not { } command)
            return new($"The kernel: there is none in {installation.Folder}.", Install);
        var missing = command.Take(2).Where(file => Path.IsPathRooted(file) && !File.Exists(file)).ToArray();
        return missing.Length == 0
            ? new($"The kernel: {installation.Folder}", null)
            : new($"The kernel: {installation.Folder} wants {string.Join(" and ", missing)}, which is not there.", Install);
    }

    private IEnumerable<Finding> Current()
    {
        if (installation.CommandLine() is not [_, var assembly, ..] || !File.Exists(assembly))
            yield break;
        yield return KernelFiles.Fingerprint(Path.GetDirectoryName(assembly)!) == KernelFiles.Fingerprint(KernelFiles.OfThisBuild)
            ? new("The kernel is that of this build.", null)
            : new("The kernel is that of another build than this command.", Install + ", then restart the kernels of open notebooks.");
    }

    private Finding SeenBy(string jupyter)
    {
        if (DataFolders(jupyter) is not { } folders)
            return new("Jupyter did not say where it looks for kernels ('jupyter --paths --json').", GetJupyter);
        var found = folders.Select(folder => new KernelInstallation(folder).Folder).FirstOrDefault(Directory.Exists);
        return found == installation.Folder
            ? new("Jupyter finds the kernel there.", null)
            : new(
                found is null ? "Jupyter does not look for kernels there." : $"Jupyter finds another kernel of that name first: {found}.",
                $"Set JUPYTER_DATA_DIR to {folders[0]} and run: tastingkit kernel install");
    }

    private static string[]? DataFolders(string jupyter)
    {
        using var process = Process.Start(new ProcessStartInfo(jupyter, ["--paths", "--json"]) { RedirectStandardOutput = true, RedirectStandardError = true })!;
        var output = process.StandardOutput.ReadToEndAsync();
        _ = process.StandardError.ReadToEndAsync();
        if (!process.WaitForExit(JupyterLimit))
        {
            process.Kill(entireProcessTree: true);
            return null;
        }

        try
        {
            return JsonNode.Parse(output.Result)?["data"] is JsonArray { Count: > 0 } folders ? [.. folders.Select(folder => Path.GetFullPath((string)folder!))] : null;
        }
        catch (Exception error) when (error is JsonException or InvalidOperationException)
        {
            return null;
        }
    }

    private static string? FindOnPath(string name)
    {
        string[] endings = OperatingSystem.IsWindows() ? [".exe", ".cmd", ".bat"] : [""];
        return (Environment.GetEnvironmentVariable("PATH") ?? "").Split(Path.PathSeparator, StringSplitOptions.RemoveEmptyEntries)
            .SelectMany(folder => endings.Select(ending => Path.Combine(folder, name + ending)))
            .FirstOrDefault(File.Exists);
    }
}
