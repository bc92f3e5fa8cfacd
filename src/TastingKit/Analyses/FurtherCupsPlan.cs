using TastingKit.Statistics;

namespace TastingKit;

/// <summary>
/// Counts the further cups that a difference needs: its variance is projected from cups within coffees and from what coffees differ by,
/// scaled to the variance it has now. What the few coffees of the log so far add to that, because their spread is hardly known, goes with
/// further coffees in proportion, and stays with further cups of the same ones. With those the power is averaged over what that spread may be.
/// </summary>
internal sealed class FurtherCupsPlan
{
    private const double Power = 0.8;
    private const int MostCups = 1000;
    private const int CupsOfEach = 2;
    private const int Points = 100;

    private readonly double _deviation;
    private readonly double _multiplier;
    private readonly double _alone;
    private readonly double _certain;
    private readonly double _margin;
    private readonly double _cupVariance;
    private readonly IReadOnlyList<double> _coffeeVariances;
    private readonly IReadOnlyList<(double First, double Second)> _cups;

    /// <param name="deviation">Standard deviation of the difference now.</param>
    /// <param name="multiplier">How many of these its simultaneous interval reaches.</param>
    /// <param name="alone">How many its interval by itself reaches.</param>
    /// <param name="certain">How many that would be if every variance were known.</param>
    /// <param name="margin">The difference that is to be told.</param>
    /// <param name="cupVariance">Variance of one cup about its coffee and method.</param>
    /// <param name="coffeeVariances">What the variance of a coffee's own difference may be, each value as probable as the others, rising.</param>
    /// <param name="cups">Cups of the first and the second of each coffee brewed with both, or what its cups are worth as such.</param>
    public FurtherCupsPlan(
        double deviation, double multiplier, double alone, double certain, double margin, double cupVariance, IReadOnlyList<double> coffeeVariances, IReadOnlyList<(double First, double Second)> cups)
    {
        (_deviation, _multiplier, _alone, _certain, _margin, _cupVariance, _coffeeVariances, _cups) = (deviation, multiplier, alone, certain, margin, cupVariance, coffeeVariances, cups);
    }

    /// <summary>The least further cups of the same coffees, and the least further coffees.</summary>
    public FurtherCups Find()
    {
        var coffees = Least(MostCups / (2 * CupsOfEach), PowerWithCoffees);
        var pairs = Least(MostCups / 2, PowerWithPairs);
        return coffees is { } found
            ? new FurtherCups.Needed(2 * pairs, found, 2 * CupsOfEach)
            : new FurtherCups.OutOfReach();
    }

    /// <summary>
    /// Probability that the difference is told, given that it is not told now and that it equals the margin: over the estimates that a log
    /// as undecided as this one can have, the probability that the estimate from all cups together leaves nought out.
    /// </summary>
    /// <param name="variance">Variance of the difference with the further cups.</param>
    /// <param name="reach">How many standard deviations its interval reaches then.</param>
    public double PowerAt(double variance, double reach)
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
            told += weight * StandardNormal.CumulativeProbability((mean - (reach * Math.Sqrt(variance))) / (Math.Sqrt(added) / after));
        }

        return undecided > 0 ? told / undecided : 0;
    }

    private double PowerWithPairs(int more) => _coffeeVariances.Average(coffeeVariance =>
        PowerAt(ScaleOf(coffeeVariance) / Information(coffeeVariance, (double)more / _cups.Count, 0), _multiplier));

    private double PowerWithCoffees(int more)
    {
        var known = _cups.Count / (double)(_cups.Count + more);
        var reach = _multiplier / _alone * (_certain + ((_alone - _certain) * known));
        // Further coffees tell their own spread, so that its middle will do; the largest of what it may be would ask for too many.
        var coffeeVariance = _coffeeVariances[_coffeeVariances.Count / 2];
        return PowerAt((1 + ((ScaleOf(coffeeVariance) - 1) * known)) / Information(coffeeVariance, 0, more), reach);
    }

    private double ScaleOf(double coffeeVariance) => _deviation * _deviation * Information(coffeeVariance, 0, 0);

    private double Information(double coffeeVariance, double pairsACoffee, int coffees)
    {
        var sum = coffees / ((_cupVariance * 2 / CupsOfEach) + coffeeVariance);
        foreach (var (first, second) in _cups)
            sum += 1 / ((_cupVariance * ((1 / (first + pairsACoffee)) + (1 / (second + pairsACoffee)))) + coffeeVariance);
        return sum;
    }

    private static int? Least(int most, Func<int, double> powerOf)
    {
        if (powerOf(most) < Power)
            return null;
        var (low, high) = (0, most);
        while (high - low > 1)
        {
            var middle = (low + high) / 2;
            if (powerOf(middle) < Power)
                low = middle;
            else
                high = middle;
        }

        return high;
    }
}
