using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;

namespace TastingKit.Statistics;

/// <summary>
/// Cholesky factor, its inverse and the inverse of the matrix for one dense symmetric positive definite matrix, all as dot products
/// of rows in tiles of four by four. Work is split by rows; what a row gets does not depend on how it was split.
/// </summary>
/// <remarks>The loops over tiles are compiled with full optimisation at once, since a first fit would otherwise run most of its time in code made for counting.</remarks>
internal sealed unsafe class BlockedCholesky
{
    private const int BlockSize = 32;
    private const int RowsPerTask = 32;

    // Below this order a parallel loop costs more than it saves.
    private const int ParallelOrder = 256;

    private readonly int _paddedOrder;
    private readonly AlignedMatrix _factor;
    private readonly AlignedMatrix _diagonalInverses;
    private AlignedMatrix? _inverseFactor;
    private AlignedMatrix? _inverse;

    public BlockedCholesky(int order)
    {
        Order = order;
        _paddedOrder = AlignedMatrix.RoundUp(order);
        _factor = new AlignedMatrix(_paddedOrder, _paddedOrder);
        _diagonalInverses = new AlignedMatrix(_paddedOrder, BlockSize);
    }

    public int Order { get; }

    /// <summary>Before <see cref="Factor"/> the matrix's lower triangle, afterwards the factor's.</summary>
    public AlignedMatrix Lower => _factor;

    /// <summary>After <see cref="Invert"/> the inverse's lower triangle.</summary>
    public AlignedMatrix Inverse => _inverse!;

    /// <summary>After <see cref="Invert"/> the transposed inverse of the factor: row j holds the inverse's column j, zero before j.</summary>
    public AlignedMatrix InverseFactor => _inverseFactor!;

    /// <summary>Factors the lower triangle in place.</summary>
    /// <param name="threads">The most threads to use.</param>
    /// <returns>Whether the matrix was positive definite.</returns>
    public bool Factor(int threads)
    {
        for (int row = Order; row < _paddedOrder; row++)
        {
            double* padding = _factor.Row(row);
            for (int column = 0; column < _paddedOrder; column++) padding[column] = column == row ? 1 : 0;
        }

        for (int start = 0; start < _paddedOrder; start += BlockSize)
        {
            int size = Math.Min(BlockSize, _paddedOrder - start);
            Subtract(start, start + size, start, size);
            if (!FactorDiagonal(start, size)) return false;
            int block = start;
            ForRows(start + size, threads, (from, to) =>
            {
                Subtract(from, to, block, size);
                SolveRows(from, to, block, size);
            });
        }

        GC.KeepAlive(this);
        return true;
    }

    /// <summary>Inverts the factor and then the leading part of the matrix.</summary>
    /// <param name="order">The order of the leading part whose inverse is wanted.</param>
    /// <param name="threads">The most threads to use.</param>
    public void Invert(int order, int threads)
    {
        _inverseFactor ??= new AlignedMatrix(_paddedOrder, _paddedOrder);
        _inverse ??= new AlignedMatrix(_paddedOrder, _paddedOrder);
        int padded = AlignedMatrix.RoundUp(order);
        // The first blocks have the most to do, so the loop runs upwards.
        ForBlocks(padded, threads, start => InvertColumns(start, order, padded));
        ForBlocks(padded, threads, start => MultiplyInverse(start, padded));
        GC.KeepAlive(this);
    }

    /// <summary>Solves L x = b in place over the leading part.</summary>
    public void SolveLower(Span<double> x, int order)
    {
        fixed (double* values = x)
        {
            for (int i = 0; i < order; i++)
            {
                double* row = _factor.Row(i);
                values[i] = (values[i] - DotKernel.Dot(row, values, i)) / row[i];
            }
        }

        GC.KeepAlive(this);
    }

    /// <summary>Solves Lᵀ x = b in place over the leading part.</summary>
    public void SolveUpper(Span<double> x, int order)
    {
        fixed (double* values = x)
        {
            for (int i = order - 1; i >= 0; i--)
            {
                double* row = _factor.Row(i);
                values[i] /= row[i];
                DotKernel.AddMultiple(-values[i], row, values, i);
            }
        }

        GC.KeepAlive(this);
    }

    // Rows [from, to), columns of the block: subtracts the product over all columns before the block.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void Subtract(int from, int to, int start, int size)
    {
        if (start == 0) return;
        nint stride = _factor.Stride;
        for (int i = from; i < to; i += 4)
        {
            double* a = _factor.Row(i);
            int end = Math.Min(start + size, i + 4);
            for (int j = start; j < end; j += 4)
            {
                DotKernel.FourByFour(a, stride, _factor.Row(j), stride, start, out var r0, out var r1, out var r2, out var r3);
                double* target = a + j;
                (Vector256.Load(target) - r0).Store(target);
                (Vector256.Load(target + stride) - r1).Store(target + stride);
                (Vector256.Load(target + 2 * stride) - r2).Store(target + 2 * stride);
                (Vector256.Load(target + 3 * stride) - r3).Store(target + 3 * stride);
            }
        }
    }

