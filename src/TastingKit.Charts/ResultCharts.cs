namespace TastingKit.Charts;

/// <summary>
/// The charts of the results. Each shows a result's own figures and computes none: the finding as its title, counts and the
/// kind of interval below it, every estimate with its interval. A result that its log does not support gives the reason
/// instead of a chart.
/// </summary>
public static class ResultCharts
{
    /// <summary>The highest twenty coffees by predicted score, with 95 % intervals, plain means and cups.</summary>
    public static Chart Chart(this Favourites favourites) =>
        Of(favourites, FavouritesChart.Draw);

    /// <summary>How probable it is of each coffee that it belongs among the best so many; the twenty likeliest.</summary>
    public static Chart TopChart(this Favourites favourites) =>
        Of(favourites, TopFavouritesChart.Draw, "How sure is a place among the best?");

    /// <summary>Kinds of coffee by expected score, with 95 % intervals, plain means, cups and coffees.</summary>
    public static Chart Chart(this FavouriteGroups groups) =>
        Of(groups, FavouriteGroupsChart.Draw);

    /// <summary>The differences within coffees, with simultaneous 95 % intervals, against no difference and the margin.</summary>
    public static Chart Chart(this MethodEffects effects) =>
        Of(effects, MethodEffectsChart.Draw);

    /// <summary>What a step more of each number of the brew does, with 95 % intervals, against no difference and the margin.</summary>
    public static Chart Chart(this MethodSlopes slopes) =>
        Of(slopes, MethodSlopesChart.Draw);

    /// <summary>The differences in the attributes that the method is shown to change, as shares of their scales, against no difference and the margin.</summary>
    public static Chart Chart(this MethodProfile profile) =>
        Of(profile, MethodProfileChart.Draw);

    /// <summary>The difference of each process or coffee with its 95 % interval, against no difference and the margin.</summary>
    public static Chart Chart(this MethodDeviations deviations) =>
        Of(deviations, MethodDeviationsChart.Draw);

    /// <summary>The score's course over effective rest with its 95 % band, over the means of the cups of each day.</summary>
    public static Chart Chart(this RestCourse course) =>
        Of(course, RestCourseChart.Draw);

    /// <summary>The courses over effective rest with their 95 % bands, a panel a kind, over the means of each day's cups; the best days shaded.</summary>
    public static Chart Chart(this RestPeaks peaks) =>
        Of(peaks, RestPeaksChart.Draw);

    /// <summary>Raw means by month, quarter or year with 95 % intervals, over the number of cups; changes of equipment marked.</summary>
    public static Chart Chart(this CalendarCourse course) =>
        Of(course, CalendarCourseChart.Draw);

    /// <summary>Cups by month, those that count for the score apart from the others, and bags tasted for the first time.</summary>
    public static Chart Chart(this LoggedYear year) =>
        Of(year, LoggedMonthsChart.Draw);

    /// <summary>How often a note is found again in its coffees, with 95 % intervals and counts; the twenty most surely constant.</summary>
    public static Chart NotesChart(this LoggedYear year) =>
        Of(year, NoteConstancyChart.Draw, NoteConstancyChart.Question);

    /// <summary>Standard deviations of one cup over repeats, between sittings and from day to day, with 95 % intervals and what each rests on.</summary>
    public static Chart Chart(this TastingPrecision precision) =>
        Of(precision, PrecisionChart.Draw);

    /// <summary>Every cup's distance from what all others say of it, over the days; the cups flagged are named.</summary>
    public static Chart Chart(this OneOffs oneOffs) =>
        Of(oneOffs, OneOffsChart.Draw);

    /// <summary>What each cup that can be brewed is expected to do for the question, as bars; the first twelve, those of the plan marked.</summary>
    public static Chart Chart(this NextBrew next) =>
        Of(next, NextBrewChart.Draw);

    /// <summary>The pairs of rest and drift that fit the log, with their 95 % band, and where what was kept the same cuts them.</summary>
    public static Chart Chart(this ScaleDrift drift) =>
        Of(drift, DriftLineChart.Draw);

    /// <summary>The drift under each assumption that the log has something for, with 95 % intervals, against no drift.</summary>
    public static Chart AnchorsChart(this ScaleDrift drift) =>
        Of(drift, DriftAnchorsChart.Draw);

    /// <summary>The drift that follows from what the user states of rest, on the line of pairs that fit the log.</summary>
    public static Chart Chart(this DriftGivenRest given) =>
        Of(given, DriftLineChart.Draw);

    /// <summary>The raw change and the parts that it is the sum of, with 95 % intervals; below, each factor's share of a mix.</summary>
    public static Chart Chart(this ScoreRise rise) =>
        Of(rise, ScoreRiseChart.Draw);

    /// <summary>The part of each quarter's cups that were given each step, with 95 % intervals, a panel a step; steps hardly used taken together.</summary>
    public static Chart Chart(this ScaleUse use) =>
        Of(use, ScaleUseChart.Draw);

    /// <summary>Where each step began in each quarter against the other steps, with 95 % intervals, a panel a step.</summary>
    public static Chart MovementChart(this ScaleUse use) =>
        Of(use, StepMovementChart.Draw);

    /// <summary>What seeing the label does and what it goes with, with 95 % intervals and cups, against no effect.</summary>
    public static Chart Chart(this LabelEffect effect) =>
        Of(effect, LabelEffectChart.Draw);

    /// <summary>What is added to a score by the day of its cup to bring it to the common day's scale, with the band that all cups share.</summary>
    public static Chart Chart(this AdjustedScores scores) =>
        Of(scores, AdjustedScoresChart.Draw);

    /// <summary>The highest twenty coffees on one scale with 95 % intervals, and their scores and places as written.</summary>
    public static Chart Chart(this AdjustedFavourites favourites) =>
        Of(favourites, AdjustedFavouritesChart.Draw);

    /// <summary>In how many years a drift would be told, by the number of frozen doses, with the width of its interval.</summary>
    public static Chart Chart(this DriftPlan plan) =>
        Of(plan, DriftPlanChart.Draw);

    /// <summary>Every cup of a bag over its days, a shape a brewer, what does not count hollow; the mean with its 95 % interval, and when the bag was opened, frozen and thawed.</summary>
    public static Chart Chart(this BagTimeline bag) =>
        Of(bag, BagTimelineChart.Draw);

    private static Chart Of<T>(T result, Func<T, Chart> draw, string? question = null)
        where T : TastingResult
    {
        ArgumentNullException.ThrowIfNull(result);
        return result.Support.Match(
            _ => draw(result),
            no => TastingKit.Charts.Chart.Nothing(question ?? result.Question, ShortText.Sentence($"{no.Reason} {no.WhatToLog}")));
    }
}
