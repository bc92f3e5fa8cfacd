using System.Security.Cryptography;
using System.Text;

namespace TastingKit.Cli;

/// <summary>
/// The files of the notebook host: those of this build beside the command, and copies of them. Jupyter runs a copy, so that a
/// build may be made anew, moved or deleted while notebooks are open.
/// </summary>
internal static class KernelFiles
{
    private const string Assembly = "TastingKit.NotebookHost.dll";

    private const int FingerprintLength = 12;

    /// <summary>The host of this build.</summary>
    internal static string OfThisBuild => Path.Combine(AppContext.BaseDirectory, "host");

    /// <summary>Where the program lies in a folder of the host's files, whether or not it is there.</summary>
    internal static string AssemblyIn(string folder) => Path.Combine(folder, Assembly);

    /// <summary>The program in a folder of the host's files.</summary>
    /// <exception cref="CommandException">There is no host in the folder.</exception>
    internal static string Executable(string folder)
    {
        var assembly = AssemblyIn(folder);
        return File.Exists(assembly) ? assembly : throw new CommandException($"The notebook host is missing: there is no '{assembly}'. Build the solution again.");
    }

    /// <summary>A name that changes with any byte of the files.</summary>
    /// <exception cref="CommandException">There is no host in the folder.</exception>
    internal static string Fingerprint(string folder)
    {
        _ = Executable(folder);
        using var hash = IncrementalHash.CreateHash(HashAlgorithmName.SHA256);
        foreach (var name in Names(folder))
        {
            hash.AppendData(Encoding.UTF8.GetBytes(name.Replace('\\', '/') + "\n"));
            hash.AppendData(SHA256.HashData(File.ReadAllBytes(Path.Combine(folder, name))));
        }

        return Convert.ToHexStringLower(hash.GetHashAndReset())[..FingerprintLength];
    }

    /// <summary>Copies the files; the target appears whole or not at all.</summary>
    internal static void Copy(string folder, string target)
    {
        var unfinished = $"{target}.{Environment.ProcessId}.unfinished";
        try
        {
            foreach (var name in Names(folder))
            {
                var copy = Path.Combine(unfinished, name);
                Directory.CreateDirectory(Path.GetDirectoryName(copy)!);
                File.Copy(Path.Combine(folder, name), copy, overwrite: true);
            }

            if (Directory.Exists(target))
                Directory.Delete(target, recursive: true);
            Directory.Move(unfinished, target);
        }
        finally
        {
            if (Directory.Exists(unfinished))
                Directory.Delete(unfinished, recursive: true);
        }
    }

    private static IEnumerable<string> Names(string folder) =>
        Directory.EnumerateFiles(folder, "*", SearchOption.AllDirectories).Select(file => Path.GetRelativePath(folder, file)).Order(StringComparer.Ordinal);
}
