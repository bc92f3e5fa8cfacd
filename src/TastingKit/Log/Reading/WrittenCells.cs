using System.Text;

namespace TastingKit.Reading;

/// <summary>The cells of a file as they are written, the empty ones left out, by the line on which their row begins.</summary>
internal sealed class WrittenCells
{
    private readonly Dictionary<int, List<WrittenCell>> _rows = [];
    private readonly List<int> _lines = [];

    /// <summary>The lines of the rows whose cells could be told apart, in the order of the file.</summary>
    public IReadOnlyList<int> Lines => _lines;

    /// <summary>The cells of a row.</summary>
    public IReadOnlyList<WrittenCell> Row(int line) => _rows.GetValueOrDefault(line) ?? [];

    /// <summary>Begins a row.</summary>
    public void AddRow(int line)
    {
        _lines.Add(line);
        _rows[line] = [];
    }

    /// <summary>Keeps a cell.</summary>
    public void Add(int line, string? column, string header, ReadOnlySpan<byte> utf8) =>
        _rows[line].Add(new WrittenCell(column, header, Encoding.UTF8.GetString(utf8)));
}

/// <summary>A cell as it is written.</summary>
/// <param name="Column">The canonical name of its column; <see langword="null"/> for one that the kit has no name for.</param>
/// <param name="Header">Its header as written.</param>
/// <param name="Text">Its text, the white space at its ends left out.</param>
internal sealed record WrittenCell(string? Column, string Header, string Text);

/// <summary>Takes down, while a log is read, which line became which bag and which cup, and where asked what is written there.</summary>
internal sealed class ReadingTrace(bool keepCells)
{
    /// <summary>Whether the cells are kept as they are written.</summary>
    public bool KeepsCells { get; } = keepCells;

    private readonly Dictionary<string, FileReports> _files = new(StringComparer.OrdinalIgnoreCase);
    private readonly Dictionary<int, Tasting> _cups = [];
    private readonly Dictionary<int, Bag> _bags = [];

    /// <summary>The file of the cups, if there is one.</summary>
    public string? CupsFile { get; private set; }

    /// <summary>Whether the cups' file has the bags' columns too.</summary>
    public bool BagsAreInTheTable { get; private set; }

    /// <summary>The file of the bags, if there is one.</summary>
    public string? BagsFile { get; private set; }

    /// <summary>The line on which each bag first stands.</summary>
    public IEnumerable<(Bag Bag, int Line)> Bags => _bags.Select(pair => (pair.Value, pair.Key));

    /// <summary>The line of each cup.</summary>
    public IEnumerable<(Tasting Cup, int Line)> Cups => _cups.Select(pair => (pair.Value, pair.Key));

    /// <summary>The lines of <c>accepted.csv</c> that confirm nothing that the log says by itself.</summary>
    public IReadOnlyList<AcceptedEntry> Unmet { get; private set; } = [];

    /// <summary>The files read, in order.</summary>
    public IEnumerable<FileReports> Files => _files.Values;

    /// <summary>The reports on a file, and the cells written there; <see langword="null"/> where the log has no such file.</summary>
    public FileReports? File(string name) => _files.GetValueOrDefault(name);

    /// <summary>The cup that a line of the cups' file became.</summary>
    public Tasting? CupOn(int line) => _cups.GetValueOrDefault(line);

    /// <summary>The bag that first stands on a line.</summary>
    public Bag? BagOn(int line) => _bags.GetValueOrDefault(line);

    public void NoteUnmet(IReadOnlyList<AcceptedEntry> unmet) => Unmet = unmet;

    public void Add(FileReports reports) => _files[reports.File] = reports;

    public void Note(string? cupsFile, bool bagsAreInTheTable, IReadOnlyList<Bag> bags, BagRegister register, Tasting[] cups, CupReader reader)
    {
        (CupsFile, BagsFile, BagsAreInTheTable) = (cupsFile, register.Reports?.File, bagsAreInTheTable);
        foreach (var bag in bags)
            _bags[register.LineOf(bag.Id)] = bag;
        for (var i = 0; i < cups.Length; i++)
            _cups[reader.LineOf(i)] = cups[i];
    }
}
