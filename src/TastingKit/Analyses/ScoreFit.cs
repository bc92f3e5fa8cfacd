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

    /// <summary>The random intercept of a level; of one that no cup has, what is to be drawn anew.</summary>
    /// <param name="fit">The fit.</param>
    /// <param name="group">The grouping factor.</param>
    /// <param name="level">Its level.</param>
    public static FurtherFunction Intercept(LinearMixedModelFit fit, CategoricalColumn group, string level) => group.Levels.Contains(level)
        ? new FurtherFunction(fit.RandomEffect(group.Name, level))
        : new FurtherFunction(LinearFunction.Zero, new NewLevel(group.Name, level, 1));

    /// <summary>Why there is no answer without a fit.</summary>
    /// <param name="cups">Scored cups that the model was given.</param>
    public static Support NoChanceLeft(int cups) => Support.Missing(
        $"Of {NumberText.Count(cups, "scored cup")}, no chance is left over to judge a difference by, once coffees and brews are allowed for.",
        "Log more cups of the same coffees, each scored for itself.");
}
