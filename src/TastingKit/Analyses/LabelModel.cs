using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// The paired model: the difference of a pair is the label's effect, what a place later does times the places, and where asked what the effect goes
/// with; least squares, errors clustered by roaster, since one roaster's labels may work alike.
/// </summary>
/// <remarks>
/// With one or two pairs a roaster a random term by roaster makes intervals of what differs within roasters too narrow; clustered errors make those of
/// what differs between them rather too wide, and none too narrow.
/// </remarks>
internal sealed class LabelModel
{
    private const int FewestClusters = 5;
    private const double Collinear = 0.98;

    private readonly IReadOnlyList<LabelPair> _pairs;
    private readonly double[] _differences;

    public LabelModel(IReadOnlyList<LabelPair> pairs)
    {
        _pairs = pairs;
        _differences = [.. pairs.Select(pair => pair.Difference)];
        PlacesLater = [.. pairs.Select(pair => pair.PlacesLater ?? 0)];
        SeenFirst = pairs.Count(pair => pair.PlacesLater < 0);
        SeenLater = pairs.Count(pair => pair.PlacesLater > 0);
        (ClusteredBy, Clusters) = ClustersOf(pairs);
    }

    public int SeenFirst { get; }

    public int SeenLater { get; }

    /// <summary>Whether the order can be told from the label: not where one kind always came first.</summary>
    public bool HasOrder => SeenFirst > 0 && SeenLater > 0;

    /// <summary>Places by which the cup whose label was seen came later; a pair of unknown order counts as one at equal places.</summary>
    public double[] PlacesLater { get; }

    /// <summary>What pairs are clustered by: roaster, coffee, or the pair itself where there are few of either.</summary>
    public string ClusteredBy { get; }

    private int[] Clusters { get; }

    public ClusteredEstimate Average() => Fit(null)!.Estimate(HasOrder ? [1, 0] : [1]);

    public ClusteredEstimate? Order() => HasOrder ? Fit(null)!.Estimate(0, 1) : null;

    /// <summary>What a unit more of something adds to the effect; nothing where the pairs do not tell it from the order.</summary>
    /// <param name="values">One a pair, not all the same.</param>
    public ClusteredEstimate? Premium(double[] values) => Fit(values)?.Estimate(HasOrder ? [0, 0, 1] : [0, 1]);

    /// <summary>The model of some of the pairs.</summary>
    public LabelModel Of(Func<LabelPair, bool> isKnown) => new([.. _pairs.Where(isKnown)]);

    public IReadOnlyList<LabelPair> Pairs => _pairs;

    private ClusteredRegression? Fit(double[]? values)
    {
        var columns = new List<double[]> { Enumerable.Repeat(1.0, _pairs.Count).ToArray() };
        if (HasOrder)
            columns.Add(PlacesLater);
        if (values is not null)
        {
            var mean = values.Average();
            double[] centred = [.. values.Select(value => value - mean)];
            if (centred.All(value => Math.Abs(value) < 1e-12) || (HasOrder && Math.Abs(Correlation(centred, PlacesLater)) > Collinear))
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
