namespace TastingKit.Reading;

/// <summary>The columns that say something of a bag: those of its coffee, and its own.</summary>
internal static class BagColumns
{
    private const string KeptAsWritten = " by this cell alone; its cups are kept as any others";

    private static readonly WordList<bool> YesNo = new(
        (true, ["yes", "y", "true", "1"]),
        (false, ["no", "n", "false", "0", "none"]));

    private static readonly WordList<string> RoastedFor = new(
        ("filter", ["filter", "filter coffee", "pour over"]),
        ("espresso", ["espresso"]),
        ("omni", ["omni", "both", "all"]));

    private static readonly WordList<string> ObtainedHow = new(
        ("bought", ["bought", "purchased", "paid"]),
        ("gift", ["gift", "gifted", "present"]),
        ("sample", ["sample", "press sample", "review sample"]),
        ("sponsored", ["sponsored", "sponsor", "ad"]));

    /// <summary>The bag's identifier.</summary>
    public static Column<BagRow> Id { get; } = new TextColumn<BagRow>("bag_id", TextUse.Identifier, r => r.Id, (r, v) => r.Id = v)
    {
        Required = true,
        AlsoWritten = ["bag"],
    };

    /// <summary>What all bags of one green lot share.</summary>
    public static IReadOnlyList<Column<BagRow>> OfCoffee { get; } =
    [
        new TextColumn<BagRow>("roaster", TextUse.Name, r => r.Roaster, (r, v) => r.Roaster = v) { IfTest = KeptAsWritten, AlsoWritten = ["roastery", "roasted by"] },
        new TextColumn<BagRow>("coffee", TextUse.Name, r => r.CoffeeName, (r, v) => r.CoffeeName = v) { IfTest = "; its cups stay in the log, and out of analyses of scores", AlsoWritten = ["coffee name", "name"] },
        new ListColumn<BagRow>("country", TextUse.Name, r => r.Countries, (r, v) => r.Countries = v) { AlsoWritten = ["origin", "countries", "country of origin"] },
        new TextColumn<BagRow>("region", TextUse.Name, r => r.Region, (r, v) => r.Region = v) { IfTest = KeptAsWritten },
        new TextColumn<BagRow>("producer", TextUse.Name, r => r.Producer, (r, v) => r.Producer = v) { IfTest = KeptAsWritten, AlsoWritten = ["farm", "station"] },
        new TextColumn<BagRow>("lot", TextUse.Identifier, r => r.Lot, (r, v) => r.Lot = v),
        new TextColumn<BagRow>("harvest", TextUse.Name, r => r.Harvest, (r, v) => r.Harvest = v) { AlsoWritten = ["harvest year", "crop year"] },
        new TextColumn<BagRow>("variety", TextUse.Name, r => r.Variety, (r, v) => r.Variety = v) { AlsoWritten = ["varietal", "varieties", "cultivar"] },
        new TextColumn<BagRow>("process", TextUse.Name, r => r.Process, (r, v) => r.Process = v) { AlsoWritten = ["processing", "processing method"] },
        new TextColumn<BagRow>("fermentation", TextUse.Name, r => r.Fermentation, (r, v) => r.Fermentation = v) { NoneIsAnAnswer = true },
        new TextColumn<BagRow>("added", TextUse.Name, r => r.Added, (r, v) => r.Added = v) { NoneIsAnAnswer = true, AlsoWritten = ["additions"] },
        new ValueColumn<BagRow, bool>("decaf", YesNo.Judge, r => r.Decaf, (r, v) => r.Decaf = v) { IsOwn = YesNo.IsOwn, AlsoWritten = ["decaffeinated"] },
    ];

    /// <summary>What belongs to the bag alone, its identifier and that of its coffee left out.</summary>
    public static IReadOnlyList<Column<BagRow>> OfBag { get; } =
    [
        new TextColumn<BagRow>("roast_level", TextUse.Name, r => r.RoastLevel, (r, v) => r.RoastLevel = v),
        new WordColumn<BagRow>("roast_for", RoastedFor, r => r.RoastFor, (r, v) => r.RoastFor = v) { IsOwn = RoastedFor.IsOwn },
        new ValueColumn<BagRow, DateOnly>("roast_date", DateText.JudgeDay, r => r.RoastDate, (r, v) => r.RoastDate = v) { IsOwn = OwnWriting.Day, AlsoWritten = ["roasted on", "roasted", "roasted at"] },
        new ValueColumn<BagRow, DateOnly>("opened_on", DateText.JudgeDay, r => r.OpenedOn, (r, v) => r.OpenedOn = v) { IsOwn = OwnWriting.Day, AlsoWritten = ["opened", "open date"] },
        new ValueColumn<BagRow, double>("net_weight_g", QuantityText.JudgeGrams, r => r.NetWeightGrams, (r, v) => r.NetWeightGrams = v)
        {
            IsOwn = OwnWriting.Number,
            AlsoWritten = ["net weight", "weight", "weight_g", "bag size", new("net_weight_oz", "oz"), new("net_weight_kg", "kg"), new("net_weight_lb", "lb")],
        },
        new ValueColumn<BagRow, WrittenPrice>("price", PriceText.Judge, r => r.Price, (r, v) => r.Price = v) { IsOwn = OwnWriting.Price },
        new TextColumn<BagRow>("currency", TextUse.Name, r => r.Currency, (r, v) => r.Currency = v),
        new WordColumn<BagRow>("obtained", ObtainedHow, r => r.Obtained, (r, v) => r.Obtained = v) { IsOwn = ObtainedHow.IsOwn, AlsoWritten = ["how obtained"] },
    ];

    /// <summary>The identifier of the green lot.</summary>
    public static Column<BagRow> CoffeeId { get; } = new TextColumn<BagRow>("coffee_id", TextUse.Identifier, r => r.CoffeeId, (r, v) => r.CoffeeId = v);

    /// <summary>All of them, in the order of the canonical file.</summary>
    public static IReadOnlyList<Column<BagRow>> All { get; } = [Id, CoffeeId, .. OfCoffee, .. OfBag];
}
