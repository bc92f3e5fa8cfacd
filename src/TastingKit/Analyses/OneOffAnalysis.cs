using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="OneOffs"/> and <see cref="OneOff"/>.</summary>
internal static class OneOffAnalysis
{
    /// <summary>Cups at most this probable, allowing for all, are set aside while the others are judged, whatever rate is asked.</summary>
    public const double SetAsideUpTo = 0.05;

    private const int FewestCupsBeyondBags = 15;
    private const int Rounds = 3;
    private const int MostRounds = 8;
    private const double WeightOfSetAside = 0.01;

    // A cup further off than this counts less, so that it does not widen the spread it is held against.
    private const double FullWeightUpTo = 2.5;

    // The share of a normal variance that is left under these weights: the square of a cup further off counts as that of one just so far off.
    private static readonly double LeftOfVariance = 1 - (2 * FullWeightUpTo * StandardNormal.Density(FullWeightUpTo))
        + (2 * ((FullWeightUpTo * FullWeightUpTo) - 1) * StandardNormal.CumulativeProbability(-FullWeightUpTo));

    private const string Estimator =
        "restricted maximum likelihood, cups beyond 2.5 standard deviations weighing less by Huber's rule, in three rounds; then those that a false discovery rate of 5 % finds are set aside, until no more are found, so that spoiled cups do not hide each other; each cup is predicted by all others at the variances of all; "
        + "its probability is two-sided from Student's t for the edge of its step that lies nearer; flags by Benjamini and Hochberg";

    public static OneOffs Of(TastingLog log, double falseDiscoveryRate)
    {
        if (!(falseDiscoveryRate > 0 && falseDiscoveryRate < 1))
            throw new ArgumentOutOfRangeException(nameof(falseDiscoveryRate), falseDiscoveryRate, "A false discovery rate lies between 0 and 1.");
        var scale = log.ScaleOf(TastingAttribute.Score);
        var scored = ScoredCups.Of(log);
        return Predict(scored.Cups, scale, log.Watch, out var refused) is { } model
            ? new OneOffs(
                Judge(model, scored.Cups, scale, falseDiscoveryRate), falseDiscoveryRate, scale, Cautions(log, scored.Cups, scale, model),
                new Computation(model.Words, Estimator, scored.Cups.Count, scored.LeftOut), Support.Given)
            : new OneOffs([], falseDiscoveryRate, scale, [], new Computation("none", "none", scored.Cups.Count, scored.LeftOut), refused);
    }

    /// <summary>
    /// Those of some cups whose value on a scale fits nothing else among them, at the rate at which cups are set aside, and whether more lie far from
    /// what was to be expected than chance makes; none where too few cups are there to say.
    /// </summary>
    public static (IReadOnlySet<Tasting> Flagged, TailTest? Tails) Among(IReadOnlyList<Tasting> cups, Scale scale, WorkWatch watch)
    {
        if (Predict(cups, scale, watch, out _) is not { } model)
            return (new HashSet<Tasting>(), null);
        double[] standardised = [.. model.Standardised.OfType<double>()];
        return (
            new HashSet<Tasting>(Judge(model, cups, scale, SetAsideUpTo).Where(one => one.IsFlagged).Select(one => one.Cup), ReferenceEqualityComparer.Instance),
            standardised.Length < TailTest.Fewest ? null : TailTest.Of(standardised));
    }

