using System.Runtime.CompilerServices;
using System.Runtime.Intrinsics;
using System.Runtime.Intrinsics.X86;

namespace TastingKit.Statistics;

/// <summary>
/// Dot products of rows on vectors of four, added up in one fixed order with fused multiply-add, so that the bits depend neither
/// on the processor's widest vector nor on the number of threads.
/// </summary>
internal static unsafe class DotKernel
{
    /// <summary>All 16 dot products of four rows with four rows; the result's row r holds those of a's row r.</summary>
    /// <param name="a">First of four rows.</param>
    /// <param name="aStride">Distance between rows of a.</param>
    /// <param name="b">First of four rows.</param>
    /// <param name="bStride">Distance between rows of b.</param>
    /// <param name="length">Number of columns, a multiple of four.</param>
    /// <param name="row0">The products of a's first row; the others follow.</param>
    /// <param name="row1">The products of a's second row.</param>
    /// <param name="row2">The products of a's third row.</param>
    /// <param name="row3">The products of a's fourth row.</param>
    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    public static void FourByFour(double* a, nint aStride, double* b, nint bStride, int length,
        out Vector256<double> row0, out Vector256<double> row1, out Vector256<double> row2, out Vector256<double> row3)
    {
        Vector256<double> s00 = default, s01 = default, s02 = default, s03 = default;
        Vector256<double> s10 = default, s11 = default, s12 = default, s13 = default;
        Vector256<double> s20 = default, s21 = default, s22 = default, s23 = default;
        Vector256<double> s30 = default, s31 = default, s32 = default, s33 = default;
        double* a1 = a + aStride, a2 = a1 + aStride, a3 = a2 + aStride;
        double* b1 = b + bStride, b2 = b1 + bStride, b3 = b2 + bStride;
        for (int k = 0; k < length; k += 4)
        {
            var x0 = Vector256.Load(b + k);
            var x1 = Vector256.Load(b1 + k);
            var x2 = Vector256.Load(b2 + k);
            var x3 = Vector256.Load(b3 + k);
            var y = Vector256.Load(a + k);
            s00 = Vector256.FusedMultiplyAdd(y, x0, s00);
            s01 = Vector256.FusedMultiplyAdd(y, x1, s01);
            s02 = Vector256.FusedMultiplyAdd(y, x2, s02);
            s03 = Vector256.FusedMultiplyAdd(y, x3, s03);
            y = Vector256.Load(a1 + k);
            s10 = Vector256.FusedMultiplyAdd(y, x0, s10);
            s11 = Vector256.FusedMultiplyAdd(y, x1, s11);
            s12 = Vector256.FusedMultiplyAdd(y, x2, s12);
            s13 = Vector256.FusedMultiplyAdd(y, x3, s13);
            y = Vector256.Load(a2 + k);
            s20 = Vector256.FusedMultiplyAdd(y, x0, s20);
            s21 = Vector256.FusedMultiplyAdd(y, x1, s21);
            s22 = Vector256.FusedMultiplyAdd(y, x2, s22);
            s23 = Vector256.FusedMultiplyAdd(y, x3, s23);
            y = Vector256.Load(a3 + k);
            s30 = Vector256.FusedMultiplyAdd(y, x0, s30);
            s31 = Vector256.FusedMultiplyAdd(y, x1, s31);
            s32 = Vector256.FusedMultiplyAdd(y, x2, s32);
            s33 = Vector256.FusedMultiplyAdd(y, x3, s33);
        }

        row0 = Reduce(s00, s01, s02, s03);
        row1 = Reduce(s10, s11, s12, s13);
        row2 = Reduce(s20, s21, s22, s23);
        row3 = Reduce(s30, s31, s32, s33);
    }

    /// <summary>The dot product of two rows.</summary>
    /// <param name="a">A row.</param>
    /// <param name="b">A row.</param>
    /// <param name="length">Any number of columns.</param>
    public static double Dot(double* a, double* b, int length)
    {
        Vector256<double> sum = default;
        int k = 0;
        for (; k <= length - 4; k += 4) sum = Vector256.FusedMultiplyAdd(Vector256.Load(a + k), Vector256.Load(b + k), sum);
        double total = Sum(sum);
        for (; k < length; k++) total = Math.FusedMultiplyAdd(a[k], b[k], total);
        return total;
    }

    /// <summary>Adds a multiple of one row to another.</summary>
    /// <param name="factor">The multiple.</param>
    /// <param name="from">The row to add.</param>
    /// <param name="to">The row that changes.</param>
    /// <param name="length">Any number of columns.</param>
    public static void AddMultiple(double factor, double* from, double* to, int length)
    {
        var scale = Vector256.Create(factor);
        int k = 0;
        for (; k <= length - 4; k += 4) Vector256.FusedMultiplyAdd(scale, Vector256.Load(from + k), Vector256.Load(to + k)).Store(to + k);
        for (; k < length; k++) to[k] = Math.FusedMultiplyAdd(factor, from[k], to[k]);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static Vector256<double> Reduce(Vector256<double> s0, Vector256<double> s1, Vector256<double> s2, Vector256<double> s3)
    {
        if (!Avx.IsSupported) return Vector256.Create(Sum(s0), Sum(s1), Sum(s2), Sum(s3));
        // The same additions as Sum, four at once: lane 0 with 1, lane 2 with 3, then the two halves.
        var first = Avx.HorizontalAdd(s0, s1);
        var second = Avx.HorizontalAdd(s2, s3);
        return Avx.Permute2x128(first, second, 0x20) + Avx.Permute2x128(first, second, 0x31);
    }

    [MethodImpl(MethodImplOptions.AggressiveInlining)]
    private static double Sum(Vector256<double> s) => s.GetElement(0) + s.GetElement(1) + (s.GetElement(2) + s.GetElement(3));
}
