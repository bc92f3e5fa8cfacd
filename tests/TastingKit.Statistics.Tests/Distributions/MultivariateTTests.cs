namespace TastingKit.Statistics.Tests;

public sealed class MultivariateTTests
{
    [Theory]
    [InlineData(3, 18.0, 1e-8)]
    [InlineData(4, 7.0, 1e-6)]
    [InlineData(6, 115.0, 1e-5)]
    [InlineData(10, double.PositiveInfinity, 2e-4)]
    public void All_pairs_of_equally_precise_means_give_the_studentised_range(int means, double degreesOfFreedom, double tolerance)
    {
        var distribution = MultivariateT.ForEstimates(PairwiseCovariance(means, Enumerable.Repeat(1.0, means).ToArray()), degreesOfFreedom);
        Assert.Equal(means * (means - 1) / 2, distribution.Dimension);
        Assert.Equal(means - 1, distribution.Rank);
        foreach (double t in new[] { 0.7, 1.5, 2.5, 3.5, 5.0 })
        {
            double expected = StudentizedRange.UpperTail(t * Math.Sqrt(2.0), means, degreesOfFreedom);
            var actual = distribution.MaximumAbsoluteTail(t);
            Assert.Equal(expected, actual.Value, tolerance);
            Assert.Equal(expected, actual.Value, 3.0 * actual.Error + 1e-9);
        }

        double quantile = StudentizedRange.Quantile(0.95, means, degreesOfFreedom) / Math.Sqrt(2.0);
        Assert.Equal(quantile, distribution.MaximumAbsoluteQuantile(0.95), 20.0 * tolerance);
    }

    [Fact]
    public void Three_unequally_precise_means_give_the_reference()
    {
        var block = MiscReference.Block("simultaneous_three_means");
        double[,] v = block.Matrix("covariance");
        (int I, int J)[] pairs = [(0, 1), (0, 2), (1, 2)];
        var covariance = new double[3, 3];
        for (int a = 0; a < 3; a++)
        {
            for (int b = 0; b < 3; b++)
            {
                var (i, j) = pairs[a];
                var (k, l) = pairs[b];
                covariance[a, b] = v[i, k] - v[i, l] - v[j, k] + v[j, l];
            }
        }

        var distribution = MultivariateT.ForEstimates(covariance, block.Number("df"));
        Assert.Equal(2, distribution.Rank);
        Assert.Equal(block.Number("critical_95_mvt"), distribution.MaximumAbsoluteQuantile(0.95), 1e-7);
        var rows = block.GetProperty("pairs").EnumerateArray().ToArray();
        Assert.Equal(3, rows.Length);
        foreach (var row in rows)
        {
            double t = Math.Abs(row.Number("t"));
            Assert.Equal(row.Number("p_mvt_single_step"), distribution.MaximumAbsoluteTail(t).Value, 1e-8);
            Assert.Equal(row.Number("p_tukey"), StudentizedRange.UpperTail(t * Math.Sqrt(2.0), 3, block.Number("df")), 1e-10);
            Assert.Equal(row.Number("p"), StudentsT.TwoSidedTail(t, block.Number("df")), 1e-13);
        }
    }

    [Fact]
    public void Comparisons_with_one_control_give_the_reference()
    {
        var results = MiscReference.Block("dunnett").GetProperty("results").EnumerateArray().ToArray();
        Assert.Equal(2, results.Length);
        foreach (var row in results)
        {
            double[] sizes = row.Numbers("n_treatments");
            double control = row.Number("n_control");
            var covariance = new double[sizes.Length, sizes.Length];
            for (int i = 0; i < sizes.Length; i++)
            {
                for (int j = 0; j < sizes.Length; j++)
                {
                    covariance[i, j] = 1.0 / control + (i == j ? 1.0 / sizes[i] : 0.0);
                }
            }

            var distribution = MultivariateT.ForEstimates(covariance, row.Number("df"));
            double critical = row.GetProperty("two_sided").GetBoolean()
                ? distribution.MaximumAbsoluteQuantile(row.Number("level"))
                : distribution.MaximumQuantile(row.Number("level"));
            Assert.Equal(row.Number("critical"), critical, 2e-5);
        }
    }

    [Theory]
    [InlineData(9.0)]
    [InlineData(double.PositiveInfinity)]
    public void Rectangle_and_largest_value_agree(double degreesOfFreedom)
    {
        var covariance = PairwiseCovariance(4, [0.5, 1.0, 1.3, 2.0]);
        var distribution = MultivariateT.ForEstimates(covariance, degreesOfFreedom);
        foreach (double c in new[] { 0.8, 2.0, 3.0 })
        {
            double[] upper = Enumerable.Repeat(c, 6).ToArray();
            double[] lower = Enumerable.Repeat(-c, 6).ToArray();
            double[] none = Enumerable.Repeat(double.NegativeInfinity, 6).ToArray();
            Assert.Equal(1.0 - distribution.MaximumAbsoluteTail(c).Value, distribution.Probability(lower, upper).Value, 5e-6);
            Assert.Equal(1.0 - distribution.MaximumTail(c).Value, distribution.Probability(none, upper).Value, 5e-6);
        }
    }

