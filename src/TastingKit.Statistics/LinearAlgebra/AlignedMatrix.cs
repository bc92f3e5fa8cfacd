namespace TastingKit.Statistics;

/// <summary>A row-major matrix in pinned memory whose rows start on 32-byte boundaries and are padded with zeros to whole vectors of four.</summary>
internal sealed unsafe class AlignedMatrix
{
    private const int Alignment = 64;

    // Held so that the memory behind the pointer lives as long as the matrix.
    private readonly double[] _storage;

    public AlignedMatrix(int rowCount, int columnCount)
    {
        RowCount = rowCount;
        // A stride that is a multiple of a large power of two puts the rows of a tile into one set of the cache.
        int stride = RoundUp(Math.Max(columnCount, 4));
        Stride = stride % 64 == 0 ? stride + 8 : stride;
        _storage = GC.AllocateArray<double>(checked(rowCount * Stride) + Alignment / sizeof(double), pinned: true);
        fixed (double* start = _storage)
            Pointer = (double*)(((nint)start + Alignment - 1) / Alignment * Alignment);
    }

    public int RowCount { get; }

    public int Stride { get; }

    public double* Pointer { get; }

    public double this[int row, int column]
    {
        get => Pointer[(nint)row * Stride + column];
        set => Pointer[(nint)row * Stride + column] = value;
    }

    public double* Row(int row) => Pointer + (nint)row * Stride;

    public void Clear() => Array.Clear(_storage);

    public static int RoundUp(int count) => (count + 3) / 4 * 4;
}
