using System.Text.Json.Nodes;

namespace TastingKit.Cli.Tests;

/// <summary>Notebooks put together by a test.</summary>
internal static class NotebookText
{
    internal const string SetUp = "#r \"TastingKit.Notebooks\"\nusing TastingKit; using TastingKit.Charts; using TastingKit.Notebooks;\nTastingNotebook.Start()";

    /// <summary>A first cell that can't find its assembly, as in a kernel that is not the kit's.</summary>
    internal const string FailingSetUp = "#r \"TastingKit.Nowhere\"\n\"set up\"";

    /// <summary>What every way of running a notebook says to it.</summary>
    internal const string FailingSetUpAdvice = "Metadata file 'TastingKit.Nowhere' could not be found. By name alone only the kit's own assemblies and those of .NET are found";

    /// <summary>A notebook of the cells given; a kind may be followed by a tag, as in <c>code parameters</c>.</summary>
    internal static string Of(params ReadOnlySpan<(string Kind, string Source)> cells)
    {
        var array = new JsonArray();
        foreach (var (kind, source) in cells)
        {
            var words = kind.Split(' ');
            var cell = new JsonObject { ["cell_type"] = words[0], ["id"] = $"cell-{array.Count}", ["metadata"] = new JsonObject(), ["source"] = source };
            if (words.Length > 1)
                cell["metadata"]!["tags"] = new JsonArray(words[1]);
            if (words[0] == "code")
                (cell["execution_count"], cell["outputs"]) = (null, new JsonArray());
            array.Add(cell);
        }

        return new JsonObject
        {
            ["cells"] = array,
            ["metadata"] = new JsonObject { ["kernelspec"] = new JsonObject { ["display_name"] = "C#", ["language"] = "C#", ["name"] = "tastingkit" } },
            ["nbformat"] = 4,
            ["nbformat_minor"] = 5,
        }.ToJsonString();
    }
}