    private bool FactorDiagonal(int start, int size)
    {
        for (int j = 0; j < size; j++)
        {
            double* pivotRow = _factor.Row(start + j) + start;
            double pivot = pivotRow[j] - DotKernel.Dot(pivotRow, pivotRow, j);
            if (!(pivot > 0)) return false;
            pivot = Math.Sqrt(pivot);
            pivotRow[j] = pivot;
            for (int i = j + 1; i < size; i++)
            {
                double* row = _factor.Row(start + i) + start;
                row[j] = (row[j] - DotKernel.Dot(row, pivotRow, j)) / pivot;
            }
        }

        // Row i of the inverse: unit vector solved forwards, kept as rows so that later products are dot products.
        for (int i = 0; i < size; i++)
        {
            double* row = _factor.Row(start + i) + start;
            double* inverse = _diagonalInverses.Row(start + i);
            for (int j = 0; j < size; j++) inverse[j] = 0;
            for (int k = 0; k < i; k++) DotKernel.AddMultiple(-row[k], _diagonalInverses.Row(start + k), inverse, k + 1);
            double scale = 1 / row[i];
            for (int j = 0; j < i; j++) inverse[j] *= scale;
            inverse[i] = scale;
        }

        return true;
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void SolveRows(int from, int to, int start, int size)
    {
        double* temporary = stackalloc double[4 * BlockSize];
        for (int i = from; i < to; i += 4)
        {
            for (int r = 0; r < 4; r++)
            {
                double* row = _factor.Row(i + r) + start;
                for (int k = 0; k < size; k += 4) Vector256.Load(row + k).Store(temporary + r * BlockSize + k);
            }

            for (int j = 0; j < size; j += 4)
            {
                DotKernel.FourByFour(temporary, BlockSize, _diagonalInverses.Row(start + j), _diagonalInverses.Stride, j + 4, out var r0, out var r1, out var r2, out var r3);
                r0.Store(_factor.Row(i) + start + j);
                r1.Store(_factor.Row(i + 1) + start + j);
                r2.Store(_factor.Row(i + 2) + start + j);
                r3.Store(_factor.Row(i + 3) + start + j);
            }
        }
    }

    // Columns [start, start + BlockSize) of the inverse factor, stored as rows.
    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void InvertColumns(int start, int order, int padded)
    {
        int size = Math.Min(BlockSize, padded - start);
        var target = _inverseFactor!;
        double* products = stackalloc double[4 * BlockSize];
        for (int j = 0; j < size; j++)
        {
            double* row = target.Row(start + j);
            for (int i = 0; i < size; i++) row[start + i] = i < j || start + i >= order ? 0 : _diagonalInverses.Row(start + i)[j];
        }

        for (int block = start + size; block < padded; block += BlockSize)
        {
            int width = Math.Min(BlockSize, padded - block);
            for (int j = 0; j < size; j += 4)
            {
                double* row = target.Row(start + j);
                for (int i = 0; i < width; i += 4)
                {
                    DotKernel.FourByFour(row + start, target.Stride, _factor.Row(block + i) + start, _factor.Stride, block - start, out var r0, out var r1, out var r2, out var r3);
                    (-r0).Store(products + i);
                    (-r1).Store(products + BlockSize + i);
                    (-r2).Store(products + 2 * BlockSize + i);
                    (-r3).Store(products + 3 * BlockSize + i);
                }

                for (int i = 0; i < width; i += 4)
                {
                    DotKernel.FourByFour(products, BlockSize, _diagonalInverses.Row(block + i), _diagonalInverses.Stride, i + 4, out var r0, out var r1, out var r2, out var r3);
                    double* tile = row + block + i;
                    r0.Store(tile);
                    r1.Store(tile + target.Stride);
                    r2.Store(tile + 2 * target.Stride);
                    r3.Store(tile + 3 * target.Stride);
                }
            }
        }

        // What lies past the wanted order must not count in the products.
        for (int j = 0; j < size; j++)
        {
            double* row = target.Row(start + j);
            for (int i = Math.Max(order, start); i < padded; i++) row[i] = 0;
        }
    }

    [MethodImpl(MethodImplOptions.AggressiveOptimization)]
    private void MultiplyInverse(int start, int padded)
    {
        int end = Math.Min(start + BlockSize, padded);
        var u = _inverseFactor!;
        for (int column = 0; column < end; column += BlockSize)
        {
            int columnEnd = Math.Min(column + BlockSize, end);
            for (int i = start; i < end; i += 4)
            {
                for (int j = column; j < Math.Min(columnEnd, i + 4); j += 4)
                {
                    DotKernel.FourByFour(u.Row(i) + i, u.Stride, u.Row(j) + i, u.Stride, padded - i, out var r0, out var r1, out var r2, out var r3);
                    r0.Store(_inverse!.Row(i) + j);
                    r1.Store(_inverse.Row(i + 1) + j);
                    r2.Store(_inverse.Row(i + 2) + j);
                    r3.Store(_inverse.Row(i + 3) + j);
                }
            }
        }
    }

    private void ForRows(int from, int threads, Action<int, int> body)
    {
        if (from >= _paddedOrder) return;
        if (threads <= 1 || _paddedOrder - from < ParallelOrder)
        {
            body(from, _paddedOrder);
            return;
        }

        int tasks = (_paddedOrder - from + RowsPerTask - 1) / RowsPerTask;
        Parallel.For(0, tasks, new ParallelOptions { MaxDegreeOfParallelism = threads },
            task => body(from + task * RowsPerTask, Math.Min(from + (task + 1) * RowsPerTask, _paddedOrder)));
    }

    private static void ForBlocks(int padded, int threads, Action<int> body)
    {
        int blocks = (padded + BlockSize - 1) / BlockSize;
        if (threads <= 1 || padded < ParallelOrder)
        {
            for (int block = 0; block < blocks; block++) body(block * BlockSize);
            return;
        }

        Parallel.For(0, blocks, new ParallelOptions { MaxDegreeOfParallelism = threads }, block => body(block * BlockSize));
    }
}
