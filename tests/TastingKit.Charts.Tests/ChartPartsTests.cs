namespace TastingKit.Charts.Tests;

public sealed class ChartPartsTests
{
    [Theory]
    [InlineData("short", 10, "short")]
    [InlineData("exactly ten", 11, "exactly ten")]
    [InlineData("a longer sentence", 10, "a longer\u2026")]
    [InlineData("  two\t\n spaces\u0000and a null  ", 40, "two spaces and a null")]
    [InlineData("left\u202eright", 40, "leftright")]
    [InlineData("\u8c46\u8c46\u8c46\u8c46", 6, "\u8c46\u8c46\u2026")]
    [InlineData("", 5, "")]
    public void A_text_is_cut_to_its_room(string text, int width, string expected) => Assert.Equal(expected, ShortText.Cut(text, width));

    [Fact]
    public void A_letter_with_its_marks_is_never_torn_apart()
    {
        const string Flag = "\ud83c\udde7\ud83c\uddee";
        Assert.Equal($"{Flag}{Flag}\u2026", ShortText.Cut(string.Concat(Enumerable.Repeat(Flag, 9)), 6));
        var piled = "e" + new string('\u0301', 50_000);
        Assert.InRange(ShortText.Cut(piled, 10).Length, 1, 16);
    }

    [Fact]
    public void Names_that_differ_at_their_ends_are_cut_in_the_middle()
    {
        Assert.Equal("flat-bed dripp\u2026g paper", ShortText.CutMiddle("flat-bed dripper with the long paper", 22));
        Assert.Equal("cone dripper", ShortText.CutMiddle("cone dripper", 22));
        Assert.NotEqual(ShortText.CutMiddle(new string('x', 90) + "1", 20), ShortText.CutMiddle(new string('x', 90) + "2", 20));
    }

    [Fact]
    public void Lines_are_broken_at_spaces_or_where_a_word_is_too_long()
    {
        Assert.Equal(["one two", "three"], ShortText.Wrap("one two three", 8));
        Assert.Equal(["abcdefgh", "ijkl mn"], ShortText.Wrap("abcdefghijkl mn", 8));
        Assert.Empty(ShortText.Wrap("", 8));
    }

    [Fact]
    public void A_long_name_does_not_push_the_counts_out_of_a_sentence()
    {
        var name = new string('n', 5000);
        Assert.Equal($"{new string('n', 79)}\u2026 leads 3 coffees (2 cups).", ShortText.Sentence($"{name} leads 3 coffees (2 cups).", name));
    }

    [Theory]
    [InlineData(7.11, 9.14, new[] { 7.5, 8, 8.5, 9 }, 1)]
    [InlineData(-0.31, 0.29, new[] { -0.3, -0.2, -0.1, 0, 0.1, 0.2 }, 1)]
    [InlineData(0, 1, new[] { 0, 0.2, 0.4, 0.6, 0.8, 1 }, 1)]
    [InlineData(71, 93, new double[] { 75, 80, 85, 90 }, 0)]
    [InlineData(-3000, 12000, new double[] { 0, 5000, 10000 }, 0)]
    [InlineData(8.001, 8.0021, new[] { 8.001, 8.0012, 8.0014, 8.0016, 8.0018, 8.002 }, 4)]
    public void Ticks_are_round_numbers_inside_the_range(double low, double high, double[] expected, int decimals)
    {
        var ticks = Ticks.Within(low, high);
        Assert.Equal(expected, ticks.Values);
        Assert.Equal(decimals, ticks.Decimals);
    }

    [Fact]
    public void Months_are_labelled_at_their_middles_and_the_year_once()
    {
        var span = new CalendarSpan([.. Enumerable.Range(0, 14).Select(i => new DateOnly(2024, 12, 1).AddMonths(i))], "month");
        var axis = span.Axis();
        Assert.Equal(["Dec<br>2024", "Mar<br>2025", "Jun", "Sep", "Dec"], (IEnumerable<string>)axis.Properties["ticktext"]);
        Assert.Equal(new DateOnly(2024, 12, 16), ((IEnumerable<DateOnly>)axis.Properties["tickvals"]).First());
        Assert.Equal(31 * 86_400_000.0, span.Milliseconds[0]);
    }

    [Fact]
    public void Many_months_are_labelled_by_whole_years()
    {
        var span = new CalendarSpan([.. Enumerable.Range(0, 94).Select(i => new DateOnly(2010, 4, 1).AddMonths(i))], "month");
        Assert.Equal(["Apr<br>2010", "Apr<br>2012", "Apr<br>2014", "Apr<br>2016"], (IEnumerable<string>)span.Axis().Properties["ticktext"]);
    }

    [Fact]
    public void Periods_left_out_of_the_calendar_keep_their_place()
    {
        var span = new CalendarSpan([new DateOnly(2011, 1, 1), new DateOnly(2015, 1, 1)], "year");
        Assert.Equal(["2011", "2012", "2013", "2014", "2015"], (IEnumerable<string>)span.Axis().Properties["ticktext"]);
        Assert.Equal([new DateOnly(2011, 7, 2), new DateOnly(2015, 7, 2)], span.Middles);
    }

    [Fact]
    public void An_unknown_period_is_refused() =>
        Assert.Contains("'week'", Assert.Throws<ArgumentException>(() => new CalendarSpan([new DateOnly(2025, 1, 1)], "week")).Message, StringComparison.Ordinal);
}
