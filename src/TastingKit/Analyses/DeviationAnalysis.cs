using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodDeviations"/> from the model of a factor that was fitted already.</summary>
internal sealed class DeviationAnalysis(
    MethodModel model, CategoricalColumn method, Factor factor, TastingAttribute attribute, IReadOnlyList<Tasting> cups, double margin, Scale scale, Computation computation,
    JointDraws joint, WorkWatch watch)
{
    /// <summary>The differences of each coffee or each process.</summary>
    /// <param name="by"><see cref="Factor.Process"/> or <see cref="Factor.Coffee"/>.</param>
    /// <param name="pairs">The pairs of levels asked.</param>
    public MethodDeviations Of(Factor by, IReadOnlyList<(string First, string Second)> pairs)
    {
        var ofCoffee = by == Factor.Coffee;
        var found = new List<(MethodDeviation Empty, LinearFunction Function)>();
        if ((ofCoffee ? model.CoffeeCell : model.ProcessCell) is not null)
        {
            foreach (var pair in pairs)
            {
                if (MethodAnalysis.FixedContrast(model.Fit, method, pair.First, pair.Second) is not { } average)
                    continue;
                foreach (var level in cups.GroupBy(by.LevelOf).OrderBy(g => g.Key, StringComparer.Ordinal))
                {
                    var both = level.GroupBy(c => c.Bag.Coffee.Id).Count(c => c.Any(cup => factor.LevelOf(cup) == pair.First) && c.Any(cup => factor.LevelOf(cup) == pair.Second));
                    if (both == 0)
                        continue;
                    var any = level.First();
                    var function = average + Own(model.ProcessCell, Factor.Process.LevelOf(any), pair);
                    if (ofCoffee)
                        function += Own(model.CoffeeCell, level.Key, pair);
                    found.Add((
                        new MethodDeviation(
                            ofCoffee ? any.Bag.Coffee.Label : level.Key, pair.First, pair.Second, new MethodAnswer(0, 0, 0, 0, 0, Direction.Undecided, Size.Undecided),
                            level.Count(c => factor.LevelOf(c) == pair.First), level.Count(c => factor.LevelOf(c) == pair.Second), both),
                        function));
                }
            }
        }

        if (found.Count < 2)
        {
            return Result([], null, Support.Missing(
                ofCoffee
                    ? $"Too few coffees have two cups with one {factor.Name} beside cups with another: how they differ in it can't be told from chance."
                    : $"Too few processes were brewed with two levels of {factor.Name} to tell how they differ in it.",
                $"Brew coffees of several kinds with two levels of {factor.Name}, at least twice each."));
        }

        var draws = PredictionDraws.Of(joint, [.. found.Select(f => f.Function)], watch);
        var deviations = found.Select((f, i) =>
        {
            var own = draws.Slice(i, 1);
            return f.Empty with { Answer = MethodAnswers.Of(own, SimultaneousReach.Of(own, 0.95), 0, 1, margin) };
        });
        return Result(
            [.. deviations.Index().OrderBy(d => OrderOf(pairs, d.Item)).ThenByDescending(d => d.Item.Answer.Estimate).ThenBy(d => d.Index).Select(d => d.Item)],
            SpreadOf((ofCoffee ? model.CoffeeCell : model.ProcessCell)!.Name), Support.Given);

        MethodDeviations Result(IReadOnlyList<MethodDeviation> rows, DeviationSpread? spread, Support support) => new(
            factor, attribute, by, rows, spread, margin, scale,
            rows.Count == 0
                ? []
                : [new Caution("drawn-to-the-average", $"Each difference is drawn towards the average of all, the more the fewer cups it has: one with few cups says little of its own, and the largest of many is not to be read as if it stood alone.")],
            computation, support);
    }

    private LinearFunction Own(CategoricalColumn? cell, string level, (string First, string Second) pair)
    {
        var own = LinearFunction.Zero;
        if (cell is null)
            return own;
        if (cell.Levels.Contains($"{level}:{pair.First}"))
            own += model.Fit.RandomEffect(cell.Name, $"{level}:{pair.First}");
        if (cell.Levels.Contains($"{level}:{pair.Second}"))
            own -= model.Fit.RandomEffect(cell.Name, $"{level}:{pair.Second}");
        return own;
    }

    /// <summary>A difference holds two levels' own deviations, so that its variance is twice that of one.</summary>
    private DeviationSpread SpreadOf(string cell)
    {
        double[] spread = [.. joint.StandardDeviations(cell).Select(deviation => Math.Sqrt(2) * deviation).Order()];
        return new DeviationSpread(Quantiles.OfSorted(spread, 0.5), Quantiles.OfSorted(spread, 0.025), Quantiles.OfSorted(spread, 0.975));
    }

    private static int OrderOf(IReadOnlyList<(string First, string Second)> pairs, MethodDeviation deviation)
    {
        for (var i = 0; i < pairs.Count; i++)
        {
            if (pairs[i] == (deviation.First, deviation.Second))
                return i;
        }

        return pairs.Count;
    }
}
