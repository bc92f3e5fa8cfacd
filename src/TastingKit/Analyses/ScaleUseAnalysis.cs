using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="ScaleUse"/>.</summary>
internal static class ScaleUseAnalysis
{
    // With two bags an interval of their mean runs far beyond any scale, and says nothing.
    private const int FewestBags = 3;
    private const int FewestCups = 20;
    private const int FewestCupsInModel = 20;
    private const int FewestBagsInModel = 5;
    private const int MostQuarters = 12;

    // The model's time grows with cups times thresholds: 5,000 cups of four quarters on steps of a half took 1.3 seconds, 20,000 took seven.
    private const int MostCupsInModel = 5000;

    private const string Estimator =
        "shares with cups clustered in bags (Korn and Graubard); spread by the delta method on the logarithm of the variance, cups clustered in bags (CR2); "
        + "thresholds by maximum likelihood (Laplace) from the cups that a false discovery rate of 5 % leaves (each predicted by all others), movement against one another by the likelihood ratio of thresholds that move each by itself to thresholds that move together (F, as degrees of freedom cups less all that the model takes up), told below a p-value of 0.025, intervals by t; "
        + "points by the steps' mean distance; information by the scale's thresholds carried on at their mean distance (Samejima 1969)";

    public static ScaleUse Of(TastingLog log, TastingAttribute attribute)
    {
        var scored = ScoredCups.Of(log, attribute);
        var scale = log.ScaleOf(attribute);
        var cups = scored.Cups;
        var period = cups.Count > 0 && QuartersBetween(cups[0].TastedOn, cups[^1].TastedOn) > MostQuarters ? "year" : "quarter";
        var computation = new Computation($"none: shares of steps by {period}", Estimator, cups.Count, scored.LeftOut);
        var starts = cups.Select(c => CalendarAnalysis.StartOf(c.TastedOn, period)).Distinct().Order().ToArray();
        if (cups.Count < FewestCups || starts.Length < 2)
        {
            return new ScaleUse(
                attribute, scale, period, [], [], [], new StepMovement.Refused("There are too few cups.", "Go on logging."), null, [], computation,
                Support.Missing(
                    $"How the scale was used over time can\u2019t be told from {NumberText.Count(cups.Count, "scored cup")} in {NumberText.Count(starts.Length, period)}: it takes {FewestCups} cups in two.",
                    $"Go on logging: from the second {period} on there is something to compare."));
        }

        int[] steps = [.. cups.Select(c => StepGroups.NumberOf(c.ValueOf(attribute)!.Value, scale))];
        int[] quarters = [.. cups.Select(c => Array.IndexOf(starts, CalendarAnalysis.StartOf(c.TastedOn, period)))];
        string[] labels = [.. starts.Select(start => CalendarAnalysis.LabelOf(start, period))];
        var bagNumbers = cups.Select(c => c.Bag.Id).Distinct().Index().ToDictionary(bag => bag.Item, bag => bag.Index, StringComparer.Ordinal);
        var every = 1 + ((cups.Count - 1) / MostCupsInModel);
        int[] asked = [.. Enumerable.Range(0, cups.Count).Where(i => bagNumbers[cups[i].Bag.Id] % every == 0)];
        bool[] inModel = [.. starts.Select((_, q) => IsEnough([.. asked.Where(i => quarters[i] == q).Select(i => cups[i])]))];
        int[] modelled = [.. asked.Where(i => inModel[quarters[i]])];
        // A few cups that went wrong count for much in a threshold far from the others, whose interval takes them for as normal as all.
        var (oneOffs, _) = OneOffAnalysis.Among([.. modelled.Select(i => cups[i])], scale, log.Watch);
        modelled = [.. modelled.Where(i => !oneOffs.Contains(cups[i]))];
        var numbers = Enumerable.Range(0, starts.Length).Where(q => inModel[q]).ToArray();
        // Groups are those of the model; without one each step used stands for itself.
        var groups = modelled.Length == 0 ? null : StepGroups.Of([.. modelled.Select(i => steps[i])], [.. modelled.Select(i => Array.IndexOf(numbers, quarters[i]))]);
        var (model, refused) = groups is null
            ? (null, new StepMovement.Refused($"Whether steps moved against one another can\u2019t be told: no {period} has {FewestCupsInModel} scored cups of {FewestBagsInModel} bags.", $"Go on logging: it takes {FewestCupsInModel} cups of {FewestBagsInModel} bags in each of two."))
            : ThresholdModel.Of([.. modelled.Select(i => cups[i])], [.. modelled.Select(i => steps[i])], [.. modelled.Select(i => labels[quarters[i]])], groups, attribute, period, log);
        var used = steps.Distinct().Order().ToArray();
        StepGroup[] single = [.. used.Select(step => new StepGroup(StepGroups.ValueOf(step, scale), StepGroups.ValueOf(step, scale), steps.Count(s => s == step)))];
        StepGroup[] together = model is null ? single : [.. Enumerable.Range(0, groups!.Count).Select(g => Together(steps.Where(step => groups.GroupOf(step) == g), scale))];
        ScaleQuarter[] told =
        [
            .. starts.Select((start, q) =>
            {
                int[] own = [.. Enumerable.Range(0, cups.Count).Where(i => quarters[i] == q)];
                return Quarter(start, labels[q], [.. own.Select(i => StepGroups.ValueOf(steps[i], scale))], [.. own.Select(i => cups[i].ValueOf(attribute)!.Value)], [.. own.Select(i => bagNumbers[cups[i].Bag.Id])], single, together, scale);
            }),
        ];
        var top = model is null || scale.Kind == ScaleKind.JustRight ? null : ScaleCeiling.Of(model.Together, groups!, used[^1], scale);
        double[] never = [.. Enumerable.Range(0, StepGroups.NumberOf(scale.Max, scale) + 1).Except(used).Select(step => StepGroups.ValueOf(step, scale))];
        var cautions = Cautions(log, cups, attribute, scale, top, [.. starts.Index().Where(start => model is not null && !inModel[start.Index]).Select(start => labels[start.Index])]);
        if (model is not null && oneOffs.Count > 0)
            cautions.Add(ScoreCautions.OneOffsSetAside(oneOffs.Count, "whether steps moved is asked of cups that went as cups do. The shares of the steps count all."));
        if (model is not null && every > 1)
        {
            cautions.Add(new Caution("some-bags-only",
                $"Whether steps moved is asked of {NumberText.Count(modelled.Length, "cup")}, those of one bag in {every} by the order of their first cups: all {cups.Count} would take too long. The shares of the steps are those of all cups."));
        }

        return new ScaleUse(
            attribute, scale, period, told, together, never, model is null ? refused! : model.Movement(), top, cautions,
            model is null ? computation : computation with { Model = model.Words }, Support.Given);
    }

