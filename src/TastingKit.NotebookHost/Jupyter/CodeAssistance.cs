using System.Text.Json.Nodes;

namespace TastingKit.NotebookHost.Jupyter;

/// <summary>
/// What Jupyter shows while a person types: how a word could go on, and what it means. Jupyter counts a cell's characters as
/// Unicode code points; C# counts UTF-16 units.
/// </summary>
internal static class CodeAssistance
{
    internal static async Task<JsonObject> CompleteAsync(CellKernel kernel, string code, int cursor)
    {
        var end = ToUnits(code, cursor);
        var start = end;
        while (start > 0 && (char.IsLetterOrDigit(code[start - 1]) || code[start - 1] == '_'))
            start--;
        var begun = code[start..end];
        var matches = (await kernel.CompleteAsync(code, end))
            .Where(word => word.StartsWith(begun, StringComparison.OrdinalIgnoreCase))
            .Distinct(StringComparer.Ordinal);
        return new JsonObject
        {
            ["status"] = "ok",
            ["matches"] = new JsonArray([.. matches.Select(word => JsonValue.Create(word))]),
            ["cursor_start"] = ToCodePoints(code, start),
            ["cursor_end"] = ToCodePoints(code, end),
            ["metadata"] = new JsonObject(),
        };
    }

    internal static async Task<JsonObject> InspectAsync(CellKernel kernel, string code, int cursor)
    {
        var description = await kernel.DescribeAsync(code, ToUnits(code, cursor));
        return new JsonObject
        {
            ["status"] = "ok",
            ["found"] = description is not null,
            ["data"] = description is null ? new JsonObject() : new JsonObject { ["text/plain"] = description, ["text/markdown"] = description },
            ["metadata"] = new JsonObject(),
        };
    }

    private static int ToUnits(string code, int codePoints)
    {
        var units = 0;
        foreach (var rune in code.EnumerateRunes().Take(codePoints))
            units += rune.Utf16SequenceLength;
        return units;
    }

    private static int ToCodePoints(string code, int units)
    {
        var codePoints = 0;
        foreach (var _ in code.AsSpan(0, units).EnumerateRunes())
            codePoints++;
        return codePoints;
    }
}
