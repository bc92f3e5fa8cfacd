namespace TastingKit.Reading;

/// <summary>What a row says of a bag and its coffee, before both are made.</summary>
internal sealed class BagRow : IKeepsWritten
{
    public string? Id { get; set; }
    public string? CoffeeId { get; set; }
    public string? Roaster { get; set; }
    public string? CoffeeName { get; set; }
    public IReadOnlyList<string> Countries { get; set; } = [];
    public string? Region { get; set; }
    public string? Producer { get; set; }
    public string? Lot { get; set; }
    public string? Harvest { get; set; }
    public string? Variety { get; set; }
    public string? Process { get; set; }
    public string? Fermentation { get; set; }
    public string? Added { get; set; }
    public bool? Decaf { get; set; }
    public string? RoastLevel { get; set; }
    public string? RoastFor { get; set; }
    public DateOnly? RoastDate { get; set; }
    public DateOnly? OpenedOn { get; set; }
    public double? NetWeightGrams { get; set; }
    public WrittenPrice? Price { get; set; }
    public string? Currency { get; set; }
    public string? Obtained { get; set; }
    public IReadOnlyDictionary<string, string> OtherColumns { get; set; } = EmptyColumns.Instance;

    /// <summary>What is written where a value was converted from another writing, by column.</summary>
    public IReadOnlyDictionary<string, string> AsWritten { get; private set; } = EmptyColumns.Instance;

    /// <inheritdoc/>
    public void KeepWritten(string column, string text) =>
        AsWritten = new WrittenTexts([.. AsWritten.Where(pair => pair.Key != column), KeyValuePair.Create(column, text)]);

    /// <inheritdoc/>
    public string? WrittenOf(string column) => AsWritten.GetValueOrDefault(column);

    /// <summary>The line of the file the row begins on.</summary>
    public int Line { get; set; }

    /// <summary>Whether the row names a try-out of the form where the coffee's name belongs.</summary>
    public bool IsTestEntry => CoffeeName is { } name && Words.IsTest(name);

    /// <summary>The green lot, under the bag's own identifier where none is written.</summary>
    public Coffee ToCoffee() => new()
    {
        Id = CoffeeId ?? Id!,
        Name = CoffeeName,
        Roaster = Roaster,
        Countries = Countries,
        Region = Region,
        Producer = Producer,
        Lot = Lot,
        Harvest = Harvest,
        Variety = Variety,
        Process = Process,
        Fermentation = Fermentation,
        Added = Added,
        Decaf = Decaf,
    };

    /// <summary>The bag, of a coffee already made.</summary>
    public Bag ToBag(Coffee coffee) => new()
    {
        Id = Id!,
        Coffee = coffee,
        RoastLevel = RoastLevel,
        RoastFor = RoastFor,
        RoastDate = RoastDate,
        OpenedOn = OpenedOn,
        NetWeightGrams = NetWeightGrams,
        Price = Price?.Amount,
        Currency = Currency ?? Price?.Currency,
        Obtained = Obtained,
        IsTestEntry = IsTestEntry,
        OtherColumns = OtherColumns,
        AsWritten = AsWritten,
    };
}
