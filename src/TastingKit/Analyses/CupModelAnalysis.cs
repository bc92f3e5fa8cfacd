using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="CupEstimates"/>.</summary>
internal static class CupModelAnalysis
{
    private const string Estimator =
        "restricted maximum likelihood; covariates in their steps from the mean of the cups; intervals and p-values by Satterthwaite\u2019s degrees of freedom, each by itself";

    public static CupEstimates Of(TastingLog log, CupModel model)
    {
        var scored = ScoredCups.Of(log, model.Attribute);
        var leftOut = scored.LeftOut.ToList();
        IReadOnlyList<Tasting> cups = scored.Cups;
        foreach (var factor in model.Factors.Concat(model.Groups.SelectMany(group => group)).Concat(model.Slopes.Select(slope => slope.Group)))
            cups = Keep(cups, cup => factor.LevelOf(cup) != Factor.NotStated, factor.Name, leftOut);
        foreach (var covariate in model.Covariates)
            cups = Keep(cups, cup => covariate.ValueOf(cup) is not null, covariate.Name, leftOut);

        CupEstimates Unsupported(string reason) => new(
            model.Attribute, [], [], log.ScaleOf(model.Attribute), [], new Computation("none", "none", cups.Count, leftOut),
            Support.Missing(reason, "Log more cups that state every term of the model, or leave a term out."), _ => []);

        if (cups.Count < 2)
            return Unsupported($"{NumberText.Count(cups.Count, "cup")} with {MethodWords.Named(model.Attribute)} and every term of the model: nothing can be estimated.");
        try
        {
            return Fitted(log, model, cups, leftOut);
        }
        catch (ModelException refused)
        {
            return Unsupported(refused.Message);
        }
    }

    private static IReadOnlyList<Tasting> Keep(IReadOnlyList<Tasting> cups, Func<Tasting, bool> states, string name, List<LeftOut> leftOut)
    {
        Tasting[] kept = [.. cups.Where(states)];
        if (kept.Length < cups.Count)
            leftOut.Add(new LeftOut($"without {name}", cups.Count - kept.Length));
        return kept;
    }

    private static CupEstimates Fitted(TastingLog log, CupModel model, IReadOnlyList<Tasting> cups, IReadOnlyList<LeftOut> leftOut)
    {
        var steps = model.Covariates.ToDictionary(covariate => covariate.Name, covariate => MethodModel.InSteps(covariate, cups));
        var squares = model.BentOnes.ToDictionary(
            covariate => covariate.Name,
            covariate => new NumericColumn($"{covariate.Name} squared", steps[covariate.Name].Values.ToArray().Select(value => value * value).ToArray()));
        var factors = model.Factors.Select(factor => Column([factor], cups)).ToArray();
        var design = ModelDesign.For(model.Attribute.Name, cups.Select(cup => cup.ValueOf(model.Attribute)!.Value).ToArray());
        foreach (var column in steps.Values.Concat(squares.Values).Concat<Column>(factors))
            design = design.WithFixed(column);
        foreach (var (first, second) in model.Pairs)
            design = design.WithInteraction(steps[first.Name], steps[second.Name]);
        foreach (var group in model.Groups)
            design = design.WithRandomIntercept(Column(group, cups));
        foreach (var (group, covariate) in model.Slopes)
            design = design.WithRandomSlope(Column([group], cups), steps[covariate.Name]);

        log.Watch.Report(new WorkProgress($"fitting {NumberText.Count(cups.Count, "cup")}", null));
        var fit = LinearMixedModel.Fit(design, cancellationToken: log.Watch.CancellationToken);
        var effects = model.Covariates.Select(c => Effect($"{c.Name}, {c.StepInWords} more", fit, fit.FixedEffect(c.Name)))
            .Concat(model.BentOnes.Select(c => Effect($"{c.Name}, bend a squared step", fit, fit.FixedEffect(squares[c.Name].Name))))
            .Concat(model.Pairs.Select(pair => Effect($"{pair.First.Name} with {pair.Second.Name}, a step of each", fit, fit.FixedEffect($"{pair.First.Name}:{pair.Second.Name}"))))
            .Concat(factors.SelectMany(factor => factor.Levels.Skip(1).Select(level => Effect($"{factor.Name}: {level} \u2212 {factor.Levels[0]}", fit, MethodAnalysis.FixedContrast(fit, factor, level, factor.Levels[0])))));
        var fixedWords = steps.Keys.Concat(squares.Values.Select(c => c.Name)).Concat(model.Pairs.Select(pair => $"{pair.First.Name} with {pair.Second.Name}")).Concat(factors.Select(f => f.Name));
        var randomWords = model.Groups.Select(group => string.Join(" by ", group.Select(f => f.Name))).Concat(model.Slopes.Select(slope => $"slope of {slope.Covariate.Name} by {slope.Group.Name}"));
        return new CupEstimates(
            model.Attribute, [.. effects.OfType<CupEffect>()],
            [
                .. fit.VarianceComponents.SelectMany(component => component.Terms.Select((term, i) => new CupSpread(
                    term == RandomTerm.Intercept ? component.Group.Replace(":", " by ", StringComparison.Ordinal) : $"slope of {term} by {component.Group}", component.StandardDeviations[i]))),
                new CupSpread("cup", fit.ResidualStandardDeviation),
            ],
            log.ScaleOf(model.Attribute), [.. fit.Cautions.Select(text => new Caution("of-the-fit", text))],
            new Computation(
                $"linear mixed model of {MethodWords.Named(model.Attribute)}; fixed: {Listed(fixedWords)}; random: {Listed(randomWords)}", Estimator, cups.Count, leftOut),
            Support.Given,
            factor => factors.Any(column => column.Name == factor.Name)
                ? [.. fit.MarginalMeans(factor.Name).Select(mean => new LevelMean(mean.Level, mean.Mean, mean.StandardError))]
                : throw new ArgumentException($"The model does not have the factor {factor.Name}.", nameof(factor)));
    }

    private static CupEffect? Effect(string what, LinearMixedModelFit fit, LinearFunction? function)
    {
        if (function is null)
            return null;
        var estimate = fit.Estimate(function);
        return new CupEffect(what, estimate.Value, estimate.StandardError, estimate.Low, estimate.High, estimate.PValue());
    }

    private static CategoricalColumn Column(IReadOnlyList<Factor> factors, IReadOnlyList<Tasting> cups)
    {
        var columns = factors.Select(factor => CategoricalColumn.From(factor.Name, [.. cups.Select(factor.LevelOf)]));
        return columns.Aggregate((first, second) => first.Cross(second));
    }

    private static string Listed(IEnumerable<string> words) => string.Join(", ", words) is { Length: > 0 } list ? list : "none";
}
