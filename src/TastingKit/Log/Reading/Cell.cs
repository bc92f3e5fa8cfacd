using System.Text;

namespace TastingKit.Reading;

/// <summary>One cell as a column judges it: its text in UTF-8 without the white space at its ends, and how its file writes numbers.</summary>
internal readonly ref struct Cell
{
    /// <summary>A cell of the record a reader stands on.</summary>
    public Cell(RecordReader records, int index, HeldColumn column)
    {
        var written = records[index];
        Column = column;
        Written = Utf8 = written;
        Hash = HashOfWritten = ContentHash.Of(written);
        if (HasNothingToTakeOff(written))
            return;
        Utf8 = TextOf(written, out var isMarked);
        IsMarked = isMarked;
        if (Utf8.Length < written.Length)
            Hash = ContentHash.Of(Utf8);
    }

    private Cell(ReadOnlySpan<byte> written, HeldColumn column)
    {
        Column = column;
        Written = written;
        Utf8 = TextOf(written, out var isMarked);
        IsMarked = isMarked;
    }

    /// <summary>The column it stands in.</summary>
    public HeldColumn Column { get; }

    /// <summary>The text without the white space at its ends and without the mark that keeps spreadsheets from running it.</summary>
    public ReadOnlySpan<byte> Utf8 { get; }

    /// <summary>Whether a mark was taken off.</summary>
    public bool IsMarked { get; }

    /// <summary>The text as written.</summary>
    public ReadOnlySpan<byte> Written { get; }

    /// <summary>The hash of the text of a record's cell.</summary>
    public ulong Hash { get; }

    /// <summary>The hash of what is written in a record's cell, white space and mark too.</summary>
    public ulong HashOfWritten { get; }

    /// <summary>The column's header as written.</summary>
    public string Header => Column.Header;

    /// <summary>The unit that the header states for numbers without one of their own, if it does.</summary>
    public string? Unit => Column.Unit;

    /// <summary>Whether the file writes numbers with a decimal comma.</summary>
    public bool DecimalComma => Column.DecimalComma;

    /// <summary>Whether nothing but white space is written.</summary>
    public bool IsEmpty => Utf8.IsEmpty;

    /// <summary>The text as a string.</summary>
    public string Text => Encoding.UTF8.GetString(Utf8);

    /// <summary>The same cell as if nothing were written in it.</summary>
    public Cell Emptied() => new([], Column);

    /// <summary>A cell that stands in no file, for a text met elsewhere.</summary>
    public static Cell Of(ReadOnlySpan<byte> text, bool decimalComma = false, string? unit = null) =>
        new(text, decimalComma || unit is not null ? new HeldColumn("", unit, decimalComma) : HeldColumn.None);

    /// <summary>A text without the white space at its ends.</summary>
    public static ReadOnlySpan<byte> Trim(ReadOnlySpan<byte> text)
    {
        while (!text.IsEmpty && (text[0] <= ' ' || text[0] >= 0x80))
        {
            Rune.DecodeFromUtf8(text, out var rune, out var length);
            if (!IsBlank(rune))
                break;
            text = text[length..];
        }

        while (!text.IsEmpty && (text[^1] <= ' ' || text[^1] >= 0x80))
        {
            Rune.DecodeLastFromUtf8(text, out var rune, out var length);
            if (!IsBlank(rune))
                break;
            text = text[..^length];
        }

        return text;
    }

    /// <summary>Whether there surely is no white space at the ends and no mark in front, as in nearly every cell.</summary>
    private static bool HasNothingToTakeOff(ReadOnlySpan<byte> written) =>
        written.IsEmpty || (written[0] is > (byte)' ' and < 0x80 and not (byte)'\'' && written[^1] is > (byte)' ' and < 0x80);

    private static ReadOnlySpan<byte> TextOf(ReadOnlySpan<byte> written, out bool isMarked)
    {
        var trimmed = Trim(written);
        var text = FormulaMark.Off(trimmed);
        isMarked = text.Length < trimmed.Length;
        return text;
    }

    // The byte order mark and the zero-width space come with text that is pasted or joined, and show nothing.
    private static bool IsBlank(Rune rune) => Rune.IsWhiteSpace(rune) || rune.Value is 0xFEFF or 0x200B;
}
