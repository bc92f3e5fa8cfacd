namespace TastingKit.Tests.Log.Reading;

/// <summary>What one cell can't tell and the whole column can.</summary>
public sealed class WholeColumnTests
{
    [Theory]
    [InlineData("03/04/2025,25/03/2025,01/02/2025", "2025-04-03", "25/03/2025 on line 3")]
    [InlineData("03.04.2025,25.03.2025,2025-02-01", "2025-04-03", "25.03.2025 on line 3")]
    [InlineData("3/4/2025,3/25/2025,1/2/2025", "2025-03-04", "3/25/2025 on line 3")]
    public void Day_and_month_stand_as_the_column_shows(string dates, string first, string evidence)
    {
        var log = Dated(dates.Split(','));

        Assert.Equal(first, log.Tastings.Single(cup => cup.Id == "T0").TastedAt.ToString("yyyy-MM-dd"));
        Assert.DoesNotContain(log.Problems, problem => problem.Severity == Severity.Rejected);
        Assert.Contains(evidence, log.Only("date-read-as").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_that_cannot_decide_is_refused_but_for_dates_that_are_the_same_either_way()
    {
        var log = Dated("03/04/2025", "05/05/2025", "2025-06-07");

        Assert.Equal(["T1", "T2"], log.Tastings.Select(cup => cup.Id));
        log.AssertReport("date-not-iso", Severity.Rejected, "tastings.csv", 2, "tasted_at", "03/04/2025");
        Assert.Contains("no date of the column shows which is which", log.Only("date-not-iso").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void A_column_with_both_orders_is_refused_whole()
    {
        var log = Dated("03/04/2025", "25/03/2025", "3/25/2025");

        Assert.Empty(log.Tastings);
        Assert.Equal(3, log.Problems.Count(problem => problem.Rule == "date-not-iso" && problem.Severity == Severity.Rejected));
        Assert.All(log.Problems.Where(problem => problem.Rule == "date-not-iso"), problem =>
            Assert.Contains("25/03/2025 on line 3 and 3/25/2025 on line 4", problem.Why, StringComparison.Ordinal));
    }

    [Fact]
    public void A_row_that_is_none_is_no_evidence()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\nT0,B1,03/04/2025\nT1,B1,25/03/2025,,x\n");

        Assert.Empty(log.Tastings);
    }

    [Theory]
    [InlineData("2024/05/06", "2024-05-06T00:00")]
    [InlineData("2024.5.6", "2024-05-06T00:00")]
    [InlineData("20240506", "2024-05-06T00:00")]
    [InlineData("6 May 2024", "2024-05-06T00:00")]
    [InlineData("6. September 2024", "2024-09-06T00:00")]
    [InlineData("Sept 6th 2024", "2024-09-06T00:00")]
    [InlineData("06-Sep-2024 8:05", "2024-09-06T08:05")]
    [InlineData("13/05/2024 8:05 PM", "2024-05-13T20:05")]
    [InlineData("5/13/2024 12:05 am", "2024-05-13T00:05")]
    [InlineData("13/05/2024, 20:05+02:00", "2024-05-13T20:05")]
    public void Other_forms_without_doubt_are_read_and_told_once(string written, string moment)
    {
        var log = Dated(written, written);

        Assert.Equal([moment, moment], log.Tastings.Select(cup => cup.TastedAt.ToString("yyyy-MM-dd'T'HH:mm")));
        Assert.Equal(written.Contains(':', StringComparison.Ordinal), log.Tastings[0].HasTimeOfDay);
        log.AssertReport("date-read-as", Severity.Information, "tastings.csv", 2, "tasted_at", written);
        Assert.Single(log.Problems, problem => problem.Rule == "date-read-as");
    }

    [Theory]
    [InlineData("31/02/2025")]
    [InlineData("32/01/2025")]
    [InlineData("31 Feb 2025")]
    [InlineData("2025/13/01")]
    public void A_day_that_is_none_is_refused_in_every_form(string written) =>
        Assert.Contains(Dated("25/03/2025", written).Problems, problem => problem.Rule == "date-impossible" && problem.Found == written);

    [Theory]
    [InlineData("94,92.5,96", 94)]
    [InlineData("201,205,199.4", 93.8889)]
    public void Temperatures_without_a_unit_are_what_all_of_them_can_be(string column, double first)
    {
        var log = Heated("water_temp", column.Split(','));

        Assert.Equal(first, log.Tastings[0].WaterCelsius!.Value, 3);
        Assert.Contains("3 temperatures", log.Only("bare-temperature").Why, StringComparison.Ordinal);
        Assert.Equal(Severity.Information, log.Only("bare-temperature").Severity);
    }

    [Fact]
    public void Temperatures_of_both_units_without_one_are_left_missing()
    {
        var log = Heated("water_temp", "94", "201", "92C");

        Assert.Equal([null, null, 92.0], log.Tastings.Select(cup => cup.WaterCelsius));
        Assert.Equal(2, log.Problems.Count(problem => problem is { Rule: "bare-temperature", Severity: Severity.Doubtful }));
    }

    [Theory]
    [InlineData("Water temperature (°F)", "201.2", 94)]
    [InlineData("temp [C]", "94", 94)]
    public void A_header_may_state_the_unit_in_brackets(string header, string written, double celsius)
    {
        var log = Heated(header, written);

        Assert.Equal(celsius, log.Tastings[0].WaterCelsius!.Value, 6);
        log.AssertReport("header-read-as", Severity.Information, "tastings.csv", 1, header, header);
        Assert.DoesNotContain(log.Problems, problem => problem.Rule == "bare-temperature");
    }

    private static TastingLog Dated(params string[] dates) =>
        LogInMemory.ReadCups("tasting_id,bag_id,tasted_at\n" + string.Concat(dates.Select((date, i) => $"T{i},B1,\"{date}\"\n")));

    private static TastingLog Heated(string header, params string[] cells) =>
        LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,{header}\n" + string.Concat(cells.Select((cell, i) => $"T{i},B1,2025-03-14,{cell}\n")));
}
