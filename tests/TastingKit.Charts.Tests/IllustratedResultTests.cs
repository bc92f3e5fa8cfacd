namespace TastingKit.Charts.Tests;

public sealed class IllustratedResultTests
{
    [Fact]
    public void A_result_begins_with_its_chart_and_tells_its_finding_once()
    {
        var course = Course([new CalendarPeriod(new(2025, 1, 1), "2025-01", 6.5, new MeanInterval(6, 7), 12, 3), new CalendarPeriod(new(2025, 2, 1), "2025-02", 7, null, 2, 1)], Support.Given);
        var html = course.ToIllustratedHtml();

        Assert.Equal(2, html.Split(HtmlText.Sentence(course.Finding)).Length);
        Assert.True(html.IndexOf("<figure", StringComparison.Ordinal) < html.IndexOf("How this was computed", StringComparison.Ordinal));
        Assert.Contains("The figures: 2 rows", html, StringComparison.Ordinal);
        Assert.Contains("6.00 to 7.00", html, StringComparison.Ordinal);
        Assert.Contains("a caution", html, StringComparison.Ordinal);
    }

    [Fact]
    public void A_result_that_its_log_does_not_support_is_told_in_words_alone()
    {
        var html = Course([], Support.Missing("No scored cup.", "Score the cups.")).ToIllustratedHtml();

        Assert.DoesNotContain("<figure", html, StringComparison.Ordinal);
        Assert.Contains("No scored cup.", html, StringComparison.Ordinal);
        Assert.Contains("Score the cups.", html, StringComparison.Ordinal);
    }

    private static CalendarCourse Course(IReadOnlyList<CalendarPeriod> periods, Support support) => new(
        TastingAttribute.Score, "month", periods, new CalendarTrend(0.1, -0.2, 0.4, Bend.None), null, [], Scale.Default(TastingAttribute.Score),
        [new Caution("test", "a caution")], new Computation("none", "none", 14, []), support);
}
