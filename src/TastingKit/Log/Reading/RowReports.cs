using System.Text;

namespace TastingKit.Reading;

/// <summary>Where a row stands, for the reports on it.</summary>
internal abstract class RowReports(FileReports file)
{
    /// <summary>The reports on the whole file.</summary>
    public FileReports File { get; } = file;

    /// <summary>The line on which the row begins.</summary>
    public abstract int Line { get; }

    /// <summary>Whether the row is rejected so far.</summary>
    public abstract bool Rejected { get; }

    /// <summary>The row's identifier, if it has one that could be read.</summary>
    public abstract string? RowId { get; }

    /// <summary>Reports a fault of a column whose cell is no longer at hand.</summary>
    public void Column(Severity severity, string header, string found, CellFault fault) => Add(severity, header, found, fault);

    /// <summary>Reports a fault of the row as a whole.</summary>
    public void Row(Severity severity, string found, CellFault fault) => Add(severity, "", found, fault);

    /// <summary>Makes a report on the row.</summary>
    protected abstract void Add(Severity severity, string column, string found, CellFault fault);

    /// <summary>The identifier that a cell holds.</summary>
    protected static string? IdOf(ReadOnlySpan<byte> written) => Reading.Cell.Of(written).Utf8 is { IsEmpty: false } text ? Encoding.UTF8.GetString(text) : null;
}

/// <summary>The row of the record at hand, whose cells are being judged.</summary>
internal sealed class RecordReports(FileReports file, RecordReader records, int idIndex) : RowReports(file)
{
    private string? _id;
    private int _lineOfId = -1;

    /// <inheritdoc/>
    public override int Line => records.Line;

    /// <inheritdoc/>
    public override bool Rejected => File.IsRejected(Line);

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
    public ReadOnlySpan<byte> WrittenId => idIndex < 0 ? [] : records[idIndex];

    /// <summary>What the row says, its identifier left out, as 64 bits.</summary>
    public ulong Content { get; private set; }

    /// <summary>Begins a row.</summary>
    public void Begin() => Content = 0;

    /// <summary>Adds a cell to what the row says.</summary>
    public void AddContent(int index, in Cell cell)
    {
        if (index != idIndex)
            Content = ContentHash.With(Content, cell.HashOfWritten);
    }

    /// <summary>Reports a fault of a cell.</summary>
    public void Cell(Severity severity, in Cell cell, CellFault fault) => Add(severity, cell.Header, Encoding.UTF8.GetString(cell.Written), fault);

    /// <inheritdoc/>
    protected override void Add(Severity severity, string column, string found, CellFault fault) => File.Add(severity, Line, RowId, column, found, fault);
}

/// <summary>
/// A row whose cells are judged, with what reports on it take from its record, so that the record can go by. Its reports are held back:
/// those on the cells of later rows may be filed before.
/// </summary>
internal sealed class JudgedRow(FileReports file, List<(int After, LogProblem Problem)> heldBack) : RowReports(file)
{
    private byte[] _id = [];
    private int _idLength;
    private int _line;
    private bool _rejected;
    private int _reportsBefore;

    /// <inheritdoc/>
    public override int Line => _line;

    /// <inheritdoc/>
    public override bool Rejected => _rejected;

    /// <inheritdoc/>
    public override string? RowId => IdOf(_id.AsSpan(0, _idLength));

    /// <summary>What the row says, its identifier left out, as 64 bits.</summary>
    public ulong Content { get; private set; }

    /// <summary>Takes over what there is to know of the record at hand.</summary>
    public void Take(RecordReports record)
    {
        (_line, _rejected, _reportsBefore, Content) = (record.Line, record.Rejected, File.Count, record.Content);
        var id = record.WrittenId;
        if (id.Length > _id.Length)
            _id = new byte[Math.Max(16, id.Length)];
        id.CopyTo(_id);
        _idLength = id.Length;
    }

    /// <inheritdoc/>
    protected override void Add(Severity severity, string column, string found, CellFault fault)
    {
        heldBack.Add((_reportsBefore, File.Problem(severity, _line, RowId, column, found, fault)));
        _rejected |= severity == Severity.Rejected;
    }
}
