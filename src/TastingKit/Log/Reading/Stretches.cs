namespace TastingKit.Reading;

/// <summary>Some records of a text that follow one another.</summary>
/// <param name="Start">Where the first begins, in bytes.</param>
/// <param name="End">Where the record after the last begins.</param>
/// <param name="Line">The line of the text on which the first begins.</param>
/// <param name="LineAfter">The line on which the record after the last begins.</param>
internal sealed record Stretch(int Start, int End, int Line, int LineAfter);

/// <summary>
/// Parts a text into stretches of whole records that can be read each by itself. It ends before a record that has to be cut for its quotes: what
/// a record is depends from there on on those before it.
/// </summary>
/// <param name="records">Stands on a record; those after it are parted. To tell records apart costs a hundredth of judging them.</param>
/// <param name="length">The length of the text.</param>
internal sealed class Stretches(RecordReader records, int length)
{
    private const int MostBytes = 1 << 15;
    private const int MostRecords = 256;

    private bool _begun;
    private bool _hasRecord;

    /// <summary>Where the text is at that is in no stretch yet.</summary>
    public (int Offset, int Line) Rest { get; private set; }

    /// <summary>The next stretch; <see langword="null"/> where there is none.</summary>
    public Stretch? Next()
    {
        if (!_begun)
        {
            (_begun, _hasRecord) = (true, records.Read());
            Rest = (_hasRecord ? records.Offset : length, records.LineOfText);
        }

        if (!_hasRecord || records.HasCut)
            return null;
        var (start, line) = Rest;
        var count = 0;
        do
        {
            count++;
            _hasRecord = records.Read();
            if (records.HasCut)
                return null;
        }
        while (_hasRecord && count < MostRecords && records.Offset - start < MostBytes);
        Rest = (_hasRecord ? records.Offset : length, records.LineOfText);
        return new Stretch(start, Rest.Offset, line, Rest.Line);
    }
}
