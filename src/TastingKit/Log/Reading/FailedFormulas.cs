using System.IO.Compression;
using System.Xml;
using System.Xml.Linq;

namespace TastingKit.Reading;

/// <summary>
/// The cells of a workbook in which a formula failed. The library that reads its cells hands them out as empty ones, so that what a person sees
/// as <c>#REF!</c> would be gone without a word; they are looked for in the parts of the file themselves.
/// </summary>
internal sealed class FailedFormulas
{
    private static readonly XNamespace Relations = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";

    private readonly Dictionary<(string Sheet, int Row, int Column), string> _errors = [];

    private FailedFormulas()
    {
    }

    /// <summary>What stands in a cell whose formula failed, such as <c>#N/A</c>; empty for any other.</summary>
    /// <param name="sheet">The sheet's name.</param>
    /// <param name="row">The row, from 1.</param>
    /// <param name="column">The column, from 0.</param>
    public string At(string sheet, int row, int column) => _errors.Count > 0 && _errors.TryGetValue((sheet, row, column), out var error) ? error : "";

    /// <summary>Looks through a workbook, and leaves the stream at its start.</summary>
    public static FailedFormulas Of(Stream workbook)
    {
        var found = new FailedFormulas();
        using (var zip = new ZipArchive(workbook, ZipArchiveMode.Read, leaveOpen: true))
        {
            foreach (var (name, part) in Sheets(zip))
            {
                // Hardly any sheet has one: the parts are read as XML only where the bytes say so.
                if (HasAny(part))
                    found.AddFrom(name, part);
            }
        }

        workbook.Position = 0;
        return found;
    }

    private static IEnumerable<(string Name, ZipArchiveEntry Part)> Sheets(ZipArchive zip)
    {
        if (zip.GetEntry("xl/workbook.xml") is not { } workbook || zip.GetEntry("xl/_rels/workbook.xml.rels") is not { } relations)
            yield break;
        var targets = Load(relations).Descendants().Where(element => element.Name.LocalName == "Relationship")
            .ToLookup(element => element.Attribute("Id")?.Value, element => element.Attribute("Target")?.Value);
        foreach (var sheet in Load(workbook).Descendants().Where(element => element.Name.LocalName == "sheet"))
        {
            var target = targets[sheet.Attribute(Relations + "id")?.Value].FirstOrDefault() ?? "";
            if (zip.GetEntry(target.StartsWith('/') ? target[1..] : "xl/" + target) is { } part)
                yield return (sheet.Attribute("name")?.Value ?? "", part);
        }
    }

    private static XDocument Load(ZipArchiveEntry part)
    {
        using var stream = part.Open();
        return XDocument.Load(stream);
    }

    private static bool HasAny(ZipArchiveEntry part)
    {
        using var stream = part.Open();
        var bytes = new byte[1 << 16];
        const int Overlap = 4;
        var kept = 0;
        for (int read; (read = stream.Read(bytes, kept, bytes.Length - kept)) > 0;)
        {
            var met = bytes.AsSpan(0, kept + read);
            if (met.IndexOf("t=\"e\""u8) >= 0 || met.IndexOf("t='e'"u8) >= 0)
                return true;
            kept = Math.Min(Overlap, met.Length);
            met[^kept..].CopyTo(bytes);
        }

        return false;
    }

    private void AddFrom(string sheet, ZipArchiveEntry part)
    {
        using var stream = part.Open();
        using var xml = XmlReader.Create(stream);
        var (row, column, failed) = (0, -1, false);
        while (xml.Read())
        {
            if (xml.NodeType != XmlNodeType.Element)
                continue;
            switch (xml.LocalName)
            {
                case "row":
                    (row, column) = (int.TryParse(xml.GetAttribute("r"), out var number) ? number : row + 1, -1);
                    break;
                case "c":
                    column = ColumnOf(xml.GetAttribute("r")) ?? column + 1;
                    failed = xml.GetAttribute("t") == "e";
                    break;
                case "v" when failed && xml.Read() && xml.NodeType == XmlNodeType.Text:
                    _errors[(sheet, row, column)] = xml.Value;
                    break;
            }
        }
    }

    /// <summary>The column of a place such as AB12, from 0.</summary>
    private static int? ColumnOf(string? place)
    {
        var column = 0;
        foreach (var letter in (place ?? "").TakeWhile(char.IsAsciiLetterUpper))
            column = column * 26 + letter - 'A' + 1;
        return column == 0 ? null : column - 1;
    }
}
