namespace TastingKit.Statistics.Tests;

public sealed class ClusteredProportionTests
{
    [Fact]
    public void Where_all_clusters_agree_each_counts_once()
    {
        var share = ClusteredProportion.Of([1, 1, 1, 1, 1, 1], [1, 1, 2, 2, 3, 3]);

        // Clopper and Pearson for 3 of 3: the lower bound is 0.025 to the power of a third.
        Assert.Equal(1, share.Value, 12);
        Assert.Equal(Math.Pow(0.025, 1 / 3.0), share.Low, 9);
        Assert.Equal(1, share.High);
    }

    [Fact]
    public void The_interval_holds_the_share_stays_in_bounds_and_widens_with_clustering()
    {
        double[] shares = [0, 0, 0, 1, 1, 1, 0, 1, 0.5, 0.5];
        var apart = ClusteredProportion.Of(shares, [1, 2, 3, 4, 5, 6, 7, 8, 9, 10]);
        var together = ClusteredProportion.Of(shares, [1, 1, 1, 2, 2, 2, 3, 3, 4, 4]);

        Assert.Equal(0.5, apart.Value, 12);
        Assert.InRange(apart.Low, 0, 0.5);
        Assert.InRange(apart.High, 0.5, 1);
        Assert.True(together.High - together.Low > apart.High - apart.Low);
        Assert.True(together.EffectiveCount < apart.EffectiveCount);
    }

    [Fact]
    public void A_share_beyond_one_is_refused() =>
        Assert.Throws<ArgumentException>(() => ClusteredProportion.Of([0.5, 1.2], [1, 2]));
}