    public static OneOff OfCup(TastingLog log, string tastingId, double falseDiscoveryRate)
    {
        var all = Of(log, falseDiscoveryRate);
        var computation = all.Computation;
        if (!all.Support.IsSupported)
            return new OneOff(null, [], 0, 0, falseDiscoveryRate, all.Scale, [], computation, all.Support);
        var cup = all.Cups.FirstOrDefault(each => each.Cup.Id == tastingId)
            ?? throw new ArgumentException($"No cup '{tastingId}' has a score that counts; {(log.Tastings.Any(each => each.Id == tastingId) ? "it is in the log, but left out of models of the score" : "the log has no such tasting_id")}.", nameof(tastingId));
        var cups = ScoredCups.Of(log).Cups;
        var columns = ScoreColumns.Of(cups);
        var byBrewer = CategoricalColumn.From("brewer with a coffee", [.. cups.Select(each => $"{each.Bag.Coffee.Id} | {Factor.Brewer.LevelOf(each)}")]);
        var fit = byBrewer.Levels.Count < 0.8 * cups.Count ? ScoreFit.Of(Design(columns).WithRandomIntercept(byBrewer), log.Watch) : null;
        var brewer = fit?.InterceptVariance(byBrewer.Name)?.Variance ?? 0;
        var sitting = fit is not null && columns.Session is not null ? fit.InterceptVariance(columns.Session.Name)?.Variance ?? 0 : 0;
        var chance = fit?.ResidualVarianceWith().Variance ?? 1;
        if (fit is null)
        {
            return new OneOff(
                cup, [], 0, 0, falseDiscoveryRate, all.Scale, [], computation,
                Support.Missing("Hardly any coffee was brewed twice on one brewer, so the brewer can't be told from chance.", "Brew a coffee several times on each of two brewers."));
        }

        var total = brewer + sitting + chance;
        OneOffSource[] sources =
        [
            new("the brewer with this coffee", Math.Sqrt(brewer), brewer / total), new("the sitting", Math.Sqrt(sitting), sitting / total), new("chance", Math.Sqrt(chance), chance / total),
        ];
        var same = cups.Count(each => each.Bag.Coffee.Id == cup.Cup.Bag.Coffee.Id && each.Brewer == cup.Cup.Brewer);
        return new OneOff(
            cup, sources, Left(same), Left(same + 1), falseDiscoveryRate, all.Scale, all.Cautions, computation, Support.Given);

        // The coffee itself being known far better than one brewer's deviation with it.
        double Left(int known) => brewer == 0 ? 0 : Math.Sqrt(1 / ((1 / brewer) + (known / (sitting + chance))));
    }

    private static ModelDesign Design(ScoreColumns columns)
    {
        var cups = columns.Cups;
        var design = columns.AddBrewTo(ModelDesign.For("score", columns.Scores));
        var coffee = CategoricalColumn.From(Factor.Coffee.Name, [.. cups.Select(Factor.Coffee.LevelOf)]);
        var bag = CategoricalColumn.From(Factor.Bag.Name, [.. cups.Select(Factor.Bag.LevelOf)]);
        design = design.WithRandomIntercept(coffee);
        return bag.Levels.Count - coffee.Levels.Count >= 2 ? design.WithRandomIntercept(bag) : design;
    }

    /// <summary>The predictions of each cup by all others; nothing, and why, where the log does not support them.</summary>
    private static Predictions? Predict(IReadOnlyList<Tasting> cups, Scale scale, WorkWatch watch, out Support refused)
    {
        var bags = cups.Select(cup => cup.Bag.Id).Distinct().Count();
        refused = Support.Missing(
            $"{NumberText.Count(cups.Count, "scored cup")}, {cups.Count - bags} of them beyond the first of their bags: too few to say what a cup was to be expected to be.",
            "Score several cups of each bag.");
        if (cups.Count - bags < FewestCupsBeyondBags)
            return null;
        var columns = ScoreColumns.Of(cups, scale.Attribute);
        var design = Design(columns);
        double[] weights = [.. Enumerable.Repeat(1.0, cups.Count)];
        HashSet<int> aside = [];
        Predictions? predictions = null;
        for (var round = 0; round < MostRounds; round++)
        {
            if (ScoreFit.Of(round == 0 ? design : design.WithWeights(weights), watch) is not { } fit)
            {
                refused = ScoreFit.NoChanceLeft(cups.Count);
                return null;
            }

            predictions = Predictions.Of(fit, weights, round == 0 ? 1 : LeftOfVariance * (cups.Count - aside.Count) / cups.Count, Words(columns, scale));
            if (round >= Rounds - 1)
            {
                HashSet<int> found = [.. SetAside(predictions, cups, scale)];
                if (found.SetEquals(aside))
                    break;
                aside = found;
            }

            weights = [.. predictions.Standardised.Select((z, row) => aside.Contains(row) ? WeightOfSetAside : Math.Min(1, Math.Pow(FullWeightUpTo / Math.Max(Math.Abs(z ?? 0), FullWeightUpTo), 2)))];
        }

        return predictions;
    }

    private static IEnumerable<int> SetAside(Predictions predictions, IReadOnlyList<Tasting> cups, Scale scale)
    {
        var (rows, probabilities) = Probabilities(predictions, cups, scale);
        var adjusted = MultipleTesting.BenjaminiHochberg(probabilities);
        return rows.Where((row, i) => adjusted[i] <= SetAsideUpTo);
    }

