namespace TastingKit.Tests.Log.Reading;

public sealed class DateTests
{
    [Theory]
    [InlineData("2025-03-14", "2025-03-14T00:00:00", false)]
    [InlineData("2025-03-14T08:30", "2025-03-14T08:30:00", true)]
    [InlineData("2025-03-14 08:30:15", "2025-03-14T08:30:15", true)]
    [InlineData("2025-03-14T08:30:15.25", "2025-03-14T08:30:15.25", true)]
    [InlineData("2025-03-14T08:30+02:00", "2025-03-14T08:30:00", true)]
    [InlineData("2025-03-14T23:30:00-0500", "2025-03-14T23:30:00", true)]
    [InlineData("2024-02-29T00:00", "2024-02-29T00:00:00", true)]
    public void Iso_dates_are_read_by_the_clock_where_the_taster_was(string written, string wallClock, bool hasTime)
    {
        var log = LogInMemory.Read(("tastings.csv", $"tasting_id,bag_id,tasted_at\nT1,B1,{written}\n"));

        Assert.Equal((DateTime.Parse(wallClock, System.Globalization.CultureInfo.InvariantCulture), hasTime), (log.Tastings[0].TastedAt, log.Tastings[0].HasTimeOfDay));
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void A_time_of_utc_is_read_and_told()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14T08:30:00Z\n");

        Assert.Equal(new DateTime(2025, 3, 14, 8, 30, 0), log.Tastings[0].TastedAt);
        log.AssertReport("time-in-utc", Severity.Information, "tastings.csv", 2, "tasted_at", "2025-03-14T08:30:00Z");
    }

    [Theory]
    [InlineData("14-Mar-25", "month as a word")]
    [InlineData("14 avril 2025", "no date")]
    [InlineData("8/7/2020", "which is which")]
    [InlineData("8/7/2020 14:45 PM", "which is which")]
    [InlineData("7/7/2020 14:45 PM", "what follows it")]
    [InlineData("03-04-25", "which is which")]
    [InlineData("May 2024", "no day")]
    [InlineData("2024-05", "no day")]
    [InlineData("2024", "a year alone")]
    [InlineData("2024/05-06", "year first")]
    [InlineData("45731", "count of days")]
    [InlineData("08:30", "a time and no day")]
    [InlineData("yesterday", "no date")]
    [InlineData("2025-03-14T25:00", "what follows it")]
    [InlineData("2025-03-14 14:45 PM", "what follows it")]
    [InlineData("n/a", "word for a missing value")]
    public void Any_other_form_is_named_and_never_guessed(string written, string form)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at\nT0,B1,2025-03-14\nT1,B1,\"{written}\"\n");

        Assert.Equal(["T0"], log.Tastings.Select(cup => cup.Id));
        log.AssertReport("date-not-iso", Severity.Rejected, "tastings.csv", 3, "tasted_at", written);
        Assert.Contains(form, log.Only("date-not-iso").Why, StringComparison.Ordinal);
        Assert.Contains("2025-03-14", log.Only("date-not-iso").Expected, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData("2025-02-29")]
    [InlineData("2025-13-01")]
    [InlineData("2025-00-10")]
    [InlineData("1025-03-14")]
    public void A_day_that_is_none_is_refused(string written) =>
        LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at\nT1,B1,{written}\n")
            .AssertReport("date-impossible", Severity.Rejected, "tastings.csv", 2, "tasted_at", written);

    [Fact]
    public void A_day_with_a_spreadsheet_s_midnight_is_a_day() =>
        Assert.Equal(new DateOnly(2025, 3, 1), LogInMemory.ReadBags("bag_id,roast_date\nB1,2025-03-01 00:00:00\n").Bags[0].RoastDate);
}
