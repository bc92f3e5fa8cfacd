using TastingKit.Statistics;

namespace TastingKit;

/// <summary>The parts of a change in each joint draw, which sum to it in every one.</summary>
internal sealed class RiseDraws
{
    private readonly List<(string What, RiseSource Source, double[] Draws)> _parts = [];
    private readonly int _count;

    /// <param name="model">The model.</param>
    /// <param name="change">The raw change.</param>
    /// <param name="drift">The drift a year where it stands alone; its error is drawn by itself, since other cups tell it.</param>
    /// <param name="years">By how many years the later cups were tasted later.</param>
    /// <param name="joint">Draws of everything the model estimates.</param>
    /// <param name="seed">Seed of the drift's error.</param>
    /// <param name="watch">Who watches.</param>
    public RiseDraws(RiseModel model, double change, DriftSlope? drift, double years, JointDraws joint, ulong seed, WorkWatch watch)
    {
        _count = joint.Count;
        var own = model.OwnEffects ?? LinearFunction.Zero;
        var steady = model.Steady ?? LinearFunction.Zero;
        var draws = PredictionDraws.Of(joint, [.. model.Shares.Select(share => share.Share), own + steady, steady], watch);
        var beyond = draws.Column(model.Shares.Count).ToArray();
        for (var i = 0; i < model.Shares.Count; i++)
            _parts.Add((model.Shares[i].What, model.Shares[i].Source, draws.Column(i).ToArray()));
        if (drift is not null)
        {
            var a = Drawn(drift, seed);
            // Of what a bag loses while it is drunk, the drift of these days is no work of rest.
            var rested = (model.FurtherRestDays ?? 0) / Covariate.DaysAYear;
            if (_parts.FindIndex(part => part.What == RiseModel.RestName) is >= 0 and var rest)
                _parts[rest] = (RiseModel.RestName, RiseSource.Brewing, [.. _parts[rest].Draws.Select((value, draw) => value - (rested * a[draw]))]);
            else
                rested = 0;
            _parts.Add(("coffees within like kinds", RiseSource.Coffees, [.. beyond.Select((value, draw) => value - ((years - rested) * a[draw]))]));
            _parts.Add(("drift of the scale", RiseSource.Drift, [.. a.Select(value => years * value)]));
        }
        else
        {
            _parts.Add(("coffees within like kinds and drift of the scale together", RiseSource.CoffeesAndDrift, beyond));
        }

        _parts.Add((
            model.OwnEffects is null ? "single coffees and the chance of their cups, which can\u2019t be told apart" : "the chance of cups and sittings", RiseSource.Chance,
            [.. Enumerable.Range(0, _count).Select(draw => change - _parts.Sum(part => part.Draws[draw]))]));
        All = [.. _parts.Select(part => Part(part.What, part.Source, part.Draws))];
        Steady = model.Steady is null ? null : Part("steady change beyond the mix", drift is null ? RiseSource.CoffeesAndDrift : RiseSource.Coffees, draws.Column(model.Shares.Count + 1).ToArray());
    }

    public IReadOnlyList<RisePart> All { get; }

    public RisePart? Steady { get; }

    /// <summary>The parts of a source in one; nothing where there are none.</summary>
    public RisePart? Together(RiseSource source, string what)
    {
        double[][] of = [.. _parts.Where(part => part.Source == source).Select(part => part.Draws)];
        return of.Length == 0 ? null : Part(what, source, [.. Enumerable.Range(0, _count).Select(draw => of.Sum(part => part[draw]))]);
    }

    private static RisePart Part(string what, RiseSource source, double[] draws)
    {
        double[] sorted = [.. draws.Order()];
        return new RisePart(what, source, draws.Average(), Quantiles.OfSorted(sorted, 0.025), Quantiles.OfSorted(sorted, 0.975));
    }

    private double[] Drawn(DriftSlope drift, ulong seed)
    {
        var random = new RandomStream(seed).Split(3);
        var half = drift.DegreesOfFreedom / 2;
        return [.. Enumerable.Range(0, _count).Select(_ => drift.Estimate + (drift.StandardError * random.NextNormal() / Math.Sqrt(random.NextGamma(half) / half)))];
    }
}
