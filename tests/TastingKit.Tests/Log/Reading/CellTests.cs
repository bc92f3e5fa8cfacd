namespace TastingKit.Tests.Log.Reading;

/// <summary>Cells that hold something else than their column takes: left missing, the row doubtful, the place and the text told.</summary>
public sealed class CellTests
{
    public static TheoryData<string, string, string> BadCellsOfCups => new()
    {
        { "score", "Sample  7.5", "not-a-number" },
        { "score", "7,5", "ambiguous-number" },
        { "score", "na", "not-a-number" },
        { "score", "NaN", "not-a-number" },
        { "score", "∞", "not-a-number" },
        { "score", "1e1", "not-a-number" },
        { "score", "0x7", "not-a-number" },
        { "score", "7½", "not-a-number" },
        { "score", "#REF!", "spreadsheet-error" },
        { "brewer", "#N/A", "spreadsheet-error" },
        { "score", "+-7", "not-a-number" },
        { "score", "7.5.1", "ambiguous-number" },
        { "score", "9.5", "score-off-scale" },
        { "score", "0", "score-off-scale" },
        { "score", "-3", "score-off-scale" },
        { "sweetness", "15.5", "score-off-scale" },
        { "sweetness", "high", "not-a-number" },
        { "position", "0", "number-out-of-range" },
        { "position", "2.5", "number-out-of-range" },
        { "position", "second", "not-a-number" },
        { "dose_g", "0", "number-out-of-range" },
        { "dose_g", "-15", "number-out-of-range" },
        { "dose_g", "15 beans", "unknown-unit" },
        { "dose_g", "15g + 1g", "not-a-number" },
        { "water_g", "a cup", "not-a-number" },
        { "water_temp", "201C", "temperature-over-boiling" },
        { "water_temp", "31F", "temperature-over-boiling" },
        { "water_temp", "94K", "unknown-unit" },
        { "water_temp", "boiling", "not-a-number" },
        { "water_temp", "94°", "unknown-unit" },
        { "brew_time", "3:75", "duration-not-read" },
        { "brew_time", "three minutes", "duration-not-read" },
        { "brew_time", "0", "number-out-of-range" },
        { "brew_time", "n/a", "duration-not-read" },
        { "tds_pct", "0", "number-out-of-range" },
        { "tds_pct", "135", "number-out-of-range" },
        { "frozen_on", "01/02/2025", "date-not-iso" },
        { "thawed_on", "2025-02-30", "date-impossible" },
        { "purpose", "fun", "unknown-word" },
        { "failed", "maybe", "unknown-word" },
        { "recipe_from", "internet", "unknown-word" },
        { "blind_to", "label; price", "unknown-word" },
        { "brewer", "mmm", "filler-text" },
    };

