using System.Collections;
using System.Globalization;
using System.Text;
using System.Text.Encodings.Web;
using System.Text.Json;
using System.Text.RegularExpressions;
using System.Text.Unicode;
using Plotly.NET;

namespace TastingKit.Charts;

/// <summary>
/// Writes a figure as JSON. Plotly.NET's own writer goes through reflection and a large default template, which costs more
/// than the rest of a chart; a figure is a tree of property bags, and this walks it.
/// </summary>
internal static partial class FigureJson
{
    private const int DefaultHeight = 420;

    /// <summary>Letters of every script as they are; what could end a script element or a line of JavaScript escaped.</summary>
    internal static JsonWriterOptions WriterOptions { get; } = new() { Encoder = JavaScriptEncoder.Create(UnicodeRanges.All) };

    internal static string Write(IReadOnlyList<Trace> traces, Layout layout)
    {
        using var stream = new MemoryStream();
        using (var json = new Utf8JsonWriter(stream, WriterOptions))
        {
            json.WriteStartObject();
            json.WritePropertyName("data");
            WriteValue(json, traces);
            json.WritePropertyName("layout");
            WriteValue(json, layout);
            json.WriteEndObject();
        }

        return Encoding.UTF8.GetString(stream.ToArray());
    }

    internal static int Height(Layout layout) =>
        layout.Properties.TryGetValue("height", out var height) && height is IConvertible number
            ? Convert.ToInt32(number, CultureInfo.InvariantCulture)
            : DefaultHeight;

    private static void WriteValue(Utf8JsonWriter json, object? value)
    {
        switch (value)
        {
            case null:
                json.WriteNullValue();
                break;
            case string text:
                json.WriteStringValue(OnlyPlainMarkup(text));
                break;
            case bool truth:
                json.WriteBooleanValue(truth);
                break;
            case double number:
                WriteNumber(json, number);
                break;
            case float number:
                WriteNumber(json, number);
                break;
            case DateTime moment:
                json.WriteStringValue(moment.ToString(moment.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : "yyyy-MM-dd HH:mm:ss", CultureInfo.InvariantCulture));
                break;
            case DateOnly day:
                json.WriteStringValue(day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture));
                break;
            case Color color:
                WriteValue(json, color.Value);
                break;
            case ARGB color:
                json.WriteStringValue(string.Create(CultureInfo.InvariantCulture, $"rgba({color.R},{color.G},{color.B},{color.A / 255.0:0.###})"));
                break;
            case DynamicObj.DynamicObj bag:
                WriteBag(json, bag);
                break;
            case IDictionary<string, object> bag:
                WriteProperties(json, bag);
                break;
            case IEnumerable sequence:
                json.WriteStartArray();
                foreach (var item in sequence)
                    WriteValue(json, item);
                json.WriteEndArray();
                break;
            case sbyte or byte or short or ushort or int or uint or long:
                json.WriteNumberValue(Convert.ToInt64(value, CultureInfo.InvariantCulture));
                break;
            case decimal number:
                json.WriteNumberValue(number);
                break;
            default:
                throw new ArgumentException($"A figure can't hold a {value.GetType()}: give it text, numbers, dates, or a list of these.", nameof(value));
        }
    }

    private static void WriteBag(Utf8JsonWriter json, DynamicObj.DynamicObj bag)
    {
        json.WriteStartObject();
        if (bag is Trace trace)
            json.WriteString("type", trace.type);
        Members(json, bag.Properties);
        json.WriteEndObject();
    }

    private static void WriteProperties(Utf8JsonWriter json, IDictionary<string, object> bag)
    {
        json.WriteStartObject();
        Members(json, bag);
        json.WriteEndObject();
    }

    private static void Members(Utf8JsonWriter json, IEnumerable<KeyValuePair<string, object>> members)
    {
        foreach (var (name, value) in members)
        {
            json.WritePropertyName(name);
            WriteValue(json, value);
        }
    }

    /// <summary>
    /// Nine significant digits: far below a pixel, and above the last bits in which two machines may differ. A number that
    /// is not finite is a gap.
    /// </summary>
    private static void WriteNumber(Utf8JsonWriter json, double number)
    {
        if (!double.IsFinite(number))
        {
            json.WriteNullValue();
            return;
        }

        var text = number.ToString("G9", CultureInfo.InvariantCulture);
        json.WriteRawValue(text == "-0" ? "0" : text);
    }

    /// <summary>The guard behind <see cref="ChartText.Literal"/>: no tag but plain type and line breaks gets into a figure.</summary>
    private static string OnlyPlainMarkup(string text) =>
        text.Contains('<', StringComparison.Ordinal) ? TagsNotAllowed().Replace(text, "&lt;") : text;

    [GeneratedRegex("<(?!(?:br|/?b|/?i|/?sub|/?sup|/?extra)>)", RegexOptions.CultureInvariant)]
    private static partial Regex TagsNotAllowed();
}
