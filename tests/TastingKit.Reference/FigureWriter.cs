using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.Json.Nodes;

namespace TastingKit.Reference;

/// <summary>Writes figures as JSON with 17 significant digits.</summary>
internal static class FigureWriter
{
    private static readonly JsonWriterOptions Options = new() { Indented = true, Encoder = JavaScriptEncoder.UnsafeRelaxedJsonEscaping };

    public static string ToJson(JsonNode figures)
    {
        using var buffer = new MemoryStream();
        using (var writer = new Utf8JsonWriter(buffer, Options))
        {
            Write(writer, figures);
        }

        return Encoding.UTF8.GetString(buffer.ToArray());
    }

    private static void Write(Utf8JsonWriter writer, JsonNode? node)
    {
        switch (node)
        {
            case null:
                writer.WriteNullValue();
                break;
            case JsonObject members:
                writer.WriteStartObject();
                foreach (var (name, value) in members)
                {
                    writer.WritePropertyName(name);
                    Write(writer, value);
                }

                writer.WriteEndObject();
                break;
            case JsonArray items:
                writer.WriteStartArray();
                foreach (var item in items)
                {
                    Write(writer, item);
                }

                writer.WriteEndArray();
                break;
            case JsonValue value when value.TryGetValue(out double number):
                WriteNumber(writer, number);
                break;
            default:
                node.WriteTo(writer);
                break;
        }
    }

    // JSON has no infinity: it is written as a word, as the references do; what is undefined is null.
    private static void WriteNumber(Utf8JsonWriter writer, double number)
    {
        if (double.IsNaN(number))
        {
            writer.WriteNullValue();
        }
        else if (double.IsInfinity(number))
        {
            writer.WriteStringValue(number > 0.0 ? "Infinity" : "-Infinity");
        }
        else
        {
            writer.WriteRawValue(number.ToString("G17", CultureInfo.InvariantCulture));
        }
    }
}
