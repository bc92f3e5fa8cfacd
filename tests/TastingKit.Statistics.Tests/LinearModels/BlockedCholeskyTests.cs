namespace TastingKit.Statistics.Tests.LinearModels;

public class BlockedCholeskyTests
{
    [Theory]
    [InlineData(1)]
    [InlineData(3)]
    [InlineData(4)]
    [InlineData(31)]
    [InlineData(33)]
    [InlineData(70)]
    [InlineData(301)]
    public void Factor_and_inverse_reproduce_the_matrix(int order)
    {
        double[,] matrix = PositiveDefinite(order, 3);
        var cholesky = Factored(matrix, 2);
        cholesky.Invert(order, 2);
        for (int i = 0; i < order; i += 1 + order / 40)
        {
            for (int j = 0; j <= i; j++)
            {
                double product = 0, identity = 0;
                for (int k = 0; k <= j; k++) product += cholesky.Lower[i, k] * cholesky.Lower[j, k];
                for (int k = 0; k < order; k++) identity += matrix[i, k] * (k >= j ? cholesky.Inverse[k, j] : cholesky.Inverse[j, k]);
                Assert.Equal(matrix[i, j], product, 1e-10 * order);
                Assert.Equal(i == j ? 1 : 0, identity, 1e-9);
            }
        }
    }

    [Fact]
    public void The_inverse_of_a_leading_part_leaves_the_rest_out()
    {
        const int order = 45, leading = 38;
        double[,] matrix = PositiveDefinite(order, 4);
        var whole = Factored(matrix, 1);
        whole.Invert(leading, 1);
        var part = new double[leading, leading];
        for (int i = 0; i < leading; i++)
            for (int j = 0; j < leading; j++) part[i, j] = matrix[i, j];
        var alone = Factored(part, 1);
        alone.Invert(leading, 1);
        for (int i = 0; i < leading; i++)
            for (int j = 0; j <= i; j++) Assert.Equal(alone.Inverse[i, j], whole.Inverse[i, j], 1e-12);
    }

    [Fact]
    public void One_and_two_threads_give_the_same_bits()
    {
        const int order = 390;
        double[,] matrix = PositiveDefinite(order, 5);
        BlockedCholesky one = Factored(matrix, 1), two = Factored(matrix, 2);
        one.Invert(order, 1);
        two.Invert(order, 2);
        for (int i = 0; i < order; i++)
        {
            for (int j = 0; j <= i; j++)
            {
                Assert.Equal(BitConverter.DoubleToInt64Bits(one.Lower[i, j]), BitConverter.DoubleToInt64Bits(two.Lower[i, j]));
                Assert.Equal(BitConverter.DoubleToInt64Bits(one.Inverse[i, j]), BitConverter.DoubleToInt64Bits(two.Inverse[i, j]));
            }
        }
    }

    [Fact]
    public void A_matrix_that_is_not_positive_definite_is_refused()
    {
        double[,] matrix = PositiveDefinite(20, 6);
        matrix[10, 10] = -1;
        Assert.False(Filled(matrix).Factor(1));
    }

    [Fact]
    public unsafe void Dot_products_are_added_in_a_stated_order_whatever_the_processor()
    {
        const int length = 52;
        var random = new RandomStream(8);
        AlignedMatrix a = new(4, length), b = new(4, length);
        for (int row = 0; row < 4; row++)
            for (int column = 0; column < length; column++) (a[row, column], b[row, column]) = (random.NextNormal(), random.NextNormal());
        DotKernel.FourByFour(a.Pointer, a.Stride, b.Pointer, b.Stride, length, out var row0, out var row1, out var row2, out var row3);
        System.Runtime.Intrinsics.Vector256<double>[] tile = [row0, row1, row2, row3];
        for (int row = 0; row < 4; row++)
        {
            for (int column = 0; column < 4; column++)
            {
                // Four sums of every fourth product by fused multiply-add, then pairs, then the pairs' sum.
                var lanes = new double[4];
                for (int k = 0; k < length; k++) lanes[k % 4] = Math.FusedMultiplyAdd(a[row, k], b[column, k], lanes[k % 4]);
                double sum = lanes[0] + lanes[1] + (lanes[2] + lanes[3]);
                Assert.Equal(BitConverter.DoubleToInt64Bits(sum), BitConverter.DoubleToInt64Bits(tile[row][column]));
                Assert.Equal(sum, DotKernel.Dot(a.Row(row), b.Row(column), length));
            }
        }
    }

    private static BlockedCholesky Factored(double[,] matrix, int threads)
    {
        var cholesky = Filled(matrix);
        Assert.True(cholesky.Factor(threads));
        return cholesky;
    }

    private static BlockedCholesky Filled(double[,] matrix)
    {
        int order = matrix.GetLength(0);
        var cholesky = new BlockedCholesky(order);
        for (int i = 0; i < order; i++)
            for (int j = 0; j <= i; j++) cholesky.Lower[i, j] = matrix[i, j];
        return cholesky;
    }

    private static double[,] PositiveDefinite(int order, ulong seed)
    {
        var random = new RandomStream(seed);
        var root = new double[order, order];
        for (int i = 0; i < order; i++)
            for (int j = 0; j < order; j++) root[i, j] = random.NextNormal() / Math.Sqrt(order);
        var matrix = new double[order, order];
        for (int i = 0; i < order; i++)
        {
            for (int j = 0; j < order; j++)
            {
                for (int k = 0; k < order; k++) matrix[i, j] += root[i, k] * root[j, k];
            }

            matrix[i, i] += 1;
        }

        return matrix;
    }
}