    private static string Words(ScoreColumns columns, Scale scale) =>
        $"linear mixed model of {MethodWords.Named(scale.Attribute)}; fixed: {columns.BrewInWords()}; random intercepts: {string.Join(", ", columns.RandomTerms.Prepend("bag").Prepend("coffee"))}";

    private static OneOffCup[] Judge(Predictions predictions, IReadOnlyList<Tasting> cups, Scale scale, double falseDiscoveryRate)
    {
        var (rows, probabilities) = Probabilities(predictions, cups, scale);
        var adjusted = MultipleTesting.BenjaminiHochberg(probabilities);
        return [.. rows.Select((row, i) => new OneOffCup(
                cups[row], predictions.Means[row], predictions.Means[row] - (Quantiles.Normal95 * predictions.Deviations[row]), predictions.Means[row] + (Quantiles.Normal95 * predictions.Deviations[row]),
                predictions.Standardised[row]!.Value, probabilities[i], adjusted[i], adjusted[i] <= falseDiscoveryRate))
            .OrderBy(one => one.Probability).ThenByDescending(one => Math.Abs(one.Standardised)).ThenBy(one => one.Cup.Id, StringComparer.Ordinal)];
    }

    /// <summary>The rows that can be judged, and how probable each is if its cup is like all others.</summary>
    private static (int[] Rows, double[] Probabilities) Probabilities(Predictions predictions, IReadOnlyList<Tasting> cups, Scale scale)
    {
        var step = cups.All(cup => scale.IsOnStep(cup.ValueOf(scale.Attribute)!.Value)) ? scale.Step : 0;
        int[] rows = [.. Enumerable.Range(0, cups.Count).Where(row => predictions.Standardised[row] is not null)];
        return (rows, [.. rows.Select(row =>
        {
            // The nearer edge of the step: the score stands for all impressions that round to it.
            var beyond = Math.Max(0, Math.Abs(cups[row].ValueOf(scale.Attribute)!.Value - predictions.Means[row]) - (step / 2));
            return StudentsT.TwoSidedTail(beyond / Unrounded(predictions.Deviations[row], step), predictions.DegreesOfFreedom);
        })]);
    }

    // Rounding adds a twelfth of the squared step to a variance; where a step is all there is, a quarter of it is kept.
    private static double Unrounded(double deviation, double step) => Math.Sqrt(Math.Max((deviation * deviation) - (step * step / 12), step * step / 16));

    private static List<Caution> Cautions(TastingLog log, IReadOnlyList<Tasting> cups, Scale scale, Predictions model)
    {
        // Cups drawn to the one before are no more apart than others while their bag stays as it is, and far apart where it leaps.
        int[] told = [.. Enumerable.Range(0, cups.Count).Where(row => model.Standardised[row] is not null)];
        var alike = ScoreCautions.HangTogether(
            [.. told.Select(row => cups[row].Score!.Value - model.Means[row])], [.. told.Select(row => cups[row])], TastingLog.DefaultSeed);
        return [.. new[] { ScoreCautions.Ceiling(cups, scale), ScoreCautions.EquipmentChanged(log, cups), alike }.OfType<Caution>()];
    }

    /// <summary>What all other cups say of each, row by row; nothing where they can't.</summary>
    private sealed record Predictions(double[] Means, double[] Deviations, double?[] Standardised, double DegreesOfFreedom, string Words)
    {
        public static Predictions Of(LinearMixedModelFit fit, double[] weights, double leftOfVariance, string words)
        {
            var left = fit.LeaveOneOutPredictions();
            var residual = fit.ResidualStandardDeviation * fit.ResidualStandardDeviation;
            // Of the squares that the variance is made of, weights hold some back, and cups set aside hold next to nothing.
            var scatter = residual / leftOfVariance;
            var (means, deviations, standardised) = (new double[left.Count], new double[left.Count], new double?[left.Count]);
            foreach (var each in left)
            {
                if (each is not LeaveOneOutPrediction prediction)
                    continue;
                means[each.Row] = prediction.Mean;
                // The cup's own weight tells how far it was trusted, not how far a cup like all others scatters.
                deviations[each.Row] = Math.Sqrt((prediction.StandardDeviation * prediction.StandardDeviation) - (residual / weights[each.Row]) + scatter);
                standardised[each.Row] = (prediction.Observed - prediction.Mean) / deviations[each.Row];
            }

            return new Predictions(means, deviations, standardised, fit.ResidualVarianceWith().DegreesOfFreedom, words);
        }
    }
}