    [Theory]
    [MemberData(nameof(BadCellsOfCups))]
    public void A_bad_cell_of_a_cup_is_left_missing_and_told(string column, string written, string rule)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,{column},taster\nT0,B1,2025-03-14,,K\nT1,B1,2025-03-14,\"{written}\",K\n");

        log.AssertReport(rule, Severity.Doubtful, "tastings.csv", 3, column, written);
        Assert.Equal("T1", log.Only(rule).RowId);
        var (without, with) = (log.Tastings[0], log.Tastings[1]);
        Assert.Equal(without with { Id = "T1", Attributes = with.Attributes }, with);
        Assert.Empty(with.Attributes);
        Assert.Equal((2, 2, 1, 0), log.AccountOf("tastings.csv"));
    }

    public static TheoryData<string, string, string> BadCellsOfBags => new()
    {
        { "roast_date", "31 Aug 25", "date-not-iso" },
        { "opened_on", "?", "date-not-iso" },
        { "net_weight_g", "2 kg,lbs", "unknown-unit" },
        { "net_weight_g", "0 lbs", "number-out-of-range" },
        { "net_weight_g", "18975 kg", "number-out-of-range" },
        { "price", "-1", "number-out-of-range" },
        { "price", "18.50 in cash", "unknown-unit" },
        { "price", "EUR", "not-a-number" },
        { "price", "$18.50 USD", "unknown-unit" },
        { "decaf", "half", "unknown-word" },
        { "roast_for", "milk", "unknown-word" },
        { "obtained", "stolen", "unknown-word" },
        { "region", "mmm", "filler-text" },
        { "producer", "asdf", "filler-text" },
    };

    [Theory]
    [MemberData(nameof(BadCellsOfBags))]
    public void A_bad_cell_of_a_bag_is_left_missing_and_told(string column, string written, string rule)
    {
        var log = LogInMemory.ReadBags($"bag_id,{column},roaster\nB0,,Lantern\nB1,\"{written}\",Lantern\n");

        log.AssertReport(rule, Severity.Doubtful, "bags.csv", 3, column, written);
        var (without, with) = (log.Bags[0], log.Bags[1]);
        Assert.Equal(without.Coffee with { Id = "B1", Countries = with.Coffee.Countries }, with.Coffee);
        Assert.Equal(without with { Id = "B1", Coffee = with.Coffee }, with);
        Assert.Equal((2, 2, 1, 0), log.AccountOf("bags.csv"));
    }

    [Fact]
    public void Every_bad_cell_of_a_row_is_told_that_of_a_rejected_row_too()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,score,dose_g,position\nT1,B7,April 4th,Sample 7,x,0\n");

        Assert.Equal(
            [("bag_id", "unknown-bag", Severity.Rejected), ("dose_g", "not-a-number", Severity.Doubtful), ("position", "number-out-of-range", Severity.Doubtful),
                ("score", "not-a-number", Severity.Doubtful), ("tasted_at", "date-not-iso", Severity.Rejected)],
            log.Problems.Select(problem => (problem.Column, problem.Rule, problem.Severity)).OrderBy(problem => problem.Column, StringComparer.Ordinal));
        Assert.All(log.Problems, problem => Assert.Equal(2, problem.Line));
        Assert.Equal((1, 0, 0, 1), log.AccountOf("tastings.csv"));
    }

    [Theory]
    [InlineData("15", 15)]
    [InlineData("15.5g", 15.5)]
    [InlineData("15.5 G", 15.5)]
    [InlineData("1 oz", 28.349523125)]
    [InlineData("0.5 lb", 226.796185)]
    [InlineData("1 kg", 1000)]
    public void Grams_may_have_their_unit(string written, double grams) =>
        Assert.Equal(grams, LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,dose_g\nT1,B1,2025-03-14,{written}\n").Tastings[0].DoseGrams!.Value, 9);

    [Theory]
    [InlineData("94C", 94)]
    [InlineData("94 °C", 94)]
    [InlineData("94.5 c", 94.5)]
    [InlineData("203F", 95)]
    [InlineData("203 °F", 95)]
    [InlineData("212.4F", 100.2222222222)]
    public void A_temperature_has_its_unit(string written, double celsius) =>
        Assert.Equal(celsius, LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,water_temp\nT1,B1,2025-03-14,{written}\n").Tastings[0].WaterCelsius!.Value, 9);

    [Theory]
    [InlineData("water_temp_c", "94", 94)]
    [InlineData("water_temp_f", "203", 95)]
    [InlineData("water_temp_f", "94C", 94)]
    public void A_header_may_state_the_unit(string header, string written, double celsius) =>
        Assert.Equal(celsius, LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,{header}\nT1,B1,2025-03-14,{written}\n").Tastings[0].WaterCelsius!.Value, 9);

    [Theory]
    [InlineData("94", "88.5", 94.0, "°C")]
    [InlineData("203", "212", 95.0, "°F")]
    public void Bare_temperatures_are_read_by_the_whole_column_and_told_once(string first, string second, double celsius, string unit)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,water_temp\nT0,B1,2025-03-14,90C\nT1,B1,2025-03-14,{first}\nT2,B1,2025-03-14,{second}\n");

        Assert.Equal(celsius, log.Tastings[1].WaterCelsius!.Value, 9);
        log.AssertReport("bare-temperature", Severity.Information, "tastings.csv", 3, "water_temp", first);
        Assert.Contains($"2 temperatures have no unit; all can be {unit}", log.Only("bare-temperature").Why, StringComparison.Ordinal);
    }

    [Fact]
    public void Bare_temperatures_of_two_units_are_each_left_missing()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,water_temp\nT1,B1,2025-03-14,94\nT2,B1,2025-03-14,203\n");

        Assert.All(log.Tastings, cup => Assert.Null(cup.WaterCelsius));
        Assert.Equal([(2, "94"), (3, "203")], log.Problems.Select(problem => (problem.Line, problem.Found)));
        Assert.Equal((2, 2, 2, 0), log.AccountOf("tastings.csv"));
    }

    [Theory]
    [InlineData("3:15", 195)]
    [InlineData("03:15", 195)]
    [InlineData("75:00", 4500)]
    [InlineData("195", 195)]
    [InlineData("195.5", 195.5)]
    [InlineData("195s", 195)]
    [InlineData("3m15s", 195)]
    [InlineData("3m", 180)]
    [InlineData("3 min 15 sec", 195)]
    [InlineData("3'15\"\"", 195)]
    [InlineData("12h", 43200)]
    [InlineData("1h30m", 5400)]
    [InlineData("00:03:15", 195)]
    [InlineData("01:30:20", 5420)]
    [InlineData("3:15.25", 195.25)]
    public void Brew_times_are_read(string written, double seconds)
    {
        var log = LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,brew_time\nT1,B1,2025-03-14,\"{written}\"\n");

        Assert.Equal(TimeSpan.FromSeconds(seconds), log.Tastings[0].BrewTime);
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void Minutes_that_a_spreadsheet_made_hours_of_are_turned_back_and_told()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,brew_time\nT1,B1,2025-03-14,03:15:00\n");

        Assert.Equal(TimeSpan.FromSeconds(195), log.Tastings[0].BrewTime);
        log.AssertReport("spreadsheet-time", Severity.Information, "tastings.csv", 2, "brew_time", "03:15:00");
    }

    [Fact]
    public void A_per_cent_sign_in_a_column_of_per_cent_is_dropped() =>
        Assert.Equal(1.35, LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,tds_pct\nT1,B1,2025-03-14,1.35 %\n").Tastings[0].TdsPercent);

    [Theory]
    [InlineData("Dial in", Purpose.DialIn)]
    [InlineData("CUPPING", Purpose.Cupping)]
    [InlineData("control", Purpose.Control)]
    [InlineData("", Purpose.Verdict)]
    public void Words_of_a_closed_list_may_be_spelled_freely(string written, Purpose purpose) =>
        Assert.Equal(purpose, LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,purpose\nT1,B1,2025-03-14,{written}\n").Tastings[0].Purpose);

    [Theory]
    [InlineData("nothing", BlindTo.Nothing)]
    [InlineData("Label;coffee; BREWER", BlindTo.Label | BlindTo.Coffee | BlindTo.Brewer)]
    [InlineData("label + brewer", BlindTo.Label | BlindTo.Brewer)]
    public void Several_things_can_be_hidden(string written, BlindTo hidden) =>
        Assert.Equal(hidden, LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,blind_to\nT1,B1,2025-03-14,{written}\n").Tastings[0].BlindTo);
}
