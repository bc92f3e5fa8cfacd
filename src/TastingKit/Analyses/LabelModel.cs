using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The paired model: the difference of a pair is the label's effect, what a place later does times the places, and where asked what the effect goes
/// with; least squares, errors clustered by roaster, since one roaster's labels may work alike.
/// </summary>
internal sealed class LabelModel
{
    private const int FewestClusters = 5;
    private const double Collinear = 0.98;

    private readonly IReadOnlyList<LabelPair> _pairs;
    private readonly double[] _differences;
    private readonly double[] _later;
    private readonly bool _hasOrder;

    public LabelModel(IReadOnlyList<LabelPair> pairs)
    {
        _pairs = pairs;
        _differences = [.. pairs.Select(pair => pair.Difference)];
        // A pair of unknown order counts as one at equal places.
        _later = [.. pairs.Select(pair => pair.PlacesLater ?? 0)];
        SeenFirst = pairs.Count(pair => pair.PlacesLater < 0);
        SeenLater = pairs.Count(pair => pair.PlacesLater > 0);
        // Where one kind always came first, the order can't be told from the label.
        _hasOrder = SeenFirst > 0 && SeenLater > 0;
        (ClusteredBy, Clusters) = ClustersOf(pairs);
    }

    public int SeenFirst { get; }

    public int SeenLater { get; }

    /// <summary>What pairs are clustered by: roaster, coffee, or the pair itself where there are few of either.</summary>
    public string ClusteredBy { get; }

    private int[] Clusters { get; }

    public ClusteredEstimate Average() => Fit(null)!.Estimate(_hasOrder ? [1, 0] : [1]);

    public ClusteredEstimate? Order() => _hasOrder ? Fit(null)!.Estimate(0, 1) : null;

    /// <summary>What a unit more of something adds to the effect; nothing where the pairs do not tell it from the order.</summary>
    /// <param name="values">One a pair, not all the same.</param>
    public ClusteredEstimate? Premium(double[] values) => Fit(values)?.Estimate(_hasOrder ? [0, 0, 1] : [0, 1]);

    /// <summary>The model of some of the pairs.</summary>
    public LabelModel Of(Func<LabelPair, bool> isKnown) => new([.. _pairs.Where(isKnown)]);

    public IReadOnlyList<LabelPair> Pairs => _pairs;

    private ClusteredRegression? Fit(double[]? values)
    {
        var columns = new List<double[]> { Enumerable.Repeat(1.0, _pairs.Count).ToArray() };
        if (_hasOrder)
            columns.Add(_later);
        if (values is not null)
        {
            var mean = values.Average();
            double[] centred = [.. values.Select(value => value - mean)];
            if (centred.All(value => Math.Abs(value) < 1e-12) || (_hasOrder && Math.Abs(Correlation(centred, _later)) > Collinear))
                return null;
            columns.Add(centred);
        }

        return ClusteredRegression.Fit(_differences, columns, Clusters);
    }

    private static double Correlation(double[] first, double[] second)
    {
        var (a, b) = (first.Average(), second.Average());
        var (aa, bb) = (first.Sum(x => (x - a) * (x - a)), second.Sum(y => (y - b) * (y - b)));
        return bb < 1e-12 ? 0 : first.Zip(second, (x, y) => (x - a) * (y - b)).Sum() / Math.Sqrt(aa * bb);
    }

    private static (string By, int[] Clusters) ClustersOf(IReadOnlyList<LabelPair> pairs)
    {
        string[] roasters = [.. pairs.Select(pair => pair.Bag.Coffee.Roaster?.ToLowerInvariant() ?? $"(coffee {pair.Bag.Coffee.Id})")];
        string[] coffees = [.. pairs.Select(pair => pair.Bag.Coffee.Id)];
        return Count(roasters) >= FewestClusters ? ("roaster", Numbered(roasters))
            : Count(coffees) >= FewestClusters ? ("coffee", Numbered(coffees))
            : ("pair", [.. Enumerable.Range(0, pairs.Count)]);

        static int Count(string[] names) => names.Distinct(StringComparer.Ordinal).Count();
    }

    private static int[] Numbered(string[] names)
    {
        string[] distinct = [.. names.Distinct(StringComparer.Ordinal)];
        return [.. names.Select(name => Array.IndexOf(distinct, name))];
    }
}
