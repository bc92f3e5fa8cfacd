using System.Reflection.Metadata;
using System.Reflection.PortableExecutable;

namespace TastingKit.Cli.Tests.Architecture;

/// <summary>
/// Which room knows which: project references keep most of it, and this what they can't (packages, and what a compiler took
/// in after all). Read from the assemblies' metadata, without loading them.
/// </summary>
public sealed class RoomsTests
{
    private static readonly string Host = Path.Combine(AppContext.BaseDirectory, "host");

    /// <summary>Every room, and what it may know beside the framework.</summary>
    private static readonly Dictionary<string, string[]> MayKnow = new()
    {
        ["TastingKit.Statistics"] = ["MathNet.Numerics"],
        ["TastingKit"] = ["TastingKit.Statistics", "CsvHelper", "ExcelDataReader", "F23.StringSimilarity", "Microsoft.Data.Analysis"],
        ["TastingKit.Charts"] = ["TastingKit", "TastingKit.Statistics", "Plotly.NET", "DynamicObj", "FSharp.Core", "Microsoft.Data.Analysis"],
        ["TastingKit.Pages"] = ["TastingKit", "TastingKit.Charts", "Markdig"],
        ["TastingKit.Cli"] = ["TastingKit", "TastingKit.Pages", "System.CommandLine", "Microsoft.CodeAnalysis", "Microsoft.CodeAnalysis.CSharp"],
        ["TastingKit.Notebooks"] = ["TastingKit", "TastingKit.Charts", "Microsoft.DotNet.Interactive", "Microsoft.DotNet.Interactive.Formatting", "System.Reactive"],
        ["TastingKit.NotebookHost"] =
        [
            "TastingKit", "TastingKit.Notebooks", "Microsoft.DotNet.Interactive", "Microsoft.DotNet.Interactive.CSharp",
            "Microsoft.DotNet.Interactive.Formatting", "Microsoft.CodeAnalysis", "Microsoft.CodeAnalysis.Scripting", "System.Reactive", "NetMQ",
        ],
    };

    public static TheoryData<string> Rooms => [.. MayKnow.Keys];

    [Theory]
    [MemberData(nameof(Rooms))]
    public void A_room_knows_only_what_it_may(string room)
    {
        var unknown = References(room).Where(name => !IsFramework(name)).Except(MayKnow[room]).ToArray();
        Assert.True(unknown.Length == 0, $"{room} knows {string.Join(", ", unknown)}. It may know {string.Join(", ", MayKnow[room])}.");
    }

    [Fact]
    public void Only_the_notebook_rooms_reach_the_retired_kernel()
    {
        var reaching = MayKnow.Keys.Where(room => Reach(room).Any(name => name.StartsWith("Microsoft.DotNet.Interactive", StringComparison.Ordinal)));
        Assert.Equal(["TastingKit.NotebookHost", "TastingKit.Notebooks"], reaching.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void Every_room_of_the_solution_is_listed()
    {
        var built = new[] { AppContext.BaseDirectory, Host }
            .SelectMany(folder => Directory.GetFiles(folder, "TastingKit*.dll"))
            .Select(file => Path.GetFileNameWithoutExtension(file)!)
            .Where(name => !name.EndsWith(".Tests", StringComparison.Ordinal))
            .Distinct();
        Assert.Equal(MayKnow.Keys.Order(StringComparer.Ordinal), built.Order(StringComparer.Ordinal));
    }

    [Fact]
    public void The_command_and_its_host_run_the_same_library()
    {
        foreach (var shared in new[] { "TastingKit.Statistics", "TastingKit", "TastingKit.Charts" })
            Assert.Equal(File.ReadAllBytes(Path.Combine(AppContext.BaseDirectory, shared + ".dll")), File.ReadAllBytes(Path.Combine(Host, shared + ".dll")));
    }

    private static bool IsFramework(string name) =>
        name is "netstandard" or "mscorlib" || (name.StartsWith("System.", StringComparison.Ordinal) && File.Exists(Path.Combine(Path.GetDirectoryName(typeof(object).Assembly.Location)!, name + ".dll")));

    private static HashSet<string> Reach(string room)
    {
        var reached = new HashSet<string>(StringComparer.Ordinal);
        var open = new Queue<string>([room]);
        while (open.TryDequeue(out var next))
        {
            foreach (var name in References(next).Where(name => !IsFramework(name) && reached.Add(name)))
                open.Enqueue(name);
        }

        return reached;
    }

    private static string[] References(string name)
    {
        var file = new[] { AppContext.BaseDirectory, Host }.Select(folder => Path.Combine(folder, name + ".dll")).FirstOrDefault(File.Exists);
        if (file is null)
            return [];
        using var assembly = new PEReader(File.OpenRead(file));
        var metadata = assembly.GetMetadataReader();
        return [.. metadata.AssemblyReferences.Select(handle => metadata.GetString(metadata.GetAssemblyReference(handle).Name))];
    }
}
