using System.Globalization;
using System.IO.Compression;
using System.Text;

namespace TastingKit.Reference;

/// <summary>A CSV file with a header row, every cell as text; gzip is undone by the name's ending.</summary>
internal sealed class DataTable
{
    private readonly Dictionary<string, int> _index;
    private readonly List<string[]> _rows;

    private DataTable(Dictionary<string, int> index, List<string[]> rows)
    {
        _index = index;
        _rows = rows;
    }

    public int RowCount => _rows.Count;

    public static DataTable Read(string path)
    {
        using Stream file = File.OpenRead(path);
        using Stream stream = path.EndsWith(".gz", StringComparison.OrdinalIgnoreCase) ? new GZipStream(file, CompressionMode.Decompress) : file;
        using var reader = new StreamReader(stream, Encoding.UTF8);
        string header = reader.ReadLine() ?? throw new CaseException($"{path} is empty.");
        string[] names = Cells(header);
        var index = new Dictionary<string, int>(StringComparer.Ordinal);
        for (int i = 0; i < names.Length; i++)
        {
            if (names[i].Length > 0 && !index.TryAdd(names[i], i))
            {
                throw new CaseException($"{path} has two columns named '{names[i]}'.");
            }
        }

        var rows = new List<string[]>();
        while (reader.ReadLine() is { } read)
        {
            string line = read;
            if (line.Length == 0 && names.Length > 1)
            {
                continue;
            }

            // A cell in quotes may run over several lines.
            while (line.Count(c => c == '"') % 2 == 1 && reader.ReadLine() is { } more)
            {
                line = $"{line}\n{more}";
            }

            string[] cells = Cells(line);
            if (cells.Length != names.Length)
            {
                throw new CaseException($"{path}: row {rows.Count + 1} has {cells.Length} cells, the header {names.Length}.");
            }

            rows.Add(cells);
        }

        return new DataTable(index, rows);
    }

    /// <summary>The cells of a column at chosen rows.</summary>
    public string[] Column(string name, IReadOnlyList<int> rows)
    {
        int column = IndexOf(name);
        return [.. rows.Select(r => _rows[r][column])];
    }

    /// <summary>The numbers of a column at chosen rows.</summary>
    public double[] Numbers(string name, IReadOnlyList<int> rows)
    {
        int column = IndexOf(name);
        return [.. rows.Select(r => double.TryParse(_rows[r][column], NumberStyles.Float, CultureInfo.InvariantCulture, out double value)
            ? value
            : throw new CaseException($"Column '{name}' holds '{_rows[r][column]}' in row {r + 1}, not a number."))];
    }

    /// <summary>The rows that fulfil every condition of equality and have a value in every column named.</summary>
    public List<int> Rows(IReadOnlyDictionary<string, Func<string, bool>> conditions, IEnumerable<string> complete)
    {
        var tests = conditions.Select(c => (Column: IndexOf(c.Key), Test: c.Value)).ToArray();
        int[] needed = [.. complete.Distinct().Select(IndexOf)];
        var kept = new List<int>();
        for (int r = 0; r < _rows.Count; r++)
        {
            string[] row = _rows[r];
            if (Array.TrueForAll(tests, t => t.Test(row[t.Column])) && !Array.Exists(needed, c => row[c] is "" or "NA"))
            {
                kept.Add(r);
            }
        }

        return kept;
    }

    private int IndexOf(string name) => _index.TryGetValue(name, out int column)
        ? column
        : throw new CaseException($"The data have no column '{name}'; they have {string.Join(", ", _index.Keys)}.");

    // Quotes are optional; a doubled quote inside quotes is one.
    private static string[] Cells(string line)
    {
        if (!line.Contains('"', StringComparison.Ordinal))
        {
            return line.Split(',');
        }

        var cells = new List<string>();
        var cell = new StringBuilder();
        bool quoted = false;
        for (int i = 0; i < line.Length; i++)
        {
            char c = line[i];
            if (quoted && c == '"' && i + 1 < line.Length && line[i + 1] == '"')
            {
                cell.Append('"');
                i++;
            }
            else if (c == '"')
            {
                quoted = !quoted;
            }
            else if (c == ',' && !quoted)
            {
                cells.Add(cell.ToString());
                cell.Clear();
            }
            else
            {
                cell.Append(c);
            }
        }

        cells.Add(cell.ToString());
        return [.. cells];
    }
}
