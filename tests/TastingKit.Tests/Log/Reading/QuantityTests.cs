namespace TastingKit.Tests.Log.Reading;

public sealed class QuantityTests
{
    [Theory]
    [InlineData("16", 16, null)]
    [InlineData("16.5", 16.5, null)]
    [InlineData("1:16", 16, null)]
    [InlineData("1 : 16.5", 16.5, null)]
    [InlineData("16:1", 16, "quantity-read-as")]
    [InlineData("62.5 g/L", 16, "quantity-read-as")]
    [InlineData("62.5g/l", 16, "quantity-read-as")]
    [InlineData("01:16:00", 16, "spreadsheet-time")]
    public void A_ratio_is_read_in_any_of_its_forms(string written, double ratio, string? rule)
    {
        var log = Cup("ratio", written);

        Assert.Equal(ratio, log.Tastings[0].Ratio!.Value, 9);
        Assert.Equal(ratio, log.Tastings[0].StatedRatio!.Value, 9);
        Assert.Equal(rule is null ? [] : [rule], log.Problems.Select(problem => problem.Rule));
    }

    [Theory]
    [InlineData("2:32", "ratio-not-read")]
    [InlineData("strong", "ratio-not-read")]
    [InlineData("1:16:30", "ratio-not-read")]
    [InlineData("0", "number-out-of-range")]
    [InlineData("1:400", "number-out-of-range")]
    [InlineData("16 oz", "ratio-not-read")]
    public void A_ratio_that_is_none_is_left_missing(string written, string rule)
    {
        var log = Cup("ratio", written);

        Assert.Null(log.Tastings[0].Ratio);
        log.AssertReport(rule, Severity.Doubtful, "tastings.csv", 2, "ratio", written);
    }

    [Fact]
    public void An_unusual_ratio_is_kept_and_doubted() =>
        Cup("ratio", "40").AssertReport("ratio-unusual", Severity.Doubtful, "tastings.csv", 2, "ratio", "40");

    [Fact]
    public void Dose_and_water_hold_against_a_ratio_that_contradicts_them()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,dose_g,water_g,ratio\nT1,B1,2025-03-14,15,240,20\nT2,B1,2025-03-15,15,250,1:17\n");

        Assert.Equal([16, 250 / 15.0], log.Tastings.Select(cup => cup.Ratio!.Value));
        Assert.All(log.Tastings, cup => Assert.Null(cup.StatedRatio));
        log.AssertReport("ratio-contradicts", Severity.Doubtful, "tastings.csv", 2, "ratio", "20");
        Assert.Single(log.Problems);
    }

    [Fact]
    public void A_stated_ratio_goes_out_and_comes_in_again()
    {
        var folder = Directory.CreateTempSubdirectory("tasting-log-");
        try
        {
            var log = Cup("ratio", "1:16");
            log.Write(folder.FullName, overwrite: true);
            Assert.Equal(16, TastingLog.Read(folder.FullName).Tastings[0].StatedRatio);
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Theory]
    [InlineData("18.50", 18.50, null, null)]
    [InlineData("18.50 EUR", 18.50, "EUR", "quantity-read-as")]
    [InlineData("eur18", 18, "EUR", "quantity-read-as")]
    [InlineData("€18.50", 18.50, "EUR", "quantity-read-as")]
    [InlineData("£ 12", 12, "GBP", "quantity-read-as")]
    [InlineData("$21", 21, "$", "quantity-read-as")]
    public void A_price_may_have_its_currency(string written, double price, string? currency, string? rule)
    {
        var log = LogInMemory.Read(("bags.csv", $"bag_id,price\nB1,{written}\n"), ("tastings.csv", "tasting_id,bag_id,tasted_at\nT1,B1,2025-03-14\n"));

        Assert.Equal(((decimal)price, currency), (log.Bags[0].Price!.Value, log.Bags[0].Currency));
        Assert.Equal(rule is null ? [] : [rule], log.Problems.Select(problem => problem.Rule));
    }

    [Theory]
    [InlineData("1,50 €", 1.5)]
    [InlineData("EUR 18,50", 18.5)]
    public void A_price_may_have_a_decimal_comma_where_the_file_does(string written, double price) =>
        Assert.Equal((decimal)price, LogInMemory.Read(("bags.csv", $"bag_id;price\nB1;{written}\n"), ("tastings.csv", "bag_id,tasted_at\n")).Bags[0].Price);

    [Fact]
    public void The_column_currency_holds_against_another_beside_the_price()
    {
        var log = LogInMemory.Read(("bags.csv", "bag_id,price,currency\nB1,18 EUR,USD\nB2,18 USD,usd\n"), ("tastings.csv", "bag_id,tasted_at\n"));

        Assert.Equal(["USD", "usd"], log.Bags.Select(bag => bag.Currency));
        log.AssertReport("currency-contradicts", Severity.Doubtful, "bags.csv", 2, "price", "18 EUR");
    }

    [Theory]
    [InlineData("water_g", "250 ml", 250)]
    [InlineData("Water (ml)", "250", 250)]
    [InlineData("water_g", "0.25 l", 250)]
    [InlineData("water_oz", "8", 226.796185)]
    public void Water_may_be_a_volume(string header, string written, double grams)
    {
        var log = Cup(header, written);

        Assert.Equal(grams, log.Tastings[0].WaterGrams!.Value, 6);
        log.AssertReport("quantity-read-as", Severity.Information, "tastings.csv", 2, header, written);
    }

    [Fact]
    public void A_dose_is_no_volume() => Cup("dose_g", "15 ml").AssertReport("unknown-unit", Severity.Doubtful, "tastings.csv", 2, "dose_g", "15 ml");

    [Theory]
    [InlineData("brew_time", "03:15:00", 195)]
    [InlineData("Brew time (min)", "3.5", 210)]
    [InlineData("Brew time (s)", "195", 195)]
    public void Brew_times_have_the_unit_of_their_header(string header, string written, double seconds) =>
        Assert.Equal(seconds, Cup(header, written).Tastings[0].BrewTime!.Value.TotalSeconds);

    private static TastingLog Cup(string header, string written) =>
        LogInMemory.ReadCups($"tasting_id,bag_id,tasted_at,{header}\nT1,B1,2025-03-14,{written}\n");
}
