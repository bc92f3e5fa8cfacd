using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="MethodSlopes"/>: each covariate by a model of its own.</summary>
internal static class SlopeAnalysis
{
    private const int Draws = 2000;
    private const int FewestCups = 30;
    private const int FewestGroundCups = 20;
    private const int ValuesForABend = 4;
    private const double BendLevel = 0.05;
    private const string Estimator =
        "restricted maximum likelihood; the coffee's mean of each brewing term as a term of its own, so that differences are within coffees; "
        + "intervals from joint draws of variances and effects, each covariate by itself; a bend is an F test of the squared term at 5 %";

    // Several covariates are gone through at once, each with a model of its own, and of each one interval is asked.
    private static readonly DrawOptions FewerDraws = new() { VarianceProposals = 200, PilotDraws = 100 };

    public static MethodSlopes Of(
        TastingLog log, IReadOnlyList<Covariate> covariates, TastingAttribute attribute, double? margin, ulong seed, DrawOptions? varianceDraws = null)
    {
        var scale = log.ScaleOf(attribute);
        var fixedMargin = MethodAnswers.Margin(margin, scale);
        var scored = ScoredCups.Of(log, attribute);
        var asked = covariates.Count > 0 ? covariates : Usual(scored.Cups);
        var slopes = new List<MethodSlope>();
        var unanswered = new List<UnansweredCovariate>();
        var cautions = new List<Caution>();
        var words = new List<string>();
        foreach (var covariate in asked)
        {
            Tasting[] cups = [.. scored.Cups.Where(c => covariate.ValueOf(c) is not null)];
            if (WhyNot(covariate, cups) is { } reason)
            {
                unanswered.Add(new UnansweredCovariate(covariate, reason));
                continue;
            }

            var columns = ScoreColumns.Of(cups, attribute).WithoutManySessions();
            var steps = MethodModel.InSteps(covariate, cups);
            if (MethodModel.Of(columns, attribute, covariate, steps, null, log.Watch) is not { } model)
            {
                unanswered.Add(new UnansweredCovariate(covariate, ScoreFit.NoChanceLeft(cups.Length).Match(_ => "", no => no.Reason)));
                continue;
            }

            if (Function(model, steps, cups) is not { } function)
            {
                unanswered.Add(new UnansweredCovariate(covariate, $"Whenever the {covariate.Name} changed within a coffee, something else of the brew changed with it: its difference can't be told from theirs ({NumberText.Count(cups.Length, "cup")})."));
                continue;
            }

            var joint = PredictionDraws.Joint(model.Fit, Draws, seed, log.Watch, varianceDraws ?? FewerDraws);
            var draws = PredictionDraws.Of(joint, [function], log.Watch);
            var sorted = cups.Select(c => covariate.ValueOf(c)!.Value).Order().ToArray();
            var (lowest, highest) = (Quantiles.OfSorted(sorted, 0.05), Quantiles.OfSorted(sorted, 0.95));
            var mean = sorted.Average();
            var reach = SimultaneousReach.Of(draws, 0.95);
            var answer = MethodAnswers.Of(draws, reach, 0, 1, fixedMargin);
            slopes.Add(new MethodSlope(
                covariate, answer,
                Shape(columns, attribute, covariate, steps, (lowest - mean) / covariate.Step, (highest - mean) / covariate.Step, log.Watch),
                lowest, highest, cups.Length, VaryingCoffees(covariate, cups),
                answer is { Direction: Direction.Undecided, Size: Size.Undecided } && highest > lowest
                    ? model.PlanFor(steps, (highest - lowest) / covariate.Step, reach.StandardDeviations[0], reach.Multiplier, fixedMargin, joint).Find()
                    : FurtherCups.None));
            words.Add(model.Words);
            cautions.AddRange(new[] { columns.SessionsLeftOut, ScoreCautions.HangTogether(model.Fit, cups, seed) }.OfType<Caution>().Where(caution => cautions.All(c => c.Name != caution.Name)));
        }

        var used = slopes.Count == 0 ? 0 : slopes.Max(s => s.Cups);
        var computation = new Computation(words.Count == 0 ? "none" : string.Join(". ", words.Distinct()), words.Count == 0 ? "none" : Estimator, used, scored.LeftOut, seed);
        var support = slopes.Count > 0
            ? Support.Given
            : Support.Missing(
                asked.Count == 0 ? "No cup states a ratio, a temperature or a grind, so nothing can be said of what they do." : string.Join(" ", unanswered.Select(u => u.Reason)),
                "Brew the same coffee at two values that lie well apart, all else alike, and write them down.");
        return new MethodSlopes(attribute, slopes, unanswered, fixedMargin, scale, cautions, computation, support);
    }

