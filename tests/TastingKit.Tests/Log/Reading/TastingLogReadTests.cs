namespace TastingKit.Tests.Log.Reading;

public sealed class TastingLogReadTests
{
    private const string Bags =
        "bag_id,coffee_id,roaster,coffee,country,region,producer,lot,harvest,variety,process,fermentation,added,decaf,roast_level,roast_for,roast_date,opened_on,net_weight_g,price,currency,obtained,shelf\n"
        + "B1,C1,Lantern Roasting,Aponte Ridge,Guatemala; Honduras,Tierra Alta,Station Aponte,12,2024/25,Caturra,washed,anaerobic,orange peel,no,light,filter,2025-03-01,2025-03-08,250,18.50,EUR,bought,top\n";

    private const string Tastings =
        "tasting_id,bag_id,tasted_at,taster,session,position,purpose,failed,brewer,filter,grinder,grind,water,recipe,recipe_from,dose_g,water_g,yield_g,water_temp,brew_time,tds_pct,frozen_on,thawed_on,cup_temp,blind_to,score,aroma,acidity,sweetness,bitterness,body,clarity,aftertaste,notes,guess_process,remark,mood\n"
        + "T1,B1,2025-03-14T08:30,K,S1,2,dial-in,yes,cone dripper,paper,hand grinder,24,soft,house 1,house,15,250,221.5,94C,3:15,1.35,2025-03-03,2025-03-06,60C,label; coffee,7.5,8,9.5,7,3,6,10,8,\"apricot; black tea; ;honey\",natural,\"a remark, private\",good\n";

    [Fact]
    public void Every_column_of_a_bag_is_read()
    {
        var log = LogInMemory.Read(("bags.csv", Bags), ("tastings.csv", Tastings));

        var bag = Assert.Single(log.Bags);
        Assert.Equal("B1", bag.Id);
        Assert.Equal(
            ("C1", "Lantern Roasting", "Aponte Ridge", "Tierra Alta", "Station Aponte", "12", "2024/25", "Caturra", "washed", "anaerobic", "orange peel", false),
            (bag.Coffee.Id, bag.Coffee.Roaster, bag.Coffee.Name, bag.Coffee.Region, bag.Coffee.Producer, bag.Coffee.Lot, bag.Coffee.Harvest,
                bag.Coffee.Variety, bag.Coffee.Process, bag.Coffee.Fermentation, bag.Coffee.Added, bag.Coffee.Decaf));
        Assert.Equal(["Guatemala", "Honduras"], bag.Coffee.Countries);
        Assert.Equal(("light", "filter", new DateOnly(2025, 3, 1), new DateOnly(2025, 3, 8)), (bag.RoastLevel, bag.RoastFor, bag.RoastDate, bag.OpenedOn));
        Assert.Equal((250.0, 18.50m, "EUR", "bought"), (bag.NetWeightGrams, bag.Price, bag.Currency, bag.Obtained));
        Assert.Equal("top", Assert.Single(bag.OtherColumns, pair => pair.Key == "shelf").Value);
        Assert.Empty(log.Problems);
    }

