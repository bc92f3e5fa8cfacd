using System.Runtime.InteropServices;

namespace TastingKit.Statistics;

/// <summary>A row-major matrix outside the managed heap whose rows start on 32-byte boundaries and are padded with zeros to whole vectors of four.</summary>
/// <remarks>
/// Hundreds of fits a second would otherwise fill the large object heap. Whoever works on <see cref="Pointer"/> keeps the matrix alive until
/// the end of that work (<see cref="GC.KeepAlive"/>).
/// </remarks>
internal sealed unsafe class AlignedMatrix
{
    private const nuint Alignment = 64;

    private readonly long _bytes;

    public AlignedMatrix(int rowCount, int columnCount)
    {
        RowCount = rowCount;
        // A stride that is a multiple of a large power of two puts the rows of a tile into one set of the cache.
        int stride = RoundUp(Math.Max(columnCount, 4));
        Stride = stride % 64 == 0 ? stride + 8 : stride;
        _bytes = checked((long)rowCount * Stride * sizeof(double));
        Pointer = (double*)NativeMemory.AlignedAlloc((nuint)_bytes, Alignment);
        Clear();
        if (_bytes > 0) GC.AddMemoryPressure(_bytes);
    }

    ~AlignedMatrix()
    {
        NativeMemory.AlignedFree(Pointer);
        if (_bytes > 0) GC.RemoveMemoryPressure(_bytes);
    }

    public int RowCount { get; }

    public int Stride { get; }

    public double* Pointer { get; }

    public double this[int row, int column]
    {
        get
        {
            double value = Pointer[(nint)row * Stride + column];
            GC.KeepAlive(this);
            return value;
        }
        set
        {
            Pointer[(nint)row * Stride + column] = value;
            GC.KeepAlive(this);
        }
    }

    public double* Row(int row) => Pointer + (nint)row * Stride;

    public void Clear()
    {
        NativeMemory.Clear(Pointer, (nuint)_bytes);
        GC.KeepAlive(this);
    }

    public static int RoundUp(int count) => (count + 3) / 4 * 4;
}
