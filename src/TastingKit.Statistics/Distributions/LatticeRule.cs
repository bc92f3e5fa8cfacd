namespace TastingKit.Statistics;

/// <summary>
/// Rank-one lattices in the unit cube for quasi-Monte-Carlo integration, randomly shifted and folded by the tent
/// map so that the integrand need not be periodic (Hickernell 2002).
/// </summary>
/// <remarks>
/// Generating vectors: component-by-component construction (Sloan and Reztsov 2002) over random candidates,
/// minimising the worst-case error P₂ with product weights 1/j; computed once and stored. Coordinates past the stored
/// ones are plain pseudo-random numbers, which keeps the estimate unbiased and its error estimate honest.
/// </remarks>
internal static class LatticeRule
{
    private static readonly int[] Sizes = [1021, 4093, 16381, 65521, 262139];

    private static readonly int[][] Generators =
    [
        [
            1, 374, 156, 285, 305, 253, 486, 347, 399, 478, 228, 352, 15, 208, 213, 332, 82, 280, 99, 290,
            233, 109, 270, 119, 223, 337, 295, 114, 176, 124, 404, 166, 171, 508, 62, 451, 456, 57, 47, 5,
        ],
        [
            1, 1210, 1542, 1785, 424, 2011, 1718, 1807, 387, 1428, 1088, 1026, 1175, 1738, 704, 1242, 1557, 1051, 139, 989,
            238, 1113, 890, 1651, 171, 1185, 1837, 124, 305, 1827, 1656, 233, 1423, 1532, 57, 1946, 1252, 1356, 52, 1904,
        ],
        [
            1, 3711, 5711, 6593, 2765, 5925, 7182, 7288, 7759, 4840, 344, 5978, 1949, 4355, 1387, 2805, 1643, 3279, 2388, 5936,
            7257, 6022, 2410, 2280, 2095, 1603, 3464, 7411, 7700, 7733, 6240, 5118, 3528, 3916, 7960, 6218, 926, 4443, 1420, 4884,
        ],
        [
            1, 27511, 14957, 15791, 23303, 2963, 13921, 3533, 22341, 16144, 24286, 19785, 11513, 17399, 15065, 490, 2579, 23493,
            30820, 10187, 30880, 26122, 28643, 15140, 17490, 29020, 26079, 28960, 20054, 20698, 13287, 29741, 31380, 19970, 7344,
            31440, 24000, 32591, 12650, 20203,
        ],
        [
            1, 81062, 30686, 57073, 84064, 86336, 42306, 30429, 85658, 58003, 74791, 129879, 61196, 114293, 50533, 54144, 130251,
            104995, 93717, 103660, 60215, 45511, 32763, 62290, 18218, 61495, 3599, 62707, 121795, 90086, 54369, 60541, 25995,
            18282, 25660, 11943, 33265, 43023, 73878, 24924,
        ],
    ];

    /// <summary>The number of lattices, from the coarsest on.</summary>
    public static int LevelCount => Sizes.Length;

    /// <summary>The number of points of the lattice <paramref name="level"/>.</summary>
    public static int Size(int level) => Sizes[level];

    /// <summary>The mean of an integrand over one randomly shifted lattice.</summary>
    /// <param name="level">The lattice.</param>
    /// <param name="dimension">The dimension of the cube.</param>
    /// <param name="random">Gives the shift; each call takes its numbers from here.</param>
    /// <param name="integrand">Called with one point at a time; the span is used again for the next.</param>
    public static double Mean(int level, int dimension, RandomStream random, Func<ReadOnlySpan<double>, double> integrand)
    {
        int size = Sizes[level];
        int[] generator = Generators[level];
        int structured = Math.Min(dimension, generator.Length);
        var shift = new double[structured];
        for (int j = 0; j < structured; j++)
        {
            shift[j] = random.NextDouble();
        }

        var index = new int[structured];
        var point = new double[dimension];
        double sum = 0.0;
        for (int k = 0; k < size; k++)
        {
            for (int j = 0; j < structured; j++)
            {
                double x = (double)index[j] / size + shift[j];
                x = x >= 1.0 ? x - 1.0 : x;
                point[j] = 1.0 - Math.Abs(2.0 * x - 1.0);
                index[j] += generator[j];
                index[j] = index[j] >= size ? index[j] - size : index[j];
            }

            for (int j = structured; j < dimension; j++)
            {
                point[j] = random.NextDouble();
            }

            sum += integrand(point);
        }

        return sum / size;
    }
}
