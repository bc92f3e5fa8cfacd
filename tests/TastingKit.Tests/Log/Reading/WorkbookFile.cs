using System.Globalization;
using System.IO.Compression;
using System.Security;
using System.Text;

namespace TastingKit.Tests.Log.Reading;

/// <summary>Writes a small workbook by hand, cell by cell as the format stores it, so that no library of ours has a say in it.</summary>
internal static class WorkbookFile
{
    private const string Main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    private const string Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    private const string Package = "http://schemas.openxmlformats.org/package/2006";

    /// <summary>Styles of cells: 0 general, 1 date, 2 date and time, 3 time, 4 per cent, 5 hours over 24.</summary>
    private const string Styles = $"""
        <styleSheet xmlns="{Main}"><cellXfs count="6"><xf numFmtId="0"/><xf numFmtId="14" applyNumberFormat="1"/><xf numFmtId="22" applyNumberFormat="1"/><xf numFmtId="21" applyNumberFormat="1"/><xf numFmtId="10" applyNumberFormat="1"/><xf numFmtId="46" applyNumberFormat="1"/></cellXfs></styleSheet>
        """;

    /// <summary>Writes the sheets. A cell is a text, a double, a bool, a DateTime, a TimeSpan, a <see cref="Failed"/>, or a pair of a double and its style.</summary>
    public static void Write(string path, params (string Name, IEnumerable<object?[]> Rows)[] sheets) => Write(path, shareTexts: false, sheets);

    /// <summary>Writes the sheets, each text where it stands or, as spreadsheets do, all of them once in a list of their own.</summary>
    public static void Write(string path, bool shareTexts, params (string Name, IEnumerable<object?[]> Rows)[] sheets)
    {
        var shared = shareTexts ? new Dictionary<string, int>(StringComparer.Ordinal) : null;
        using var zip = ZipFile.Open(path, ZipArchiveMode.Create);
        Add("[Content_Types].xml", $"""<Types xmlns="{Package}/content-types"><Default Extension="rels" ContentType="application/vnd.openxmlformats-package.relationships+xml"/><Default Extension="xml" ContentType="application/xml"/></Types>""");
        Add("_rels/.rels", $"""<Relationships xmlns="{Package}/relationships"><Relationship Id="r1" Type="{Relations}/officeDocument" Target="xl/workbook.xml"/></Relationships>""");
        Add("xl/workbook.xml", $"""<workbook xmlns="{Main}" xmlns:r="{Relations}"><sheets>{string.Concat(sheets.Select((sheet, i) => $"<sheet name=\"{sheet.Name}\" sheetId=\"{i + 1}\" r:id=\"r{i + 1}\"/>"))}</sheets></workbook>""");
        Add("xl/_rels/workbook.xml.rels", $"""<Relationships xmlns="{Package}/relationships">{string.Concat(sheets.Select((_, i) => $"<Relationship Id=\"r{i + 1}\" Type=\"{Relations}/worksheet\" Target=\"worksheets/sheet{i + 1}.xml\"/>"))}<Relationship Id="styles" Type="{Relations}/styles" Target="styles.xml"/>{(shareTexts ? $"<Relationship Id=\"texts\" Type=\"{Relations}/sharedStrings\" Target=\"sharedStrings.xml\"/>" : "")}</Relationships>""");
        Add("xl/styles.xml", Styles);
        for (var i = 0; i < sheets.Length; i++)
        {
            using var writer = new StreamWriter(zip.CreateEntry($"xl/worksheets/sheet{i + 1}.xml", CompressionLevel.Fastest).Open(), new UTF8Encoding(false));
            writer.Write($"""<worksheet xmlns="{Main}"><sheetData>""");
            var number = 0;
            foreach (var row in sheets[i].Rows)
            {
                number++;
                writer.Write($"<row r=\"{number}\">{string.Concat(row.Select((cell, column) => Cell(cell, Place(column) + number, shared)))}</row>");
            }

            writer.Write("</sheetData></worksheet>");
        }

        if (shared is not null)
            Add("xl/sharedStrings.xml", $"""<sst xmlns="{Main}">{string.Concat(shared.Keys.Select(text => $"<si><t xml:space=\"preserve\">{SecurityElement.Escape(text)}</t></si>"))}</sst>""");

        void Add(string name, string text)
        {
            using var writer = new StreamWriter(zip.CreateEntry(name).Open(), new UTF8Encoding(false));
            writer.Write(text);
        }
    }

    private static string Cell(object? cell, string place, Dictionary<string, int>? shared) => cell switch
    {
        null => "",
        string text when shared is not null => $"<c r=\"{place}\" t=\"s\"><v>{IndexOf(text, shared)}</v></c>",
        string text => $"<c r=\"{place}\" t=\"inlineStr\"><is><t xml:space=\"preserve\">{SecurityElement.Escape(text)}</t></is></c>",
        Failed failed => $"<c r=\"{place}\" t=\"e\"><f>1/0</f><v>{failed.Error}</v></c>",
        bool yes => $"<c r=\"{place}\" t=\"b\"><v>{(yes ? 1 : 0)}</v></c>",
        DateTime moment => Number(moment.ToOADate(), moment.TimeOfDay == TimeSpan.Zero ? 1 : 2, place),
        TimeSpan time => Number(time.TotalDays, time.TotalDays < 1 ? 3 : 5, place),
        (double value, int style) => Number(value, style, place),
        IConvertible number => Number(number.ToDouble(CultureInfo.InvariantCulture), 0, place),
        _ => throw new ArgumentException($"{cell.GetType()} is no cell.", nameof(cell)),
    };

    /// <summary>A formula that failed, by what a spreadsheet shows of it.</summary>
    internal sealed record Failed(string Error);

    private static int IndexOf(string text, Dictionary<string, int> shared)
    {
        if (!shared.TryGetValue(text, out var index))
            shared.Add(text, index = shared.Count);
        return index;
    }

    private static string Number(double value, int style, string place) => $"<c r=\"{place}\" s=\"{style}\"><v>{value.ToString("R", CultureInfo.InvariantCulture)}</v></c>";

    private static string Place(int column) => column < 26 ? ((char)('A' + column)).ToString() : $"{(char)('A' + column / 26 - 1)}{(char)('A' + column % 26)}";
}
