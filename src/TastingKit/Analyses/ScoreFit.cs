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

    /// <summary>Why there is no answer without a fit.</summary>
    /// <param name="cups">Scored cups that the model was given.</param>
    public static Support NoChanceLeft(int cups) => Support.Missing(
        $"Of {NumberText.Count(cups, "scored cup")}, no chance is left over to judge a difference by, once coffees and brews are allowed for.",
        "Log more cups of the same coffees, each scored for itself.");
}