    [Fact]
    public void Every_column_of_a_cup_is_read()
    {
        var log = LogInMemory.Read(("bags.csv", Bags), ("tastings.csv", Tastings));

        var cup = Assert.Single(log.Tastings);
        Assert.Same(log.Bags[0], cup.Bag);
        Assert.Equal(("T1", new DateTime(2025, 3, 14, 8, 30, 0), true, "K", "S1", 2), (cup.Id, cup.TastedAt, cup.HasTimeOfDay, cup.Taster, cup.Session, cup.Position));
        Assert.Equal((Purpose.DialIn, true, "cone dripper", "paper", "hand grinder", "24"), (cup.Purpose, cup.Failed, cup.Brewer, cup.Filter, cup.Grinder, cup.Grind));
        Assert.Equal(("soft", "house 1", "house", 15.0, 250.0, 221.5), (cup.Water, cup.Recipe, cup.RecipeFrom, cup.DoseGrams, cup.WaterGrams, cup.YieldGrams));
        Assert.Equal((94.0, TimeSpan.FromSeconds(195), 1.35, "60C"), (cup.WaterCelsius, cup.BrewTime, cup.TdsPercent, cup.CupTemperature));
        Assert.Equal((new DateOnly(2025, 3, 3), new DateOnly(2025, 3, 6), BlindTo.Label | BlindTo.Coffee), (cup.FrozenOn, cup.ThawedOn, cup.BlindTo));
        Assert.Equal(7.5, cup.Score);
        Assert.Equal(
            [("aroma", 8), ("acidity", 9.5), ("sweetness", 7), ("bitterness", 3), ("body", 6), ("clarity", 10), ("aftertaste", 8)],
            cup.Attributes.Select(pair => (pair.Key.Name, pair.Value)));
        Assert.Equal(["apricot", "black tea", "honey"], cup.Notes);
        Assert.Equal(("natural", "a remark, private"), (cup.GuessedProcess, cup.Remark));
        Assert.Equal("good", Assert.Single(cup.OtherColumns, pair => pair.Key == "mood").Value);
        Assert.Equal(10, cup.RestDays);
        Assert.Equal([(1, 1, 0, 0), (1, 1, 0, 0)], [log.AccountOf("bags.csv"), log.AccountOf("tastings.csv")]);
    }

    [Fact]
    public void One_table_holds_cups_and_bags()
    {
        var log = LogInMemory.Read(("year.csv",
            "tasted_at,bag_id,coffee,roaster,roast_date,score\n"
            + "2025-03-10,B1,Aponte Ridge,Lantern Roasting,,6\n"
            + "2025-03-12,B1,Aponte Ridge,,2025-03-01,7\n"
            + "2025-03-12,B2,Cielo,Lantern Roasting,2025-03-02,5\n"));

        Assert.Equal(["B1", "B2"], log.Bags.Select(bag => bag.Id));
        Assert.Equal(("Aponte Ridge (Lantern Roasting)", new DateOnly(2025, 3, 1)), (log.Bags[0].Coffee.Label, log.Bags[0].RoastDate));
        Assert.Equal([9, 11, 10], log.Tastings.Select(cup => cup.RestDays));
        Assert.All(log.Tastings, cup => Assert.Contains(cup.Bag, log.Bags));
        Assert.Equal((3, 3, 0, 0), log.AccountOf("year.csv"));
    }

    [Fact]
    public void What_one_table_says_of_a_bag_holds_from_its_first_row()
    {
        var log = LogInMemory.Read(("year.csv", "tasted_at,bag_id,process\n2025-03-10,B1,washed\n2025-03-12,B1,natural\n"));

        Assert.Equal("washed", log.Bags[0].Coffee.Process);
        log.AssertReport("bag-contradicts", Severity.Doubtful, "year.csv", 3, "process", "natural");
    }

    [Fact]
    public void A_folder_on_disk_is_read_and_named()
    {
        var folder = Directory.CreateTempSubdirectory("tasting-log-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "Bags.CSV"), Bags);
            File.WriteAllText(Path.Combine(folder.FullName, "tastings.csv"), Tastings);

            var log = TastingLog.Read(folder.FullName);

            Assert.Equal(folder.Name, log.Name);
            Assert.Single(log.Tastings);
            Assert.Empty(log.Problems);
            Assert.Equal(["Bags.CSV", "tastings.csv"], log.Accounts.Select(account => account.File));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }

    [Fact]
    public void Reading_can_be_cancelled()
    {
        var folder = Directory.CreateTempSubdirectory("tasting-log-");
        try
        {
            File.WriteAllText(Path.Combine(folder.FullName, "bags.csv"), Bags);
            File.WriteAllText(Path.Combine(folder.FullName, "tastings.csv"), Tastings);

            Assert.Throws<OperationCanceledException>(() => TastingLog.Read(folder.FullName, new CancellationToken(canceled: true)));
        }
        finally
        {
            folder.Delete(recursive: true);
        }
    }
}
