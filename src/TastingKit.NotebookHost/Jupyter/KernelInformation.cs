using System.Reflection;
using System.Text.Json.Nodes;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>What Jupyter wants to know of a kernel: who it is, and what its cells are written in.</summary>
internal static class KernelInformation
{
    private static readonly string Version = typeof(KernelInformation).Assembly.GetCustomAttribute<AssemblyInformationalVersionAttribute>()!.InformationalVersion;

    internal static JsonObject Create() => new()
    {
        ["status"] = "ok",
        ["protocol_version"] = "5.3",
        ["implementation"] = "tastingkit",
        ["implementation_version"] = Version,
        ["banner"] = "C# with TastingKit",
        ["help_links"] = new JsonArray(),
        ["language_info"] = new JsonObject
        {
            ["name"] = "C#",
            ["version"] = "14.0",
            ["mimetype"] = "text/x-csharp",
            ["file_extension"] = ".cs",
            ["pygments_lexer"] = "csharp",
            ["codemirror_mode"] = "text/x-csharp",
        },
    };
}
