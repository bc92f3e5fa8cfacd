using System.Text;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Pages;

/// <summary>
/// A notebook's file as text, in which values of cells are replaced and cells put in while every other byte stays. Reading
/// the JSON and writing it anew would change spacing and escapes of what is none of the kit's business.
/// </summary>
internal sealed class NotebookText
{
    private const int DepthOfCell = 2;
    private const int DepthOfProperty = 3;

    private readonly byte[] _text;
    private readonly List<Cell> _cells;
    private readonly List<Edit> _edits = [];

    /// <param name="json">The text of a notebook that has been read as one.</param>
    internal NotebookText(string json)
    {
        _text = Encoding.UTF8.GetBytes(json);
        _cells = Find(_text);
    }

    /// <summary>Gives a cell's property another value; a property that the cell lacks becomes its last.</summary>
    internal void Replace(int cell, string property, JsonNode? value)
    {
        var json = Written(value, DepthOfProperty);
        if (_cells[cell].Properties.TryGetValue(property, out var place))
        {
            _edits.Add(new Edit(place.Start, place.End, json));
            return;
        }

        var end = _cells[cell].ContentsEnd;
        var comma = _cells[cell].Properties.Count > 0 ? "," : "";
        _edits.Add(new Edit(end, end, $"{comma}\n{Indent(DepthOfProperty)}{JsonValue.Create(property).ToJsonString()}: {json}"));
    }

    /// <summary>Puts a cell in behind another.</summary>
    internal void InsertAfter(int cell, JsonNode inserted)
    {
        var end = _cells[cell].End;
        _edits.Add(new Edit(end, end, $",\n{Indent(DepthOfCell)}{Written(inserted, DepthOfCell)}"));
    }

    /// <summary>The text with all edits made.</summary>
    public override string ToString()
    {
        var edited = new StringBuilder();
        var at = 0;
        // The order is stable: several properties that a cell lacks come as they were asked for.
        foreach (var edit in _edits.OrderBy(edit => edit.Start))
        {
            edited.Append(Encoding.UTF8.GetString(_text, at, edit.Start - at)).Append(edit.Text);
            at = edit.End;
        }

        return edited.Append(Encoding.UTF8.GetString(_text, at, _text.Length - at)).ToString();
    }

    /// <summary>JSON as Jupyter spaces it: a line feed in it is never one of a text, where it would be escaped.</summary>
    private static string Written(JsonNode? value, int depth) =>
        value is null ? "null" : value.ToJsonString(NotebookJson.Options).Replace("\n", "\n" + Indent(depth), StringComparison.Ordinal);

    private static string Indent(int depth) => new(' ', depth);

    private static List<Cell> Find(ReadOnlySpan<byte> text)
    {
        var cells = new List<Cell>();
        var reader = new Utf8JsonReader(text);
        reader.Read();
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var isCells = reader.ValueTextEquals("cells"u8);
            reader.Read();
            if (!isCells)
            {
                reader.Skip();
                continue;
            }

            while (reader.Read() && reader.TokenType == JsonTokenType.StartObject)
                cells.Add(ReadCell(ref reader));
        }

        return cells;
    }

    private static Cell ReadCell(ref Utf8JsonReader reader)
    {
        var properties = new Dictionary<string, Place>(StringComparer.Ordinal);
        var contentsEnd = (int)reader.BytesConsumed;
        while (reader.Read() && reader.TokenType == JsonTokenType.PropertyName)
        {
            var name = reader.GetString()!;
            reader.Read();
            var start = (int)reader.TokenStartIndex;
            reader.Skip();
            contentsEnd = (int)reader.BytesConsumed;
            properties[name] = new Place(start, contentsEnd);
        }

        return new Cell(properties, contentsEnd, (int)reader.BytesConsumed);
    }

    private sealed record Cell(IReadOnlyDictionary<string, Place> Properties, int ContentsEnd, int End);

    private readonly record struct Place(int Start, int End);

    private sealed record Edit(int Start, int End, string Text);
}
