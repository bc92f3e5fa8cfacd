namespace TastingKit.Reading;

/// <summary>Looks at one cell on the way over a column.</summary>
internal delegate void CellVisitor(ReadOnlySpan<byte> text, int line);

/// <summary>One column of a file that is held: what its header says of every cell, and the texts that were judged already.</summary>
internal sealed class HeldColumn
{
    private const int MostShared = 8192;

    private readonly Action<CellVisitor>? _visit;
    private readonly Lazy<ColumnDates> _dates;
    private readonly Lazy<ColumnTemperatures> _temperatures;
    private object? _judged;
    private HashSet<string>.AlternateLookup<ReadOnlySpan<char>>? _shared;

    /// <summary>Holds a column.</summary>
    /// <param name="header">The header as written.</param>
    /// <param name="unit">The unit that the header states for numbers without one of their own.</param>
    /// <param name="decimalComma">Whether the file writes numbers with a decimal comma.</param>
    /// <param name="visit">Passes over the cells of the column, from the first row to the last, for what only the whole column can tell.</param>
    public HeldColumn(string header, string? unit, bool decimalComma, Action<CellVisitor>? visit = null)
    {
        (Header, Unit, DecimalComma, _visit) = (header, unit, decimalComma, visit);
        _dates = new Lazy<ColumnDates>(() => ColumnDates.Of(this));
        _temperatures = new Lazy<ColumnTemperatures>(() => ColumnTemperatures.Of(this));
    }

    private HeldColumn(HeldColumn same) =>
        (Header, Unit, DecimalComma, _visit, _dates, _temperatures) = (same.Header, same.Unit, same.DecimalComma, same._visit, same._dates, same._temperatures);

    /// <summary>A column of no file, for a text met elsewhere.</summary>
    public static HeldColumn None { get; } = new("", null, false);

    /// <summary>The header as written.</summary>
    public string Header { get; }

    /// <summary>The unit that the header states for numbers without one of their own, if it does.</summary>
    public string? Unit { get; }

    /// <summary>Whether the file writes numbers with a decimal comma.</summary>
    public bool DecimalComma { get; }

    /// <summary>What the dates of the whole column tell.</summary>
    public ColumnDates Dates => _dates.Value;

    /// <summary>What the temperatures without a unit of the whole column tell.</summary>
    public ColumnTemperatures Temperatures => _temperatures.Value;

    /// <summary>The same column for another thread: what the whole of it tells is found out once for all, the texts judged are kept for each.</summary>
    public HeldColumn ForAnotherThread() => new(this);

    /// <summary>Passes over the texts of the column that are not empty, with the lines that their rows begin on.</summary>
    public void Visit(CellVisitor visitor) => _visit?.Invoke(visitor);

    /// <summary>The texts of the column that gave a value and no report. A column has values of one type.</summary>
    public JudgedTexts<T> Judged<T>() => (JudgedTexts<T>)(_judged ??= new JudgedTexts<T>());

    /// <summary>Part of a cell of which many rows may have the same, as one string for all; the first thousands of distinct ones are kept.</summary>
    public string Shared(ReadOnlySpan<char> text)
    {
        if (_visit is null)
            return text.ToString();
        var shared = _shared ??= new HashSet<string>(StringComparer.Ordinal).GetAlternateLookup<ReadOnlySpan<char>>();
        if (shared.TryGetValue(text, out var kept))
            return kept;
        kept = text.ToString();
        if (shared.Set.Count < MostShared)
            shared.Set.Add(kept);
        return kept;
    }
}
