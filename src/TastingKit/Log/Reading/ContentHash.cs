using System.Runtime.InteropServices;

namespace TastingKit.Reading;

/// <summary>
/// A hash of 64 bits, eight bytes a step by a folded product of 128 bits. It is the same on every machine of one byte order,
/// and is never written anywhere.
/// </summary>
internal static class ContentHash
{
    private const ulong Secret = 0x9E3779B97F4A7C15;
    private const ulong Other = 0xD6E8FEB86659FD93;

    /// <summary>The hash of an empty text.</summary>
    public static ulong OfNothing { get; } = Of([]);

    /// <summary>The hash of what was hashed before and of a text more, by its own hash.</summary>
    public static ulong With(ulong before, ulong hash) => Fold(before ^ hash, Secret);

    /// <summary>The hash of a text; its length counts.</summary>
    public static ulong Of(ReadOnlySpan<byte> text)
    {
        var hash = (ulong)text.Length * Other;
        for (; text.Length > 8; text = text[8..])
            hash = Fold(hash ^ MemoryMarshal.Read<ulong>(text), Secret);
        // What is left, read in two pieces that may overlap: the length is hashed, so that no two texts are read alike.
        var rest = text.Length switch
        {
            8 => MemoryMarshal.Read<ulong>(text),
            >= 4 => (ulong)MemoryMarshal.Read<uint>(text) | ((ulong)MemoryMarshal.Read<uint>(text[^4..]) << 32),
            >= 1 => (ulong)text[0] | ((ulong)text[text.Length / 2] << 8) | ((ulong)text[^1] << 16),
            _ => 0UL,
        };
        return Fold(hash ^ rest ^ Secret, Other);
    }

    private static ulong Fold(ulong left, ulong right)
    {
        var high = Math.BigMul(left, right, out var low);
        return high ^ low;
    }
}