    [Fact]
    public void One_sided_tail_below_zero_is_the_orthant_probability()
    {
        // P(all three below zero) = 1/8 + Σ arcsin ρ / (4π) whatever the degrees of freedom.
        double[,] correlation = { { 1.0, 0.3, -0.2 }, { 0.3, 1.0, 0.5 }, { -0.2, 0.5, 1.0 } };
        double orthant = 0.125 + (Math.Asin(0.3) + Math.Asin(-0.2) + Math.Asin(0.5)) / (4.0 * Math.PI);
        var distribution = MultivariateT.ForEstimates(correlation, 6.0);
        Assert.Equal(1.0 - orthant, distribution.MaximumTail(0.0).Value, 1e-5);
        Assert.Equal(orthant, distribution.Probability([double.NegativeInfinity, double.NegativeInfinity, double.NegativeInfinity], [0.0, 0.0, 0.0]).Value, 1e-5);
        double negative = distribution.MaximumTail(-0.4).Value;
        Assert.Equal(1.0 - negative, distribution.Probability([double.NegativeInfinity, double.NegativeInfinity, double.NegativeInfinity], [-0.4, -0.4, -0.4]).Value, 1e-5);
    }

    [Fact]
    public void A_single_variable_and_copies_of_it_are_students_t()
    {
        var one = MultivariateT.ForEstimates(new[,] { { 4.0 } }, 12.0);
        var copies = MultivariateT.ForEstimates(new[,] { { 1.0, -1.0 }, { -1.0, 1.0 } }, 12.0);
        Assert.Equal(1, copies.Rank);
        double expected = StudentsT.TwoSidedTail(2.1, 12.0);
        Assert.Equal(expected, one.MaximumAbsoluteTail(2.1).Value, 1e-14);
        Assert.Equal(expected, copies.MaximumAbsoluteTail(2.1).Value, 1e-12);
        Assert.Equal(2.1, one.MaximumAbsoluteQuantile(1.0 - expected), 1e-9);
        Assert.Equal(2.1, copies.MaximumAbsoluteQuantile(1.0 - expected), 1e-9);
    }

    [Fact]
    public void Contrasts_of_means_and_their_covariance_describe_the_same_distribution()
    {
        double[,] means = { { 0.9, 0.2, 0.1, 0.0 }, { 0.2, 0.5, 0.15, 0.1 }, { 0.1, 0.15, 1.6, 0.0 }, { 0.0, 0.1, 0.0, 0.7 } };
        double[,] contrasts = { { 1, -1, 0, 0 }, { 1, 0, -1, 0 }, { 0, 0, 1, -1 }, { 1, -0.5, -0.5, 0 } };
        var fromContrasts = MultivariateT.ForContrasts(contrasts, means, 14.0);
        var fromCovariance = MultivariateT.ForEstimates(Correlations.OfContrasts(contrasts, means), 14.0);
        Assert.Equal(3, fromContrasts.Rank);
        Assert.Equal(3, fromCovariance.Rank);
        foreach (double c in new[] { 1.0, 2.2, 4.0 })
        {
            Assert.Equal(fromCovariance.MaximumAbsoluteTail(c).Value, fromContrasts.MaximumAbsoluteTail(c).Value, 3e-5);
            Assert.Equal(fromCovariance.MaximumTail(c).Value, fromContrasts.MaximumTail(c).Value, 5e-5);
        }

        double[,] levels = { { 1, 0, 0, 0 }, { 0, 1, 0, 0 }, { 0, 0, 1, 0 }, { 0, 0, 0, 1 } };
        Assert.Equal(
            MultivariateT.ForEstimates(means, 14.0).MaximumAbsoluteTail(2.0).Value,
            MultivariateT.ForContrasts(levels, means, 14.0).MaximumAbsoluteTail(2.0).Value,
            2e-5);
    }

