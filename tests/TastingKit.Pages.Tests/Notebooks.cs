using System.Text.Json.Nodes;

namespace TastingKit.Pages.Tests;

/// <summary>Small notebooks and outputs, put together by hand: no kernel is needed to test a page.</summary>
internal static class Notebooks
{
    internal static NotebookDocument Of(params ReadOnlySpan<(string Kind, string Source)> cells) => NotebookDocument.Parse("small.ipynb", Json(cells).ToJsonString());

    internal static JsonObject Json(params ReadOnlySpan<(string Kind, string Source)> cells)
    {
        var array = new JsonArray();
        foreach (var (kind, source) in cells)
        {
            var cell = new JsonObject
            {
                ["cell_type"] = kind,
                ["id"] = $"cell-{array.Count}",
                ["metadata"] = new JsonObject(),
                ["source"] = source,
            };
            if (kind == "code")
            {
                cell["execution_count"] = 17;
                cell["outputs"] = new JsonArray(new JsonObject { ["output_type"] = "stream", ["name"] = "stdout", ["text"] = "old" });
            }

            array.Add(cell);
        }

        return new JsonObject
        {
            ["cells"] = array,
            ["metadata"] = new JsonObject { ["kernelspec"] = new JsonObject { ["display_name"] = "C#", ["language"] = "C#", ["name"] = "any-csharp" } },
            ["nbformat"] = 4,
            ["nbformat_minor"] = 5,
        };
    }

    /// <summary>Outputs for the cells 1, 2, … in their order.</summary>
    internal static Dictionary<int, IReadOnlyList<CellOutput>> Outputs(params ReadOnlySpan<CellOutput[]> cells)
    {
        var outputs = new Dictionary<int, IReadOnlyList<CellOutput>>();
        foreach (var cell in cells)
            outputs[outputs.Count + 1] = cell;
        return outputs;
    }

    internal static CellOutput Html(string html) => new CellOutput.Shown(true, new Dictionary<string, string> { ["text/html"] = html, ["text/plain"] = "plain" });

    internal static CellOutput Shown(string type, string data) => new CellOutput.Shown(true, new Dictionary<string, string> { [type] = data });
}
