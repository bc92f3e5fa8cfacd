namespace TastingKit.Statistics.Tests;

public sealed class ClusteredRegressionTests
{
    [Fact]
    public void Clusters_of_one_give_the_textbook_interval_of_a_mean()
    {
        double[] y = [4.5, 6, 5.5, 7, 6.5, 5];
        var mean = ClusteredRegression.Mean(y, [1, 2, 3, 4, 5, 6]);

        // Mean 5.75, standard deviation sqrt(0.875), t(5) at 97.5 % = 2.570581835636314.
        Assert.Equal(5.75, mean.Value, 12);
        Assert.Equal(Math.Sqrt(0.875 / 6), mean.StandardError, 12);
        Assert.Equal(5, mean.DegreesOfFreedom, 9);
        Assert.Equal(5.75 - (2.570581835636314 * Math.Sqrt(0.875 / 6)), mean.Low, 9);
        Assert.Equal(5.75 + (2.570581835636314 * Math.Sqrt(0.875 / 6)), mean.High, 9);
    }

    [Fact]
    public void Clusters_of_equal_size_give_the_interval_of_their_means()
    {
        double[] y = [4, 5, 6, 7, 7.5, 8.5, 5, 5.5];
        var mean = ClusteredRegression.Mean(y, [1, 1, 2, 2, 3, 3, 4, 4]);
        double[] means = [4.5, 6.5, 8, 5.25];
        var centre = means.Average();
        var variance = means.Sum(m => (m - centre) * (m - centre)) / 3 / 4;

        Assert.Equal(centre, mean.Value, 12);
        Assert.Equal(Math.Sqrt(variance), mean.StandardError, 12);
        Assert.Equal(3, mean.DegreesOfFreedom, 9);
    }

    [Fact]
    public void A_difference_between_two_kinds_of_clusters_is_that_of_their_means()
    {
        double[] y = [4, 5, 6, 7, 7.5, 8.5, 5, 5.5, 6, 8];
        double[] late = [0, 0, 0, 0, 1, 1, 1, 1, 1, 1];
        var fit = ClusteredRegression.Fit(y, [[.. y.Select(_ => 1.0)], late], [1, 1, 2, 2, 3, 3, 4, 4, 5, 5]);
        var difference = fit.Estimate(0, 1);
        double[] early = [4.5, 6.5], after = [8, 5.25, 7];

        Assert.Equal(after.Average() - early.Average(), difference.Value, 12);
        var expected = Variance(early) / 2 + Variance(after) / 3;
        Assert.Equal(Math.Sqrt(expected), difference.StandardError, 12);
    }

    [Fact]
    public void The_interval_covers_the_mean_of_unequal_clusters_as_stated()
    {
        var random = new RandomStream(4021);
        int[] sizes = [1, 2, 2, 3, 4, 5, 7, 9, 3, 6, 1, 8];
        int[] clusters = [.. sizes.SelectMany((size, cluster) => Enumerable.Repeat(cluster, size))];
        var covered = 0;
        const int Runs = 2000;
        for (var run = 0; run < Runs; run++)
        {
            double[] shift = [.. sizes.Select(_ => random.NextNormal())];
            double[] y = [.. clusters.Select(c => 6 + (0.6 * shift[c]) + (0.6 * random.NextNormal()))];
            var mean = ClusteredRegression.Mean(y, clusters);
            if (mean.Low <= 6 && 6 <= mean.High)
                covered++;
        }

        // Three standard errors of a share of 95 % over 2,000 runs.
        Assert.InRange((double)covered / Runs, 0.935, 0.965);
    }

    [Fact]
    public void Faults_in_the_data_are_named()
    {
        var one = Assert.Throws<ArgumentException>(() => ClusteredRegression.Mean([1, 2, 3], [1, 1, 1]));
        Assert.Contains("at least two clusters; found 1", one.Message, StringComparison.Ordinal);
        Assert.Throws<ArgumentException>(() => ClusteredRegression.Mean([1, double.NaN], [1, 2]));
        Assert.Throws<ArgumentException>(() => ClusteredRegression.Fit([1, 2, 3], [[1, 1]], [1, 2, 3]));
        var dependent = Assert.Throws<ArgumentException>(() => ClusteredRegression.Fit([1, 2, 3], [[1, 1, 1], [2, 2, 2]], [1, 2, 3]));
        Assert.Contains("linearly dependent", dependent.Message, StringComparison.Ordinal);
    }

    private static double Variance(double[] values)
    {
        var mean = values.Average();
        return values.Sum(v => (v - mean) * (v - mean)) / (values.Length - 1);
    }
}
