using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Fits a model of the score, or finds that the log leaves no chance to judge by.</summary>
internal static class ScoreFit
{
    /// <summary>The fit; nothing where the engine refuses, since the terms take up every difference between the cups.</summary>
    public static LinearMixedModelFit? Of(ModelDesign design, WorkWatch watch)
    {
        watch.Report(new WorkProgress($"fitting {NumberText.Count(design.RowCount, "cup")}", null));
        try
        {
            return LinearMixedModel.Fit(design, cancellationToken: watch.CancellationToken);
        }
        catch (ModelException)
        {
            return null;
        }
    }

    /// <summary>What is left of each row beside all but the slopes that levels of a group have to themselves.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="group">The group.</param>
    /// <param name="slopes">What its levels have slopes of their own over.</param>
    public static double[] ResidualsWithSlopes(LinearMixedModelFit fit, CategoricalColumn group, params IReadOnlyList<NumericColumn> slopes)
    {
        var residuals = fit.Residuals();
        foreach (var slope in slopes)
        {
            double[] own = [.. group.Levels.Select(level => fit.Value(fit.RandomEffect(group.Name, level, slope.Name)))];
            for (var row = 0; row < residuals.Length; row++)
                residuals[row] += own[group.Codes[row]] * slope.Values[row];
        }

        return residuals;
    }

    /// <summary>
    /// A model, without sittings where with them less is left to chance than the steps of the scale alone scatter by: the terms have then taken up
    /// the chance of single cups, and nothing would seem uncertain.
    /// </summary>
    /// <param name="columns">The columns, with sittings where these can be told.</param>
    /// <param name="scale">The scale.</param>
    /// <param name="modelOf">Fits the model to columns.</param>
    /// <param name="fitOf">The fit in it.</param>
    public static (ScoreColumns Columns, TModel? Model) LeavingChance<TModel>(
        ScoreColumns columns, Scale scale, Func<ScoreColumns, TModel?> modelOf, Func<TModel, LinearMixedModelFit> fitOf)
        where TModel : class
    {
        var model = modelOf(columns);
        if (columns.Session is null || (model is not null && LeavesChance(fitOf(model), scale)))
            return (columns, model);
        var without = columns.WithoutSessions();
        return (without, modelOf(without));
    }

    /// <summary>Whether a cup scatters by as much as the rounding to steps alone makes it.</summary>
    public static bool LeavesChance(LinearMixedModelFit fit, Scale scale) => fit.ResidualStandardDeviation >= scale.Step / Math.Sqrt(12);

    /// <summary>The fixed part at a setting; nothing where the log can't tell one part of it from another.</summary>
    public static LinearFunction? At(LinearMixedModelFit fit, Setting setting)
    {
        try
        {
            return fit.At(setting);
        }
        catch (ModelException)
        {
            return null;
        }
    }

    /// <summary>The random intercept of a level; of one that no cup has, what is to be drawn anew.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="group">The grouping factor.</param>
    /// <param name="level">Its level.</param>
    public static FurtherFunction Intercept(LinearMixedModelFit fit, string group, string level) => fit.HasLevel(group, level)
        ? new FurtherFunction(fit.RandomEffect(group, level))
        : new FurtherFunction(LinearFunction.Zero, new NewLevel(group, level, 1));

    /// <summary>Why there is no answer without a fit.</summary>
    /// <param name="cups">Scored cups that the model was given.</param>
    public static Support NoChanceLeft(int cups) => Support.Missing(
        $"Of {NumberText.Count(cups, "scored cup")}, no chance is left over to judge a difference by, once coffees and brews are allowed for.",
        "Log more cups of the same coffees, each scored for itself.");
}
