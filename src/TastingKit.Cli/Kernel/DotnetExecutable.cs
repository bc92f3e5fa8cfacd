using System.Runtime.InteropServices;

namespace TastingKit.Cli;

/// <summary>The dotnet that runs this very process, so that what it starts uses the same runtime.</summary>
internal static class DotnetExecutable
{
    /// <summary>Its full path, or its bare name where it does not lie beside the runtime.</summary>
    internal static string Find()
    {
        var name = OperatingSystem.IsWindows() ? "dotnet.exe" : "dotnet";
        var beside = Path.GetFullPath(Path.Combine(RuntimeEnvironment.GetRuntimeDirectory(), "..", "..", "..", name));
        return File.Exists(beside) ? beside : name;
    }
}