    private static bool IsEnough(Tasting[] cups) => cups.Length >= FewestCupsInModel && cups.Select(c => c.Bag.Id).Distinct().Count() >= FewestBagsInModel;

    private static int QuartersBetween(DateOnly first, DateOnly last) => (((last.Year - first.Year) * 12) + last.Month - first.Month) / 3;

    private static StepGroup Together(IEnumerable<int> steps, Scale scale)
    {
        int[] all = [.. steps];
        return new StepGroup(StepGroups.ValueOf(all.Min(), scale), StepGroups.ValueOf(all.Max(), scale), all.Length);
    }

    private static ScaleQuarter Quarter(
        DateOnly start, string label, double[] steps, double[] values, int[] bags, IReadOnlyList<StepGroup> single, IReadOnlyList<StepGroup> together, Scale scale)
    {
        var bagCount = bags.Distinct().Count();
        var mean = values.Average();
        double[] squares = [.. values.Select(value => (value - mean) * (value - mean))];
        var variance = values.Length < 2 ? 0 : squares.Sum() / (values.Length - 1);
        MeanInterval? spread = null;
        if (bagCount >= FewestBags && variance > 0)
        {
            var clustered = ClusteredRegression.Mean(squares, bags);
            var reach = StudentsT.TwoSidedQuantile(0.05, clustered.DegreesOfFreedom) * clustered.StandardError / clustered.Value / 2;
            spread = new MeanInterval(Math.Sqrt(variance) * Math.Exp(-reach), Math.Sqrt(variance) * Math.Exp(reach));
        }

        return new ScaleQuarter(
            start, label, values.Length, bagCount, Math.Sqrt(variance), spread, Shares(single), Shares(together),
            scale.Kind == ScaleKind.JustRight ? Distance(values, (scale.Min + scale.Max) / 2) : null);

        StepShare[] Shares(IReadOnlyList<StepGroup> groups) =>
        [
            .. groups.Select(group =>
            {
                double[] hits = [.. steps.Select(step => step >= group.From && step <= group.To ? 1.0 : 0)];
                MeanInterval? interval = null;
                if (bagCount >= FewestBags)
                {
                    var share = ClusteredProportion.Of(hits, bags);
                    interval = new MeanInterval(share.Low, share.High);
                }

                return new StepShare(group, (int)hits.Sum(), hits.Average(), interval);
            }),
        ];
    }

    private static JustRightDistance Distance(double[] values, double middle)
    {
        double[] below = [.. values.Where(value => value < middle)], above = [.. values.Where(value => value > middle)];
        return new JustRightDistance(
            (double)below.Length / values.Length, (double)above.Length / values.Length,
            below.Length == 0 ? 0 : middle - below.Average(), above.Length == 0 ? 0 : above.Average() - middle);
    }

    private static List<Caution> Cautions(TastingLog log, IReadOnlyList<Tasting> cups, TastingAttribute attribute, Scale scale, TopOfScale? top, string[] leftOut)
    {
        var cautions = new List<Caution>();
        if (top is { InformationLost: >= TopOfScale.WarnsFrom })
        {
            cautions.Add(new Caution("ceiling",
                $"The best coffees can hardly be told apart: with {ScaleText.Step(top.HighestGiven)} the highest score given, a cup of a coffee among the best tenth tells {NumberText.Percent(top.InformationLost)} less of it than on a scale of the same steps without an end. Leave room above, or use half steps there."));
        }
        else if (top is null && scale.Kind != ScaleKind.JustRight && ScoreCautions.Ceiling([.. cups.Select(c => c.ValueOf(attribute)!.Value)], scale) is { } ceiling)
        {
            cautions.Add(ceiling);
        }

        if (ScoreCautions.ChangesAmong(log, cups) is { Count: > 0 } changes)
        {
            cautions.Add(new Caution("equipment-changed",
                $"Water or equipment changed ({ScoreCautions.Said(changes)}): what that does to all cups alike is not read here, but a change that did more to some cups would look like steps that moved."));
        }

        var beside = cups.Count(c => !scale.IsOnStep(c.ValueOf(attribute)!.Value));
        if (beside > 0)
            cautions.Add(new Caution("off-steps", $"{NumberText.Count(beside, "cup has a value", "cups have values")} between the scale\u2019s steps, and stand with the nearest one."));
        if (leftOut.Length > 0)
        {
            cautions.Add(new Caution("few-cups",
                $"Left out of the model of moving steps, having fewer than {FewestCupsInModel} cups or {FewestBagsInModel} bags: {string.Join(", ", leftOut)}."));
        }

        return cautions;
    }
}
