using System.Text;
using CsvHelper;

namespace TastingKit.Reading;

/// <summary>What was wrong with the quotes of a record.</summary>
internal enum QuoteFault
{
    /// <summary>Nothing.</summary>
    None,

    /// <summary>A quote inside a field that does not begin with one; read as text.</summary>
    StrayQuote,

    /// <summary>Text between a closing quote and the next delimiter; read as part of the field.</summary>
    TextAfterQuote,

    /// <summary>A field whose quote is not closed; the record was cut at the end of its first line.</summary>
    UnclosedQuote,
}

/// <summary>
/// Splits UTF-8 text into records and fields, with the line on which each record begins. CsvHelper does the splitting, read raw;
/// this class adds the way out of an unclosed quote.
/// </summary>
/// <remarks>
/// An unclosed quote swallows every row down to the next quote, often in another row, and turns the quotes of all later rows inside out.
/// It shows as a record of several lines with text after a closing quote, or as one that runs to the end of the file. Such a record is cut at the
/// end of its first line and reading goes on at the next, so that it costs one row. Each cut may have scanned the rest of the file:
/// after <see cref="MostCuts"/> of them the rest is read with every line break ending a record, which bounds the time.
/// </remarks>
internal sealed class RecordReader : IDisposable
{
    private const int MostCuts = 8;

    private readonly ReadOnlyMemory<byte> _utf8;
    private readonly char _delimiter;
    private readonly int[]? _rowOfLine;
    private CsvReader _reader;
    private int _segmentStart;
    private int _segmentLine;
    private int _resumeAt = -1;
    private int _cuts;
    private QuoteFault _fault;

    /// <summary>Starts before the first record.</summary>
    /// <param name="utf8">The text.</param>
    /// <param name="delimiter">What stands between two fields.</param>
    /// <param name="firstLine">The number of the text's first line.</param>
    /// <param name="rowOfLine">What the lines are called in reports, where it is not by their number.</param>
    public RecordReader(ReadOnlyMemory<byte> utf8, char delimiter, int firstLine = 1, int[]? rowOfLine = null)
    {
        _rowOfLine = rowOfLine;
        _utf8 = utf8;
        _delimiter = delimiter;
        _segmentLine = firstLine;
        _reader = Segment(utf8, lineBreaksInQuotes: true);
    }

    /// <summary>The line on which the record begins, from 1.</summary>
    public int Line => _rowOfLine is null ? LineOfText : _rowOfLine[Math.Min(LineOfText, _rowOfLine.Length) - 1];

    /// <summary>Where the record begins in the text, in bytes.</summary>
    public int Offset => _segmentStart + (int)_reader.ByteOffset;

    /// <summary>Whether a record was cut for its quotes: from there on what a record is depends on those before it.</summary>
    public bool HasCut => _cuts > 0;

    /// <summary>The line of the text on which the record begins, whatever it is called in reports.</summary>
    public int LineOfText => _segmentLine + (int)_reader.LineNumber - 1;

    /// <summary>How many fields the record has.</summary>
    public int FieldCount => _reader.FieldCount;

    /// <summary>What was wrong with the record's quotes.</summary>
    public QuoteFault QuoteFault => _fault;

    /// <summary>A field's value, quotes removed, in UTF-8; valid until the next <see cref="Read"/>. Empty past the record's end.</summary>
    public ReadOnlySpan<byte> this[int index] => _reader.GetSpan(index);

    /// <summary>The record as it stands in the file, without its line break.</summary>
    public string RawText => Encoding.UTF8.GetString(_reader.RawRecord);

    /// <summary>Goes to the next record that is not an empty line.</summary>
    public bool Read()
    {
        while (true)
        {
            _fault = QuoteFault.None;
            if (!_reader.Read())
            {
                if (_resumeAt < 0)
                    return false;
                Resume();
                continue;
            }

            if (_fault != QuoteFault.None && _reader.RawRecord.IndexOfAny((byte)'\r', (byte)'\n') >= 0 && HasOpenField())
            {
                CutAtFirstLine();
                continue;
            }

            if (_resumeAt >= 0)
                _fault = QuoteFault.UnclosedQuote;
            return true;
        }
    }

    /// <inheritdoc/>
    public void Dispose() => _reader.Dispose();

    /// <summary>Whether any field begins with a quote and is not closed by its last character, quotes within it doubled.</summary>
    private bool HasOpenField()
    {
        for (var i = 0; i < _reader.FieldCount; i++)
        {
            var raw = _reader.GetRawSpan(i);
            if (!raw.StartsWith("\""u8))
                continue;
            if (raw.Length < 2 || raw[^1] != '"')
                return true;
            for (var inner = raw[1..^1]; inner.IndexOf((byte)'"') is >= 0 and var at; inner = inner[(at + 2)..])
            {
                if (at + 1 >= inner.Length || inner[at + 1] != '"')
                    return true;
            }
        }

        return false;
    }

    private void CutAtFirstLine()
    {
        var start = Offset;
        var line = LineOfText;
        var length = _utf8.Span[start..].IndexOfAny((byte)'\r', (byte)'\n');
        var end = start + length;
        var after = _utf8.Span[end..].StartsWith("\r\n"u8) ? end + 2 : end + 1;
        _reader.Dispose();
        _cuts++;
        (_segmentStart, _segmentLine, _resumeAt) = (start, line, after);
        _reader = Segment(_utf8[start..end], lineBreaksInQuotes: false);
    }

    private void Resume()
    {
        _reader.Dispose();
        (_segmentStart, _segmentLine, _resumeAt) = (_resumeAt, _segmentLine + 1, -1);
        _reader = Segment(_utf8[_segmentStart..], lineBreaksInQuotes: _cuts < MostCuts);
    }

    private CsvReader Segment(ReadOnlyMemory<byte> text, bool lineBreaksInQuotes) => CsvReader.Create(text, new CsvReaderOptions
    {
        Separator = _delimiter,
        HasHeader = false,
        AllowLineBreaksInQuotes = lineBreaksInQuotes,
        TrackLineNumbers = true,
        OnMalformedRecord = NoteFault,
    });

    private void NoteFault(CsvMalformedRecord record) => _fault = record.Reason switch
    {
        CsvMalformedReason.StrayQuote => QuoteFault.StrayQuote,
        CsvMalformedReason.TextAfterClosingQuote => QuoteFault.TextAfterQuote,
        CsvMalformedReason.UnterminatedQuote or CsvMalformedReason.LineBreakInQuotes => QuoteFault.UnclosedQuote,
        _ => QuoteFault.None,
    };
}
