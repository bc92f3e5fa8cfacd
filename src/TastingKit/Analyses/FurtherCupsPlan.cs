using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Counts the further cups that a difference needs: its variance is projected from cups within coffees and from what coffees differ by,
/// scaled to the variance it has now, so that whatever else the model allows for stays in it.
/// </summary>
internal sealed class FurtherCupsPlan
{
    private const double Power = 0.8;
    private const int MostCups = 1000;
    private const int CupsOfEach = 2;
    private const int Points = 400;

    private readonly double _deviation;
    private readonly double _multiplier;
    private readonly double _margin;
    private readonly double _cupVariance;
    private readonly double _coffeeVariance;
    private readonly IReadOnlyList<(double First, double Second)> _cups;
    private readonly double _scale;

    /// <param name="deviation">Standard deviation of the difference now.</param>
    /// <param name="multiplier">How many of these its simultaneous interval reaches.</param>
    /// <param name="margin">The difference that is to be told.</param>
    /// <param name="cupVariance">Variance of one cup about its coffee and method.</param>
    /// <param name="coffeeVariance">Variance of a coffee's own difference.</param>
    /// <param name="cups">Cups of the first and the second of each coffee brewed with both, or what its cups are worth as such.</param>
    public FurtherCupsPlan(
        double deviation, double multiplier, double margin, double cupVariance, double coffeeVariance, IReadOnlyList<(double First, double Second)> cups)
    {
        (_deviation, _multiplier, _margin, _cupVariance, _coffeeVariance, _cups) = (deviation, multiplier, margin, cupVariance, coffeeVariance, cups);
        _scale = deviation * deviation * Information(0, 0);
    }

    /// <summary>The least further cups of the same coffees, and the least further coffees.</summary>
    public FurtherCups Find()
    {
        var coffees = Least(MostCups / (2 * CupsOfEach), more => Information(0, more));
        var pairs = Least(MostCups / 2, more => Information((double)more / _cups.Count, 0));
        return coffees is { } found
            ? new FurtherCups.Needed(2 * pairs, found, 2 * CupsOfEach)
            : new FurtherCups.OutOfReach();
    }

    /// <summary>
    /// Probability that the difference is told, given that it is not told now and that it equals the margin: over the estimates that a log
    /// as undecided as this one can have, the probability that the estimate from all cups together leaves nought out.
    /// </summary>
    /// <param name="variance">Variance of the difference with the further cups.</param>
    public double PowerAt(double variance)
    {
        var (now, after) = (1 / (_deviation * _deviation), 1 / variance);
        var added = after - now;
        if (added <= 0)
            return 0;
        var bound = _multiplier * _deviation;
        double undecided = 0, told = 0;
        for (var i = 0; i < Points; i++)
        {
            var estimate = bound * (-1 + ((2 * i) + 1.0) / Points);
            var z = (estimate - _margin) / _deviation;
            var weight = Math.Exp(-0.5 * z * z);
            var mean = ((now * estimate) + (added * _margin)) / after;
            undecided += weight;
            told += weight * StandardNormal.CumulativeProbability((mean - (_multiplier * Math.Sqrt(variance))) / (Math.Sqrt(added) / after));
        }

        return undecided > 0 ? told / undecided : 0;
    }

    private double Information(double pairsACoffee, int coffees)
    {
        var sum = coffees / ((_cupVariance * 2 / CupsOfEach) + _coffeeVariance);
        foreach (var (first, second) in _cups)
            sum += 1 / ((_cupVariance * ((1 / (first + pairsACoffee)) + (1 / (second + pairsACoffee)))) + _coffeeVariance);
        return sum;
    }

    private int? Least(int most, Func<int, double> information)
    {
        if (PowerAt(_scale / information(most)) < Power)
            return null;
        var (low, high) = (0, most);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (PowerAt(_scale / information(middle)) < Power)
                low = middle;
            else
                high = middle;
        }

        return high;
    }
}
