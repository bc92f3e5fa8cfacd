namespace TastingKit.Reading;

/// <summary>One file of a log, read into memory once and found to be text.</summary>
internal sealed class SourceFile
{
    /// <summary>How much of a file's start tells text from anything else.</summary>
    private const int SampledBytes = 8192;

    private const int ShortRow = 32;

    private int? _likelyRows;

    private SourceFile(string name, DecodedText text, int[]? rows = null, string? sheet = null)
    {
        Name = name;
        Text = text;
        RowOfLine = rows;
        Sheet = sheet;
    }

    /// <summary>The file's name, without its folder.</summary>
    public string Name { get; }

    /// <summary>What a workbook calls the sheet; <see langword="null"/> for a file of text.</summary>
    public string? Sheet { get; }

    /// <summary>For the sheet of a workbook the row in which each line of the text stands; <see langword="null"/> for a file of text.</summary>
    public int[]? RowOfLine { get; }

    /// <summary>What it holds.</summary>
    public DecodedText Text { get; }

    /// <summary>
    /// About how many rows there are at the most, so that what is kept of each can be given room: a line each, but not more than
    /// the bytes would hold of short rows, since a file may be all line breaks.
    /// </summary>
    public int LikelyRows => _likelyRows ??= Math.Min(Text.Utf8.Span.Count((byte)'\n'), Text.Utf8.Length / ShortRow);

    /// <summary>Reads a file.</summary>
    /// <param name="path">Where it lies.</param>
    /// <param name="name">What it is called; its own name where none is given.</param>
    /// <exception cref="LogReadException">The file can't be opened, or holds no text.</exception>
    public static SourceFile Open(string path, string? name = null)
    {
        name ??= Path.GetFileName(path);
        try
        {
            return FromBytes(name, FileBytes.Read(path));
        }
        catch (Exception e) when (e is IOException or UnauthorizedAccessException)
        {
            throw new LogReadException($"{path} can't be read: {e.Message} A CSV file that this user may open would be right.", e);
        }
    }

    /// <summary>Takes the bytes of a file.</summary>
    /// <exception cref="LogReadException">The bytes are no text.</exception>
    public static SourceFile FromBytes(string name, ReadOnlyMemory<byte> bytes)
    {
        if (bytes.Span.StartsWith("PK\u0003\u0004"u8))
            throw new LogReadException($"{name} is a workbook or another zip archive, not a CSV file. Save its sheets as CSV (UTF-8).");
        var text = DecodedText.Decode(bytes);
        var sample = text.Utf8.Span[..Math.Min(SampledBytes, text.Utf8.Length)];
        var controls = 0;
        foreach (var b in sample)
        {
            if (IsControl(b))
                controls++;
        }

        // A few stray control characters are the matter of their cells; many, and one in twenty bytes, are no text.
        if (controls >= 8 && controls * 20 > sample.Length)
        {
            throw new LogReadException(
                $"{name} is no text: {controls} of its first {sample.Length} bytes are control characters. A CSV file in UTF-8 would be right.");
        }

        return new SourceFile(name, text);
    }

    /// <summary>Takes the text of a workbook's sheet.</summary>
    /// <param name="name">The name of the file that it stands for.</param>
    /// <param name="sheet">What the workbook calls the sheet.</param>
    /// <param name="utf8">Its cells as CSV.</param>
    /// <param name="rowOfLine">The row of each line.</param>
    public static SourceFile FromSheet(string name, string sheet, ReadOnlyMemory<byte> utf8, int[] rowOfLine) => new(name, DecodedText.Decode(utf8), rowOfLine, sheet);

    private static bool IsControl(byte b) => b < 0x20 && b is not ((byte)'\t' or (byte)'\n' or (byte)'\r');
}
