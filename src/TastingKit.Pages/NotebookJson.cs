using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;
using System.Text.Unicode;

namespace TastingKit.Pages;

/// <summary>The small pieces of the notebook format.</summary>
internal static class NotebookJson
{
    internal static JsonSerializerOptions Options { get; } = new()
    {
        WriteIndented = true,
        IndentSize = 1,
        NewLine = "\n",
        Encoder = JavaScriptEncoder.Create(UnicodeRanges.All),
    };

    /// <summary>A text that the format holds either whole or as a list of lines.</summary>
    internal static string Text(JsonNode? node) => node switch
    {
        null => "",
        JsonArray lines => string.Concat(lines.Select(line => (string?)line)),
        _ => (string?)node ?? "",
    };

    internal static Dictionary<string, string> Attachments(JsonNode? node)
    {
        var attachments = new Dictionary<string, string>(StringComparer.Ordinal);
        foreach (var (name, bundle) in node as JsonObject ?? [])
        {
            foreach (var (type, data) in bundle as JsonObject ?? [])
            {
                if (type.StartsWith("image/", StringComparison.Ordinal))
                    attachments[name] = $"data:{type};base64,{Text(data).ReplaceLineEndings("")}";
            }
        }

        return attachments;
    }

    internal static IReadOnlyList<string> Tags(JsonNode? metadata) =>
        [.. (metadata?["tags"] as JsonArray ?? []).Where(tag => tag?.GetValueKind() == JsonValueKind.String).Select(tag => (string)tag!)];

    /// <summary>The cell of values; without an identifier where the format knows none.</summary>
    internal static JsonObject ValuesCell(string source, string? id)
    {
        var cell = new JsonObject { ["cell_type"] = "code", ["execution_count"] = null };
        if (id is not null)
            cell["id"] = id;
        cell["metadata"] = new JsonObject { ["tags"] = new JsonArray(NotebookCell.Code.ValuesTag) };
        cell["outputs"] = new JsonArray();
        cell["source"] = Lines(source);
        return cell;
    }

    internal static JsonObject Output(CellOutput output, int executionCount) => output.Match(
        printed => new JsonObject
        {
            ["name"] = printed.IsError ? "stderr" : "stdout",
            ["output_type"] = "stream",
            ["text"] = Lines(printed.Text),
        },
        shown =>
        {
            var json = new JsonObject { ["data"] = Bundle(shown.Data) };
            if (shown.IsResult)
                json["execution_count"] = executionCount;
            json["metadata"] = new JsonObject();
            json["output_type"] = shown.IsResult ? "execute_result" : "display_data";
            return json;
        });

    private static JsonObject Bundle(IReadOnlyDictionary<string, string> data)
    {
        var bundle = new JsonObject();
        foreach (var (type, value) in data.OrderBy(pair => pair.Key, StringComparer.Ordinal))
            bundle[type] = type.EndsWith("json", StringComparison.Ordinal) ? JsonNode.Parse(value) : Lines(value);
        return bundle;
    }

    /// <summary>The text as the format prefers it, a list of lines that keep their line feeds.</summary>
    private static JsonArray Lines(string text)
    {
        var lines = new JsonArray();
        for (var start = 0; start < text.Length;)
        {
            var end = text.IndexOf('\n', start);
            end = end < 0 ? text.Length : end + 1;
            lines.Add(text[start..end]);
            start = end;
        }

        return lines;
    }
}
