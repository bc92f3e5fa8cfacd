namespace TastingKit.Charts;

/// <summary>A result as a notebook or page shows it: its finding, its chart, its cautions, and folded away its figures.</summary>
public static class IllustratedResult
{
    /// <summary>
    /// The result as HTML. A result that has a chart begins with it, the finding being the chart's title; one that its log does not
    /// support, or that has no chart, is told in words.
    /// </summary>
    public static string ToIllustratedHtml(this TastingResult result)
    {
        ArgumentNullException.ThrowIfNull(result);
        if (!result.Support.IsSupported || ChartOf(result) is not { } chart)
            return HtmlRenderer.Render(result.Layout());
        var lead = chart.Title.StartsWith(result.Finding, StringComparison.Ordinal)
            ? ""
            : HtmlRenderer.Render(new ResultLayout([new LayoutBlock.Lead(result.Finding)]));
        return lead + chart.ToHtml() + HtmlRenderer.Render(ResultLayout.BelowChartOf(result));
    }

    private static Chart? ChartOf(TastingResult result) => result switch
    {
        Favourites favourites => favourites.Chart(),
        FavouriteGroups groups => groups.Chart(),
        MethodEffects effects => effects.Chart(),
        MethodSlopes slopes => slopes.Chart(),
        MethodProfile profile when profile.Selected.Any() => profile.Chart(),
        MethodDeviations deviations => deviations.Chart(),
        RestCourse course => course.Chart(),
        RestPeaks peaks => peaks.Chart(),
        CalendarCourse course => course.Chart(),
        LoggedYear year => year.Chart(),
        TastingPrecision precision => precision.Chart(),
        OneOffs oneOffs => oneOffs.Chart(),
        BagTimeline bag => bag.Chart(),
        NextBrew next => next.Chart(),
        ScaleDrift drift when drift.Sums.Any(sum => sum.Sum == DriftSum.RestAndDrift) => drift.Chart(),
        ScaleUse use => use.Chart(),
        LabelEffect effect => effect.Chart(),
        DriftGivenRest given => given.Chart(),
        ScoreRise rise => rise.Chart(),
        AdjustedScores scores => scores.Chart(),
        AdjustedFavourites favourites => favourites.Chart(),
        DriftPlan plan => plan.Chart(),
        _ => null,
    };
}
