using System.Text.Json;

namespace TastingKit.Calibration;

/// <summary>
/// A cell's years on disk, one JSON line each, so that a run that was broken off goes on where it stopped.
/// The first line says which build made them: years of another build are not mixed in but made anew.
/// </summary>
public sealed class CellRecord
{
    private readonly string _file;
    private readonly Lock _writing = new();

    private CellRecord(string file, SortedDictionary<int, YearRecord> years) => (_file, Years) = (file, years);

    /// <summary>The years made so far, by number.</summary>
    public SortedDictionary<int, YearRecord> Years { get; }

    /// <summary>The build that years are made by: the identity of the library, of its statistics and of this program.</summary>
    public static string Build { get; } = string.Join(
        '-', new[] { typeof(TastingLog), typeof(Statistics.RandomStream), typeof(CellRecord) }.Select(type => type.Module.ModuleVersionId.ToString("N")[..12]));

    /// <summary>Opens a cell's record, or begins one.</summary>
    /// <param name="folder">Where records are kept; made if missing.</param>
    /// <param name="cell">The cell's name.</param>
    public static CellRecord Open(string folder, string cell)
    {
        Directory.CreateDirectory(folder);
        var file = Path.Combine(folder, $"{cell}.jsonl");
        var years = new SortedDictionary<int, YearRecord>();
        var lines = File.Exists(file) ? File.ReadAllLines(file) : [];
        if (lines.Length > 0 && lines[0] == Build)
        {
            foreach (var line in lines.Skip(1))
            {
                // The last line of a run that was killed may be half written.
                if (TryRead(line) is { } year)
                    years[year.Year] = year;
            }
        }

        File.WriteAllLines(file, [Build, .. years.Values.Select(year => JsonSerializer.Serialize(year))]);
        return new CellRecord(file, years);
    }

    /// <summary>Adds a year. Safe for several threads at once.</summary>
    public void Add(YearRecord year)
    {
        ArgumentNullException.ThrowIfNull(year);
        var line = JsonSerializer.Serialize(year) + "\n";
        lock (_writing)
        {
            Years[year.Year] = year;
            File.AppendAllText(_file, line);
        }
    }

    private static YearRecord? TryRead(string line)
    {
        try
        {
            return JsonSerializer.Deserialize<YearRecord>(line);
        }
        catch (JsonException)
        {
            return null;
        }
    }
}
