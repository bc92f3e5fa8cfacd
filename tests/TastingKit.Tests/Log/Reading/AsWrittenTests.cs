namespace TastingKit.Tests.Log.Reading;

/// <summary>The text that a value was converted from stands beside the value.</summary>
public sealed class AsWrittenTests
{
    [Theory]
    [InlineData("water_temp", "201.2F")]
    [InlineData("water_temp", "94 °C")]
    [InlineData("ratio", "1:16")]
    [InlineData("ratio", "62.5 g/L")]
    [InlineData("dose_g", "18 g")]
    [InlineData("dose_g", "0.6 oz")]
    [InlineData("water_g", "250 ml")]
    [InlineData("brew_time", "195")]
    [InlineData("brew_time", "3m15s")]
    [InlineData("brew_time", "03:15:00")]
    [InlineData("tds_pct", "1.35%")]
    [InlineData("frozen_on", "2 March 2025")]
    [InlineData("tasted_at", "25/03/2025")]
    [InlineData("tasted_at", "2025-03-25T08:30+02:00")]
    [InlineData("purpose", "Review")]
    [InlineData("failed", "x")]
    [InlineData("recipe_from", "mine")]
    [InlineData("blind_to", "Label + coffee")]
    public void A_converted_value_keeps_its_text(string column, string text)
    {
        var log = Read(column, text);

        Assert.Equal([KeyValuePair.Create(column, text)], log.Tastings[0].AsWritten);
        // A second cup that writes the same shares it.
        Assert.Same(log.Tastings[0].AsWritten, log.Tastings[1].AsWritten);
        Assert.Equal(text, log.Tastings[1].AsWritten[column]);
        Assert.False(log.Tastings[1].AsWritten.ContainsKey("grind"));
    }

    [Theory]
    [InlineData("water_temp", "94C")]
    [InlineData("ratio", "16")]
    [InlineData("dose_g", "18.0")]
    [InlineData("brew_time", "3:15")]
    [InlineData("tasted_at", "2025-03-25")]
    [InlineData("tasted_at", "2025-03-25T08:30")]
    [InlineData("frozen_on", "2025-03-02")]
    [InlineData("purpose", "dial-in")]
    [InlineData("failed", "yes")]
    [InlineData("recipe_from", "roaster")]
    [InlineData("blind_to", "label; coffee")]
    [InlineData("score", "7.0")]
    public void A_value_in_the_kit_s_own_writing_needs_none(string column, string text) => Assert.Empty(Read(column, text).Tastings[0].AsWritten);

    [Fact]
    public void A_bag_keeps_its_words_too_and_takes_over_those_of_a_later_row()
    {
        var bag = LogInMemory.ReadBags("bag_id,coffee,decaf,obtained,roast_for\nB1,Halo,Y,Purchased,\nB1,Halo,Y,Purchased,pour over\nB2,Mist,no,gift,filter\n").Bags;

        Assert.Equal([("decaf", "Y"), ("obtained", "Purchased"), ("roast_for", "pour over")], bag[0].AsWritten.Select(pair => (pair.Key, pair.Value)).Order());
        Assert.Empty(bag[1].AsWritten);
    }

    [Fact]
    public void Words_and_quantities_stand_beside_one_another()
    {
        var log = LogInMemory.ReadCups("tasting_id,bag_id,tasted_at,dose_g,guess_process,notes\nT1,B1,2025-03-25,18 g,Washed Process,apricots; tea\n");

        Assert.Equal(["dose_g", "guess_process", "notes"], log.Tastings[0].AsWritten.Keys.Order());
        Assert.Equal("apricots; tea", log.Tastings[0].AsWritten["notes"]);
    }

    [Fact]
    public void A_decimal_comma_is_how_its_file_writes()
    {
        var log = LogInMemory.ReadCups("tasting_id;bag_id;tasted_at;dose_g;water_temp\nT1;B1;2025-03-25;15,5;94,5C\n");

        Assert.Equal(15.5, log.Tastings[0].DoseGrams);
        Assert.Empty(log.Tastings[0].AsWritten);
    }

    [Fact]
    public void A_bag_keeps_the_texts_of_its_own_values_and_of_those_filled_in_from_later_rows()
    {
        var log = LogInMemory.Read(("cups.csv", "bag_id,tasted_at,coffee,roast_date,net_weight_g,price\nB1,2025-03-25,Halo,3 March 2025,,€18.50\nB1,2025-03-26,Halo,2025-03-03,8.8 oz,18.50\n"));

        Assert.Equal(
            [("net_weight_g", "8.8 oz"), ("price", "€18.50"), ("roast_date", "3 March 2025")],
            log.Bags[0].AsWritten.Select(pair => (pair.Key, pair.Value)).Order());
        Assert.All(log.Tastings, cup => Assert.Same(log.Bags[0], cup.Bag));
    }

    private static TastingLog Read(string column, string text)
    {
        var tastedAt = column == "tasted_at" ? "" : ",tasted_at";
        var day = column == "tasted_at" ? "" : ",2025-03-25";
        return LogInMemory.ReadCups($"tasting_id,bag_id,{column}{tastedAt}\nT1,B1,{text}{day}\nT2,B1,{text}{day}\n");
    }
}