    [Fact]
    public void Impossible_contrasts_are_explained()
    {
        double[,] means = { { 1.0, 0.0 }, { 0.0, 1.0 } };
        Assert.Contains("2 × 2", Assert.Throws<ArgumentException>(() => MultivariateT.ForContrasts(new[,] { { 1.0, -1.0 } }, new[,] { { 1.0 } }, 5.0)).Message, StringComparison.Ordinal);
        Assert.Contains("Contrast 0", Assert.Throws<ArgumentException>(() => MultivariateT.ForContrasts(new[,] { { 0.0, 0.0 } }, means, 5.0)).Message, StringComparison.Ordinal);
        Assert.Contains("positive semidefinite", Assert.Throws<ArgumentException>(() => MultivariateT.ForContrasts(new[,] { { 1.0, 0.0 } }, new[,] { { 1.0, 2.0 }, { 2.0, 1.0 } }, 5.0)).Message, StringComparison.Ordinal);
    }

    [Fact]
    public void A_very_small_tail_keeps_its_order_of_magnitude()
    {
        var distribution = MultivariateT.ForEstimates(PairwiseCovariance(5, [1.0, 1.0, 1.0, 1.0, 1.0]), 60.0);
        double expected = StudentizedRange.UpperTail(9.0 * Math.Sqrt(2.0), 5, 60.0);
        Assert.InRange(expected, 1e-12, 1e-10);
        Assert.Equal(1.0, distribution.MaximumAbsoluteTail(9.0).Value / expected, 1e-3);
    }

    [Fact]
    public void The_seed_alone_decides_the_bits()
    {
        var covariance = PairwiseCovariance(5, [0.5, 1.0, 1.3, 2.0, 0.7]);
        double first = MultivariateT.ForEstimates(covariance, 20.0).MaximumAbsoluteTail(2.2).Value;
        double again = MultivariateT.ForEstimates(covariance, 20.0).MaximumAbsoluteTail(2.2).Value;
        double other = MultivariateT.ForEstimates(covariance, 20.0, new MultivariateTOptions { Seed = 2 }).MaximumAbsoluteTail(2.2).Value;
        Assert.Equal(first, again);
        Assert.NotEqual(first, other);
        Assert.Equal(first, other, 2e-5);
    }

    [Fact]
    public void Impossible_matrices_and_bounds_are_explained()
    {
        Assert.Contains("square", Assert.Throws<ArgumentException>(() => MultivariateT.ForEstimates(new double[2, 3], 5.0)).Message, StringComparison.Ordinal);
        Assert.Contains("variance of variable 1", Assert.Throws<ArgumentException>(() => MultivariateT.ForEstimates(new[,] { { 1.0, 0.0 }, { 0.0, 0.0 } }, 5.0)).Message, StringComparison.Ordinal);
        Assert.Contains("symmetric", Assert.Throws<ArgumentException>(() => MultivariateT.ForEstimates(new[,] { { 1.0, 0.5 }, { 0.1, 1.0 } }, 5.0)).Message, StringComparison.Ordinal);
        double[,] indefinite = { { 1.0, 0.9, -0.9 }, { 0.9, 1.0, 0.9 }, { -0.9, 0.9, 1.0 } };
        Assert.Contains("positive semidefinite", Assert.Throws<ArgumentException>(() => MultivariateT.ForEstimates(indefinite, 5.0)).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => MultivariateT.ForEstimates(new[,] { { 1.0 } }, -1.0));
        var distribution = MultivariateT.ForEstimates(new[,] { { 1.0, 0.5 }, { 0.5, 1.0 } }, 5.0);
        Assert.Contains("1 bounds were given for 2", Assert.Throws<ArgumentException>(() => distribution.Probability([0.0], [1.0, 1.0])).Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => distribution.Probability([double.NaN, 0.0], [1.0, 1.0]));
        Assert.Throws<ArgumentOutOfRangeException>(() => distribution.MaximumAbsoluteTail(-1.0));
        Assert.Throws<ArgumentOutOfRangeException>(() => distribution.MaximumTail(double.NaN));
        Assert.Throws<ArgumentOutOfRangeException>(() => distribution.MaximumAbsoluteQuantile(1.0));
        Assert.Equal(0.0, distribution.Probability([1.0, 1.0], [0.0, 2.0]).Value);
    }

    /// <summary>Covariance of all pairwise differences of independent means with the variances given.</summary>
    private static double[,] PairwiseCovariance(int means, double[] variances)
    {
        var pairs = (from i in Enumerable.Range(0, means) from j in Enumerable.Range(i + 1, means - i - 1) select (i, j)).ToArray();
        var covariance = new double[pairs.Length, pairs.Length];
        for (int a = 0; a < pairs.Length; a++)
        {
            for (int b = 0; b < pairs.Length; b++)
            {
                var (i, j) = pairs[a];
                var (k, l) = pairs[b];
                covariance[a, b] = (i == k ? variances[i] : 0.0) + (j == l ? variances[j] : 0.0)
                    - (i == l ? variances[i] : 0.0) - (j == k ? variances[j] : 0.0);
            }
        }

        return covariance;
    }
}
