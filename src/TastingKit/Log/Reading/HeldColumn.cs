namespace TastingKit.Reading;

/// <summary>Looks at one cell on the way over a column.</summary>
internal delegate void CellVisitor(ReadOnlySpan<byte> text, int line);

/// <summary>One column of a file that is held: what its header says of every cell, and the texts that were judged already.</summary>
/// <param name="header">The header as written.</param>
/// <param name="unit">The unit that the header states for numbers without one of their own.</param>
/// <param name="decimalComma">Whether the file writes numbers with a decimal comma.</param>
/// <param name="visit">Passes over the cells of the column, from the first row to the last, for what only the whole column can tell.</param>
internal sealed class HeldColumn(string header, string? unit, bool decimalComma, Action<CellVisitor>? visit = null)
{
    /// <summary>A column of no file, for a text met elsewhere.</summary>
    public static HeldColumn None { get; } = new("", null, false);

    private object? _judged;
    private ColumnDates? _dates;
    private ColumnTemperatures? _temperatures;

    /// <summary>The header as written.</summary>
    public string Header { get; } = header;

    /// <summary>The unit that the header states for numbers without one of their own, if it does.</summary>
    public string? Unit { get; } = unit;

    /// <summary>Whether the file writes numbers with a decimal comma.</summary>
    public bool DecimalComma { get; } = decimalComma;

    /// <summary>What the dates of the whole column tell.</summary>
    public ColumnDates Dates => _dates ??= ColumnDates.Of(this);

    /// <summary>What the temperatures without a unit of the whole column tell.</summary>
    public ColumnTemperatures Temperatures => _temperatures ??= ColumnTemperatures.Of(this);

    /// <summary>Passes over the texts of the column that are not empty, with the lines that their rows begin on.</summary>
    public void Visit(CellVisitor visitor) => visit?.Invoke(visitor);

    /// <summary>The texts of the column that gave a value and no report. A column has values of one type.</summary>
    public JudgedTexts<T> Judged<T>() => (JudgedTexts<T>)(_judged ??= new JudgedTexts<T>());
}
