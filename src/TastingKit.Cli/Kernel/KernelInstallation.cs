using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Cli;

/// <summary>
/// The kernel as Jupyter knows it: one folder under the kernels of Jupyter's data folder, which holds <c>kernel.json</c> and a
/// copy of the notebook host. Nothing is kept or changed anywhere else.
/// </summary>
internal sealed class KernelInstallation
{
    internal const string Name = "tastingkit";
    internal const string DisplayName = "C# with TastingKit";

    private const string HostPrefix = "host-";

    private static readonly JsonSerializerOptions Json = new() { WriteIndented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    /// <param name="jupyterData">Jupyter's data folder; see <see cref="JupyterData"/>.</param>
    internal KernelInstallation(string jupyterData) => Folder = Path.Combine(jupyterData, "kernels", Name);

    /// <summary>The kernel's own folder.</summary>
    internal string Folder { get; }

    private string Specification => Path.Combine(Folder, "kernel.json");

    /// <summary>The copies of hosts that lie in the folder.</summary>
    private IEnumerable<string> Hosts => Directory.Exists(Folder) ? Directory.GetDirectories(Folder, HostPrefix + "*") : [];

    /// <summary>The command line that Jupyter would run; <see langword="null"/> if the kernel is not installed.</summary>
    /// <exception cref="CommandException">A kernel of that name is there that this command has not made.</exception>
    internal IReadOnlyList<string>? CommandLine()
    {
        if (!File.Exists(Specification))
            return null;
        try
        {
            var specification = JsonNode.Parse(File.ReadAllText(Specification));
            if (specification?["metadata"]?[Name] is not null && specification["argv"] is JsonArray arguments)
                return [.. arguments.Select(argument => (string?)argument ?? "")];
        }
        catch (Exception error) when (error is JsonException or InvalidOperationException)
        {
            // Not ours, then.
        }

        throw new CommandException(
            $"There is a kernel of the name '{Name}' in '{Folder}' that this command has not made. It is left alone; move it away if you want the kit's.");
    }

    /// <summary>Puts the host of a build in place, in whatever state the folder is. Jupyter sees the kernel before, or the new one.</summary>
    /// <param name="host">The folder of the build's host.</param>
    /// <returns>Copies of older builds that could not be deleted since they are in use.</returns>
    internal IReadOnlyList<string> Install(string host)
    {
        _ = CommandLine();
        var copy = Path.Combine(Folder, HostPrefix + KernelFiles.Fingerprint(host));
        if (!IsWhole(copy))
            KernelFiles.Copy(host, copy);
        Directory.CreateDirectory(Folder);
        using (var file = new OutputFile(Specification))
            file.Write(Specify(KernelFiles.AssemblyIn(copy)));
        return [.. Hosts.Where(other => other != copy && !TryDelete(other))];
    }

    /// <summary>Deletes what <see cref="Install"/> has made, and nothing else.</summary>
    /// <returns>What was deleted; empty if nothing was there.</returns>
    /// <exception cref="CommandException">Something is in use.</exception>
    internal IReadOnlyList<string> Remove()
    {
        _ = CommandLine();
        var removed = new List<string>();
        foreach (var host in Hosts)
        {
            if (!TryDelete(host))
                throw new CommandException($"'{host}' is in use. Close the notebooks that run in the kernel '{DisplayName}', then remove it again.");
            removed.Add(host);
        }

        if (File.Exists(Specification))
        {
            File.Delete(Specification);
            removed.Add(Specification);
        }

        if (Directory.Exists(Folder) && !Directory.EnumerateFileSystemEntries(Folder).Any())
        {
            Directory.Delete(Folder);
            removed.Add(Folder);
        }

        return removed;
    }

    /// <summary>Whether the files are those that the folder's name promises.</summary>
    private static bool IsWhole(string copy) =>
        File.Exists(KernelFiles.AssemblyIn(copy)) && copy.EndsWith(HostPrefix + KernelFiles.Fingerprint(copy), StringComparison.Ordinal);

    private static string Specify(string assembly) => new JsonObject
    {
        ["argv"] = new JsonArray(DotnetExecutable.Find(), assembly, "jupyter", "{connection_file}"),
        ["display_name"] = DisplayName,
        ["language"] = "C#",
        // A signal would need a process of its own to catch it on every system; a message is the same everywhere.
        ["interrupt_mode"] = "message",
        ["metadata"] = new JsonObject { [Name] = new JsonObject { ["madeBy"] = "tastingkit kernel install" } },
    }.ToJsonString(Json) + "\n";

    private static bool TryDelete(string folder)
    {
        try
        {
            Directory.Delete(folder, recursive: true);
            return true;
        }
        catch (Exception error) when (error is IOException or UnauthorizedAccessException)
        {
            return false;
        }
    }
}
