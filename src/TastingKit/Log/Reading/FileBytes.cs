namespace TastingKit.Reading;

/// <summary>Reads the bytes of a file.</summary>
internal static class FileBytes
{
    /// <summary>Below this a thread takes longer to begin than the bytes do.</summary>
    private const int ManyBytes = 1 << 24;

    /// <summary>Reads a file, a large one in two halves at once: most of the time goes into the system's handing out of pages.</summary>
    /// <exception cref="IOException">It can't be read, is too large, or was made shorter meanwhile.</exception>
    public static byte[] Read(string path)
    {
        using var file = File.OpenHandle(path);
        var length = RandomAccess.GetLength(file);
        if (length < ManyBytes || length > Array.MaxLength)
            return File.ReadAllBytes(path);
        var bytes = GC.AllocateUninitializedArray<byte>((int)length);
        var half = bytes.Length / 2;
        var second = Task.Run(() => Fill(bytes.AsSpan(half), half));
        try
        {
            Fill(bytes.AsSpan(0, half), 0);
        }
        finally
        {
            // Not before it has ended may the file be closed.
            second.ConfigureAwait(ConfigureAwaitOptions.SuppressThrowing).GetAwaiter().GetResult();
        }

        second.GetAwaiter().GetResult();
        return bytes;

        void Fill(Span<byte> part, int offset)
        {
            while (!part.IsEmpty)
            {
                var count = RandomAccess.Read(file, part, offset);
                if (count == 0)
                    throw new EndOfStreamException("It ended before its end: it was made shorter while it was read.");
                part = part[count..];
                offset += count;
            }
        }
    }
}
