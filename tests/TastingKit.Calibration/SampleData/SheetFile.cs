using System.Text;

namespace TastingKit.Calibration.SampleData;

/// <summary>One CSV file as a spreadsheet holds it: a header and rows of cells, to be changed by hand.</summary>
internal sealed class SheetFile
{
    private readonly string _path;
    private readonly string[] _header;

    private SheetFile(string path, string[] header, List<string[]> rows) => (_path, _header, Rows) = (path, header, rows);

    /// <summary>The rows below the header.</summary>
    public List<string[]> Rows { get; }

    /// <summary>Opens a file whose cells hold no line breaks.</summary>
    public static SheetFile Open(string path)
    {
        var lines = File.ReadAllLines(path);
        return new SheetFile(path, Split(lines[0]), [.. lines.Skip(1).Select(Split)]);
    }

    /// <summary>The column of a header.</summary>
    public int Column(string name) =>
        Array.IndexOf(_header, name) is var index and >= 0
            ? index
            : throw new ArgumentException($"{Path.GetFileName(_path)} has no column '{name}'; it has {string.Join(", ", _header)}.", nameof(name));

    /// <summary>The line that a row stands on, the header being line 1.</summary>
    public int LineOf(string[] row) => Rows.IndexOf(row) + 2;

    /// <summary>Writes the file.</summary>
    public void Save() =>
        File.WriteAllText(_path, string.Concat(new[] { _header }.Concat(Rows).Select(row => string.Join(',', row.Select(Quote)) + "\n")));

    private static string[] Split(string line)
    {
        var cells = new List<string>();
        var cell = new StringBuilder();
        var quoted = false;
        for (var i = 0; i < line.Length; i++)
        {
            if (line[i] == '"' && quoted && i + 1 < line.Length && line[i + 1] == '"')
                cell.Append(line[i++]);
            else if (line[i] == '"')
                quoted = !quoted;
            else if (line[i] == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
                cell.Append(line[i]);
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }

    private static string Quote(string cell) => cell.AsSpan().IndexOfAny(',', '"') >= 0 ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\"" : cell;
}
