using System.Text;

namespace TastingKit.Reading;

/// <summary>
/// A file's text as UTF-8, with what had to be assumed to get it. The encoding is decided from the bytes before anything is parsed,
/// since a CSV parser that meets Windows-1252 turns letters into replacement characters and says nothing.
/// </summary>
internal sealed class DecodedText
{
    private static readonly Encoding Windows1252 =
        CodePagesEncodingProvider.Instance.GetEncoding(1252) ?? throw new InvalidOperationException("Windows-1252 is part of .NET.");

    /// <summary>How much of a file's start tells the order of its bytes.</summary>
    private const int SampledBytes = 1024;

    private DecodedText(ReadOnlyMemory<byte> utf8, ForeignBytes? foreign, bool isUnmarkedUtf16 = false) =>
        (Utf8, Foreign, IsUnmarkedUtf16) = (utf8, foreign, isUnmarkedUtf16);

    /// <summary>The text, without a byte order mark.</summary>
    public ReadOnlyMemory<byte> Utf8 { get; }

    /// <summary>The bytes that are not UTF-8 and were read as Windows-1252; <see langword="null"/> if there were none.</summary>
    public ForeignBytes? Foreign { get; }

    /// <summary>Whether the text was taken for UTF-16, and has no mark that says so.</summary>
    public bool IsUnmarkedUtf16 { get; }

    /// <summary>
    /// Decodes by byte order mark (UTF-8, UTF-16 of either order); as UTF-16 where the noughts of its plain letters show it; else as UTF-8. A byte that no UTF-8 sequence holds is read as
    /// Windows-1252, byte by byte, so that a file with one pasted letter keeps its other scripts.
    /// </summary>
    public static DecodedText Decode(ReadOnlyMemory<byte> bytes)
    {
        var span = bytes.Span;
        if (span.StartsWith(Encoding.UTF8.Preamble))
            bytes = bytes[Encoding.UTF8.Preamble.Length..];
        else if (span.StartsWith(Encoding.Unicode.Preamble))
            return new DecodedText(FromUtf16(Encoding.Unicode, span[2..]), null);
        else if (span.StartsWith(Encoding.BigEndianUnicode.Preamble))
            return new DecodedText(FromUtf16(Encoding.BigEndianUnicode, span[2..]), null);
        else if (Utf16WithoutMark(span) is { } order)
            return new DecodedText(FromUtf16(order, span), null, isUnmarkedUtf16: true);

        return System.Text.Unicode.Utf8.IsValid(bytes.Span) ? new DecodedText(bytes, null) : DecodeMixed(bytes.Span);
    }

    /// <summary>The order of the bytes where every other one is a nought, as it is in the header and the numbers of a table in UTF-16, and hardly any other.</summary>
    private static Encoding? Utf16WithoutMark(ReadOnlySpan<byte> bytes)
    {
        var pairs = Math.Min(bytes.Length, SampledBytes) / 2;
        var (first, second) = (0, 0);
        for (var i = 0; i < pairs; i++)
        {
            if (bytes[2 * i] == 0)
                first++;
            if (bytes[2 * i + 1] == 0)
                second++;
        }

        const int Fewest = 4;
        return second >= Fewest && second * 2 > pairs && first * 20 <= pairs ? Encoding.Unicode
            : first >= Fewest && first * 2 > pairs && second * 20 <= pairs ? Encoding.BigEndianUnicode
            : null;
    }

    private static byte[] FromUtf16(Encoding order, ReadOnlySpan<byte> bytes) => Encoding.UTF8.GetBytes(order.GetString(bytes));

    /// <summary>The line, from 1, on which the byte at an offset stands. CR, LF and CRLF each end a line.</summary>
    public static int LineAt(ReadOnlySpan<byte> text, int offset)
    {
        var before = text[..offset];
        var line = 1;
        for (var at = before.IndexOfAny((byte)'\r', (byte)'\n'); at >= 0; at = before.IndexOfAny((byte)'\r', (byte)'\n'))
        {
            line++;
            before = before[(at + (before[at] == '\r' && at + 1 < before.Length && before[at + 1] == '\n' ? 2 : 1))..];
        }

        return line;
    }

    private static DecodedText DecodeMixed(ReadOnlySpan<byte> bytes)
    {
        // A Windows-1252 letter takes at most three bytes of UTF-8 (the euro sign), one before.
        var output = new byte[checked(bytes.Length * 3)];
        Span<char> letter = stackalloc char[1];
        var (written, foreign, firstOffset) = (0, 0, -1);
        for (var at = 0; at < bytes.Length;)
        {
            if (bytes[at] < 0x80)
            {
                output[written++] = bytes[at++];
            }
            else if (Rune.DecodeFromUtf8(bytes[at..], out _, out var length) == System.Buffers.OperationStatus.Done)
            {
                bytes.Slice(at, length).CopyTo(output.AsSpan(written));
                (at, written) = (at + length, written + length);
            }
            else
            {
                if (foreign++ == 0)
                    firstOffset = at;
                Windows1252.GetChars(bytes.Slice(at++, 1), letter);
                written += Encoding.UTF8.GetBytes(letter, output.AsSpan(written));
            }
        }

        var first = new ForeignBytes(foreign, LineAt(bytes, firstOffset), firstOffset, bytes[firstOffset]);
        return new DecodedText(output.AsMemory(0, written), first);
    }
}

/// <summary>Bytes that are not UTF-8.</summary>
/// <param name="Count">How many there are.</param>
/// <param name="FirstLine">The line of the first, from 1.</param>
/// <param name="FirstOffset">The offset of the first, in bytes from the start of the text (a byte order mark not counted).</param>
/// <param name="FirstByte">The first.</param>
internal sealed record ForeignBytes(int Count, int FirstLine, int FirstOffset, byte FirstByte);
