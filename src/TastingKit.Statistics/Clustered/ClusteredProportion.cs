namespace TastingKit.Statistics;

/// <summary>The mean of shares that come in clusters, with an interval that stays between 0 and 1.</summary>
/// <param name="Value">The mean share.</param>
/// <param name="Low">Lower bound of the 95 % interval.</param>
/// <param name="High">Upper bound of the 95 % interval.</param>
/// <param name="EffectiveCount">Independent observations that would carry as much.</param>
public sealed record ClusteredProportion(double Value, double Low, double High, double EffectiveCount)
{
    /// <summary>
    /// The interval of Korn and Graubard (1998, Survey Methodology 24:193–201): Clopper and Pearson's for an effective count,
    /// which is cut down for clustering and for the few degrees of freedom that the clusters leave. Where all clusters agree, so that
    /// their spread says nothing, each cluster counts as one observation.
    /// </summary>
    /// <param name="shares">Shares from 0 to 1, one an observation.</param>
    /// <param name="clusters">The cluster of each observation; at least two different ones.</param>
    /// <exception cref="ArgumentException">A share lies outside 0 to 1, lengths differ, or there are fewer than two clusters.</exception>
    public static ClusteredProportion Of(IReadOnlyList<double> shares, IReadOnlyList<int> clusters)
    {
        ArgumentNullException.ThrowIfNull(shares);
        ArgumentNullException.ThrowIfNull(clusters);
        if (shares.Any(share => share is not (>= 0 and <= 1)))
            throw new ArgumentException("A share lies between 0 and 1.", nameof(shares));
        var mean = ClusteredRegression.Mean(shares, clusters);
        var clusterCount = clusters.Distinct().Count();
        var p = Math.Clamp(mean.Value, 0, 1);
        var variance = mean.StandardError * mean.StandardError;
        var effective = variance > 1e-12 ? Math.Min(shares.Count, p * (1 - p) / variance) : clusterCount;
        if (variance > 1e-12)
            effective *= Math.Pow(StandardNormal.Quantile(0.975) / StudentsT.TwoSidedQuantile(0.05, mean.DegreesOfFreedom), 2);
        effective = Math.Max(effective, 1);
        var hits = p * effective;
        var low = hits > 1e-9 ? SamplingDistributions.BetaQuantile(0.025, hits, effective - hits + 1) : 0;
        var high = effective - hits > 1e-9 ? SamplingDistributions.BetaQuantile(0.975, hits + 1, effective - hits) : 1;
        return new ClusteredProportion(p, low, high, effective);
    }
}
