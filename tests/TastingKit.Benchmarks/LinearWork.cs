using TastingKit.Statistics;

namespace TastingKit.Benchmarks;

/// <summary>The pieces of work on linear models whose time is stated, each returning something of its result.</summary>
internal sealed class LinearWork
{
    private readonly ModelDesign _year = SimulatedLog.Year();
    private readonly LinearMixedModelFit _yearFit;
    private readonly LinearFunction[] _coffees;
    private readonly string[] _names;

    public LinearWork()
    {
        _yearFit = LinearMixedModel.Fit(_year);
        _names = [.. _yearFit.ConditionalModes("coffee").Rows.Select(row => row.Level)];
        _coffees = [.. _names.Select(name => _yearFit.At(Setting.Averaged()) + _yearFit.RandomEffect("coffee", name))];
    }

    /// <summary>One fit of a year's log, columns at hand.</summary>
    public double FitOfAYear() => LinearMixedModel.Fit(_year).Deviance;

    /// <summary>1,000 simulations and refits of the year's log.</summary>
    public double BootstrapOfAYear(int threads) => _yearFit.Bootstrap(1_000, 1, refit => refit.ResidualStandardDeviation, threads).Sum();

    /// <summary>10,000 joint draws with the ranks of 70 coffees.</summary>
    public double DrawsWithRanks()
    {
        var draws = _yearFit.DrawJoint(10_000, 1);
        if (draws.DistinctVarianceDraws < 500) throw new InvalidOperationException($"{draws.DistinctVarianceDraws} distinct variance draws are fewer than promised.");
        return Ranks.Of(draws.Evaluate(_coffees), _names).MeanRank(0);
    }
}
