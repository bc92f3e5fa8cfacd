namespace TastingKit.Reading;

/// <summary>What a row says of a cup, before the cup is made. It is filled again for later rows.</summary>
internal sealed class TastingRow : IKeepsWritten
{
    public string? Id { get; set; }
    public string? BagId { get; set; }
    public Moment? TastedAt { get; set; }
    public string? Taster { get; set; }
    public string? Session { get; set; }
    public int? Position { get; set; }
    public Purpose? Purpose { get; set; }
    public bool? Failed { get; set; }
    public string? Brewer { get; set; }
    public string? Filter { get; set; }
    public string? Grinder { get; set; }
    public string? Grind { get; set; }
    public string? Water { get; set; }
    public string? Recipe { get; set; }
    public string? RecipeFrom { get; set; }
    public double? DoseGrams { get; set; }
    public double? WaterGrams { get; set; }
    public double? YieldGrams { get; set; }
    public double? Ratio { get; set; }
    public double? WaterCelsius { get; set; }
    public TimeSpan? BrewTime { get; set; }
    public double? TdsPercent { get; set; }
    public DateOnly? FrozenOn { get; set; }
    public DateOnly? ThawedOn { get; set; }
    public string? CupTemperature { get; set; }
    public BlindTo? BlindTo { get; set; }
    public double? Score { get; set; }
    public IReadOnlyList<string> Notes { get; set; } = [];
    public string? GuessedProcess { get; set; }
    public string? Remark { get; set; }

    /// <summary>Values of the attributes, one a column of the file; NaN where there is none.</summary>
    public double[] Attributes { get; }

    /// <summary>Whether each scored cell, the overall score first, was a nought, something else, or empty.</summary>
    public bool?[] Noughts { get; }

    /// <summary>Cells of columns that the kit has no name for.</summary>
    public IReadOnlyDictionary<string, string> OtherColumns { get; set; } = EmptyColumns.Instance;

    /// <summary>What is written where a value was converted from another writing, by column.</summary>
    public List<KeyValuePair<string, string>> Written { get; } = [];

    /// <inheritdoc/>
    public void KeepWritten(string column, string text) => Written.Add(KeyValuePair.Create(column, text));

    /// <inheritdoc/>
    public string? WrittenOf(string column) => Written.Find(pair => pair.Key == column).Value;

    /// <summary>What the row says of its bag, in a table that holds the bags too; else <see langword="null"/>.</summary>
    public BagRow? Bag { get; private set; }

    private readonly bool _holdsBag;

    /// <summary>Makes an empty row.</summary>
    /// <param name="attributes">How many attribute columns the log has.</param>
    /// <param name="holdsBag">Whether the table holds the bags too.</param>
    public TastingRow(int attributes, bool holdsBag)
    {
        _holdsBag = holdsBag;
        Attributes = new double[attributes];
        Noughts = new bool?[attributes + 1];
        Clear();
    }

    /// <summary>Whether the row names a try-out of the form where an identifier, the taster or the notes belong.</summary>
    public bool IsTestEntry => (Id is { } id && Words.IsTest(id)) || (Taster is { } taster && Words.IsTest(taster)) || (Notes is [var only] && Words.IsTest(only));

    /// <summary>Whether the score and at least one attribute are noughts, and nothing scored is anything else.</summary>
    public bool IsNeverFilledIn => Noughts[0] == true && Noughts.Count(nought => nought == true) > 1 && !Array.Exists(Noughts, nought => nought == false);

    /// <summary>The ratio where dose and water don't make one.</summary>
    private double? StatedRatio => DoseGrams is null || WaterGrams is null ? Ratio : null;

    /// <summary>What of the row is kept apart from its cup: the given details, usually those of the row before, if they say the same.</summary>
    public TastingDetails DetailsLike(TastingDetails given, string? guessedProcess) =>
        given.Taster == Taster && given.Filter == Filter && given.Grinder == Grinder && given.RecipeFrom == RecipeFrom && given.YieldGrams == YieldGrams
        && given.TdsPercent == TdsPercent && given.FrozenOn == FrozenOn && given.ThawedOn == ThawedOn && given.CupTemperature == CupTemperature
        && given.GuessedProcess == guessedProcess && given.StatedRatio == StatedRatio && ReferenceEquals(given.OtherColumns, OtherColumns)
            ? given
            : new TastingDetails
            {
                Taster = Taster,
                Filter = Filter,
                Grinder = Grinder,
                RecipeFrom = RecipeFrom,
                YieldGrams = YieldGrams,
                TdsPercent = TdsPercent,
                FrozenOn = FrozenOn,
                ThawedOn = ThawedOn,
                CupTemperature = CupTemperature,
                GuessedProcess = guessedProcess,
                StatedRatio = StatedRatio,
                OtherColumns = OtherColumns,
            };

    /// <summary>Makes ready for the next row.</summary>
    public void Clear()
    {
        Id = BagId = Taster = Session = Brewer = Filter = Grinder = Grind = Water = Recipe = RecipeFrom = CupTemperature = GuessedProcess = Remark = null;
        (TastedAt, Position, Purpose, Failed, BrewTime, BlindTo) = (null, null, null, null, null, null);
        DoseGrams = WaterGrams = YieldGrams = Ratio = WaterCelsius = TdsPercent = Score = null;
        FrozenOn = ThawedOn = null;
        Notes = [];
        Written.Clear();
        OtherColumns = EmptyColumns.Instance;
        Bag = _holdsBag ? new BagRow() : null;
        Attributes.AsSpan().Fill(double.NaN);
        Noughts.AsSpan().Clear();
    }
}