    /// <summary>Temperature, ratio, and grind on each grinder that the log has cups enough of.</summary>
    private static Covariate[] Usual(IReadOnlyList<Tasting> cups) =>
    [
        Covariate.WaterTemperature,
        Covariate.Ratio,
        .. cups.Where(c => c.Grinder is not null && c.Grind is not null).GroupBy(c => c.Grinder!).Where(g => g.Count() >= FewestGroundCups)
            .OrderByDescending(g => g.Count()).ThenBy(g => g.Key, StringComparer.Ordinal).Select(g => Covariate.Grind(g.Key)),
    ];

    private static string? WhyNot(Covariate covariate, IReadOnlyList<Tasting> cups)
    {
        if (cups.Count == 0)
            return $"No cup used states its {covariate.Name}.";
        if (cups.Select(covariate.ValueOf).Distinct().Count() < 2)
            return $"Every cup that states its {covariate.Name} has the same ({NumberText.Count(cups.Count, "cup")}).";
        var varying = cups.GroupBy(c => c.Bag.Coffee.Id).Where(coffee => coffee.Select(covariate.ValueOf).Distinct().Count() > 1).Sum(coffee => coffee.Count());
        if (varying == 0)
            return $"No coffee was brewed with two values of {covariate.Name}: a difference would be one between coffees ({NumberText.Count(cups.Count, "cup")}).";
        return varying < FewestCups
            ? $"{NumberText.Count(varying, "cup")} of coffees brewed with two values of {covariate.Name} are too few to tell what it does: {FewestCups} are the least."
            : null;
    }

    private static int VaryingCoffees(Covariate covariate, IReadOnlyList<Tasting> cups) =>
        cups.GroupBy(c => c.Bag.Coffee.Id).Count(coffee => coffee.Select(covariate.ValueOf).Distinct().Count() > 1);

    /// <summary>One step more, over coffees like the log's: processes enter with the share of the log's coffees that have each.</summary>
    private static LinearFunction? Function(MethodModel model, NumericColumn steps, IReadOnlyList<Tasting> cups)
    {
        LinearFunction function;
        try
        {
            var middle = Setting.Averaged(MarginalWeights.AsObserved);
            function = model.Fit.At(middle.With(steps.Name, 1)) - model.Fit.At(middle.With(steps.Name, 0));
        }
        catch (ModelException)
        {
            return null;
        }

        if (model.Fit.Design.RandomTerms.All(term => term.Group.Name != Factor.Process.Name))
            return function;
        var coffees = cups.DistinctBy(c => c.Bag.Coffee.Id).ToArray();
        foreach (var process in coffees.GroupBy(Factor.Process.LevelOf))
            function += (double)process.Count() / coffees.Length * model.Fit.RandomEffect(Factor.Process.Name, process.Key, steps.Name);
        return function;
    }

    private static SlopeShape Shape(
        ScoreColumns columns, TastingAttribute attribute, Covariate covariate, NumericColumn steps, double lowest, double highest, WorkWatch watch)
    {
        double[] squares = [.. steps.Values.ToArray().Select(value => value * value)];
        if (squares.Distinct().Count() < 2 || steps.Values.ToArray().Distinct().Count() < ValuesForABend)
            return new SlopeShape.NotLookedFor();
        var square = new NumericColumn($"{covariate.Name} squared", squares);
        if (MethodModel.Of(columns, attribute, covariate, steps, square, watch) is not { } model
            || model.Fit.FixedEffects.FirstOrDefault(effect => effect.Name == square.Name) is not { } bend
            || model.Fit.FixedEffects.FirstOrDefault(effect => effect.Name == steps.Name) is not { } slope)
            return new SlopeShape.NotLookedFor();
        return bend.P > BendLevel
            ? new SlopeShape.Straight(bend.P)
            : new SlopeShape.Curved(bend.P, slope.Estimate + (2 * bend.Estimate * lowest), slope.Estimate + (2 * bend.Estimate * highest));
    }
}
