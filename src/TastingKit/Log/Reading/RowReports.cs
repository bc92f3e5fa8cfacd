using System.Text;

namespace TastingKit.Reading;

/// <summary>Where a row stands, for the reports on it.</summary>
internal abstract class RowReports(FileReports file)
{
    /// <summary>The reports on the whole file.</summary>
    public FileReports File { get; } = file;

    /// <summary>The line on which the row begins.</summary>
    public abstract int Line { get; }

    /// <summary>The row's identifier, if it has one that could be read.</summary>
    public abstract string? RowId { get; }

    /// <summary>What the row says, its identifier left out, as 64 bits.</summary>
    public ulong Content { get; protected set; }

    /// <summary>Whether the row is rejected so far.</summary>
    public bool Rejected => File.IsRejected(Line);

    /// <summary>Reports a fault of a column whose cell is no longer at hand.</summary>
    public void Column(Severity severity, string header, string found, CellFault fault) => Add(severity, header, found, fault);

    /// <summary>Reports a fault of the row as a whole.</summary>
    public void Row(Severity severity, string found, CellFault fault) => Add(severity, "", found, fault);

    /// <summary>Files a report on the row.</summary>
    protected void Add(Severity severity, string column, string found, CellFault fault) => File.Add(severity, Line, RowId, column, found, fault);

    /// <summary>The identifier that a cell holds.</summary>
    protected static string? IdOf(ReadOnlySpan<byte> written) => Reading.Cell.Of(written).Utf8 is { IsEmpty: false } text ? Encoding.UTF8.GetString(text) : null;
}

/// <summary>The row of the record at hand, whose cells are being judged.</summary>
/// <param name="file">The reports on the whole file.</param>
/// <param name="records">The reader that stands on the record.</param>
/// <param name="idIndex">The place of the identifier's column; -1 where the file has none.</param>
internal sealed class RecordReports(FileReports file, RecordReader records, int idIndex) : RowReports(file)
{
    private string? _id;
    private int _lineOfId = -1;

    /// <summary>The reader that stands on the record.</summary>
    public RecordReader Records { get; set; } = records;

    /// <inheritdoc/>
    public override int Line => Records.Line;

    /// <inheritdoc/>
    public override string? RowId
    {
        get
        {
            if (_lineOfId != Line)
                (_id, _lineOfId) = (IdOf(WrittenId), Line);
            return _id;
        }
    }

    /// <summary>The cell of the identifier as written; empty where the file has no such column.</summary>
    public ReadOnlySpan<byte> WrittenId => idIndex < 0 ? [] : Records[idIndex];

    /// <summary>Begins a row.</summary>
    public void Begin() => Content = 0;

    /// <summary>Adds a cell to what the row says.</summary>
    public void AddContent(int index, in Cell cell)
    {
        if (index != idIndex)
            Content = ContentHash.With(Content, cell.HashOfWritten);
    }

    /// <summary>Adds an empty cell to what the row says.</summary>
    public void AddNothing(int index)
    {
        if (index != idIndex)
            Content = ContentHash.With(Content, ContentHash.OfNothing);
    }

    /// <summary>Reports a fault of a cell.</summary>
    public void Cell(Severity severity, in Cell cell, CellFault fault) => Add(severity, cell.Header, Encoding.UTF8.GetString(cell.Written), fault);
}

/// <summary>A row whose cells were judged ahead, with what reports on it take from its record, so that the record can go by.</summary>
internal sealed class JudgedRow(FileReports file) : RowReports(file)
{
    private byte[] _id = [];
    private int _idLength;
    private int _line;

    /// <inheritdoc/>
    public override int Line => _line;

    /// <inheritdoc/>
    public override string? RowId => IdOf(_id.AsSpan(0, _idLength));

    /// <summary>Takes over what there is to know of the record at hand.</summary>
    public void Take(RecordReports record)
    {
        (_line, Content) = (record.Line, record.Content);
        var id = record.WrittenId;
        if (id.Length > _id.Length)
            _id = new byte[Math.Max(16, id.Length)];
        id.CopyTo(_id);
        _idLength = id.Length;
    }
}
