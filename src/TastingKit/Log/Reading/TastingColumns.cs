namespace TastingKit.Reading;

/// <summary>The columns that say something of a cup.</summary>
internal static class TastingColumns
{
    private static readonly WordList<bool> YesNo = new(
        (true, ["yes", "y", "true", "1", "x"]),
        (false, ["no", "n", "false", "0"]));

    private static readonly WordList<Purpose> Purposes = new(
        (Purpose.Verdict, ["verdict", "review"]),
        (Purpose.DialIn, ["dial-in", "dialling in", "dialing in", "dialed in"]),
        (Purpose.Control, ["control"]),
        (Purpose.Cupping, ["cupping", "cupped"]));

    private static readonly WordList<string> RecipeSources = new(
        ("house", ["house", "own", "mine"]),
        ("roaster", ["roaster", "roaster's"]),
        ("other", ["other"]));

    private static readonly WordList<BlindTo> Hidden = new(
        (BlindTo.Nothing, ["nothing", "none", "no"]),
        (BlindTo.Label, ["label"]),
        (BlindTo.Coffee, ["coffee"]),
        (BlindTo.Brewer, ["brewer"]));

    private static readonly Dictionary<TastingAttribute, IReadOnlyList<Alias>> AttributeAliases = new()
    {
        [TastingAttribute.Score] = ["overall", "overall score", "rating"],
        [TastingAttribute.Aroma] = ["fragrance"],
        [TastingAttribute.Body] = ["mouthfeel"],
        [TastingAttribute.Clarity] = ["clean cup", "cleanliness"],
        [TastingAttribute.Aftertaste] = ["finish"],
    };

    /// <summary>The columns of a log, in the order of the canonical file.</summary>
    /// <param name="scales">The scales that the log states.</param>
    /// <param name="attributes">The attributes that have a column; their order is that of <see cref="TastingRow.Attributes"/>.</param>
    public static IReadOnlyList<Column<TastingRow>> For(IReadOnlyDictionary<TastingAttribute, Scale> scales, IReadOnlyList<TastingAttribute> attributes) =>
    [
        .. BeforeScores,
        ScoreOf(TastingAttribute.Score, scales, -1),
        .. attributes.Select((attribute, index) => ScoreOf(attribute, scales, index)),
        .. AfterScores,
    ];

    /// <summary>The attribute that a name means, be it one of the field's other words for it.</summary>
    public static TastingAttribute AttributeNamed(string written)
    {
        var folded = Words.Folded(written);
        foreach (var (attribute, aliases) in AttributeAliases)
        {
            if (folded == Words.Folded(attribute.Name) || aliases.Any(alias => Words.Folded(alias.Header) == folded))
                return attribute;
        }

        return TastingAttribute.Named(written);
    }

    /// <summary>The bag's identifier, as a cup refers to it.</summary>
    public static Column<TastingRow> BagId { get; } = new TextColumn<TastingRow>("bag_id", TextUse.Identifier, r => r.BagId, (r, v) => r.BagId = v)
    {
        Required = true,
        AlsoWritten = ["bag"],
    };

    private static IReadOnlyList<Column<TastingRow>> BeforeScores { get; } =
    [
        new TextColumn<TastingRow>("tasting_id", TextUse.Identifier, r => r.Id, (r, v) => r.Id = v) { AlsoWritten = ["cup id", "id"] },
        BagId,
        new ValueColumn<TastingRow, Moment>("tasted_at", DateText.JudgeMoment, r => r.TastedAt, (r, v) => r.TastedAt = v)
        {
            Required = true,
            IsOwn = OwnWriting.Moment,
            AlsoWritten = ["tasted on", "tasted", "date", "brew date", "brewed at", "brewed on", "tasting date"],
        },
        Name("taster", r => r.Taster, (r, v) => r.Taster = v),
        Name("session", r => r.Session, (r, v) => r.Session = v),
        new ValueColumn<TastingRow, int>("position", JudgePosition, r => r.Position, (r, v) => r.Position = v),
        new ValueColumn<TastingRow, Purpose>("purpose", Purposes.Judge, r => r.Purpose, (r, v) => r.Purpose = v) { IsOwn = Purposes.IsOwn },
        new ValueColumn<TastingRow, bool>("failed", YesNo.Judge, r => r.Failed, (r, v) => r.Failed = v) { IsOwn = YesNo.IsOwn },
        Name("brewer", r => r.Brewer, (r, v) => r.Brewer = v, "method", "brew method", "brewing method", "device"),
        Name("filter", r => r.Filter, (r, v) => r.Filter = v),
        Name("grinder", r => r.Grinder, (r, v) => r.Grinder = v),
        Name("grind", r => r.Grind, (r, v) => r.Grind = v, "grind setting", "grind size"),
        Name("water", r => r.Water, (r, v) => r.Water = v),
        Name("recipe", r => r.Recipe, (r, v) => r.Recipe = v),
        new WordColumn<TastingRow>("recipe_from", RecipeSources, r => r.RecipeFrom, (r, v) => r.RecipeFrom = v) { IsOwn = RecipeSources.IsOwn },
        Grams("dose_g", r => r.DoseGrams, (r, v) => r.DoseGrams = v, "dose", new Alias("dose_oz", "oz")),
        new ValueColumn<TastingRow, double>("water_g", QuantityText.JudgeWater, r => r.WaterGrams, (r, v) => r.WaterGrams = v)
        {
            IsOwn = OwnWriting.Number,
            AlsoWritten = ["water weight", "brew water", new("water_ml", "ml"), new("water_oz", "oz")],
        },
        new ValueColumn<TastingRow, double>("ratio", RatioText.Judge, r => r.Ratio, (r, v) => r.Ratio = v)
        {
            IsOwn = OwnWriting.Number,
            AlsoWritten = ["brew ratio", "water to coffee", new("ratio_g_per_l", "g/L"), new("g/L", "g/L"), new("dose g/L", "g/L")],
        },
        Grams("yield_g", r => r.YieldGrams, (r, v) => r.YieldGrams = v, "yield", "beverage weight"),
        new ValueColumn<TastingRow, double>("water_temp", QuantityText.JudgeTemperature, r => r.WaterCelsius, (r, v) => r.WaterCelsius = v)
        {
            IsOwn = OwnWriting.Celsius,
            AlsoWritten = ["temperature", "temp", "water temperature", "brew temp", new("water_temp_c", "C"), new("temp_c", "C"), new("water_temp_f", "F"), new("temp_f", "F")],
        },
        new ValueColumn<TastingRow, TimeSpan>("brew_time", DurationText.Judge, r => r.BrewTime, (r, v) => r.BrewTime = v)
        {
            IsOwn = OwnWriting.Clock,
            AlsoWritten = ["total time", "brew_time_s", new("brew_time_min", "min")],
        },
        new ValueColumn<TastingRow, double>("tds_pct", JudgeTds, r => r.TdsPercent, (r, v) => r.TdsPercent = v) { IsOwn = OwnWriting.Number, AlsoWritten = ["tds", "strength"] },
        new ValueColumn<TastingRow, DateOnly>("frozen_on", DateText.JudgeDay, r => r.FrozenOn, (r, v) => r.FrozenOn = v) { IsOwn = OwnWriting.Day, AlsoWritten = ["frozen"] },
        new ValueColumn<TastingRow, DateOnly>("thawed_on", DateText.JudgeDay, r => r.ThawedOn, (r, v) => r.ThawedOn = v) { IsOwn = OwnWriting.Day, AlsoWritten = ["thawed"] },
        Name("cup_temp", r => r.CupTemperature, (r, v) => r.CupTemperature = v, "cup temperature"),
        new ValueColumn<TastingRow, BlindTo>("blind_to", JudgeBlind, r => r.BlindTo, (r, v) => r.BlindTo = v) { IsOwn = IsOwnBlind },
    ];

    private static IReadOnlyList<Column<TastingRow>> AfterScores { get; } =
    [
        new ListColumn<TastingRow>("notes", TextUse.Free, r => r.Notes, (r, v) => r.Notes = v)
        {
            AlsoWritten = ["tasting notes", "flavour notes", "flavor notes", "flavours", "flavors", "note"],
        },
        Name("guess_process", r => r.GuessedProcess, (r, v) => r.GuessedProcess = v, "guessed process"),
        new TextColumn<TastingRow>("remark", TextUse.Free, r => r.Remark, (r, v) => r.Remark = v) { AlsoWritten = ["remarks", "comment", "comments"] },
    ];

    private static ScoreColumn ScoreOf(TastingAttribute attribute, IReadOnlyDictionary<TastingAttribute, Scale> scales, int index) =>
        new(scales.GetValueOrDefault(attribute) ?? Scale.Default(attribute), scales.ContainsKey(attribute), index)
        {
            AlsoWritten = AttributeAliases.GetValueOrDefault(attribute) ?? [],
        };

    private static TextColumn<TastingRow> Name(string name, Func<TastingRow, string?> get, Action<TastingRow, string> set, params Alias[] alsoWritten) =>
        new(name, TextUse.Name, get, set) { AlsoWritten = alsoWritten };

    private static ValueColumn<TastingRow, double> Grams(string name, Func<TastingRow, double?> get, Action<TastingRow, double> set, params Alias[] alsoWritten) =>
        new(name, QuantityText.JudgeGrams, get, set) { IsOwn = OwnWriting.Number, AlsoWritten = alsoWritten };

    private static Judged<int> JudgePosition(Cell cell)
    {
        const string Expected = "a whole number from 1 such as 3";
        var judged = NumberText.Judge(cell, Expected);
        if (judged.Fault is { } fault)
            return fault;
        return judged.Value is >= 1 and <= 100_000 && judged.Value == Math.Floor(judged.Value)
            ? (int)judged.Value
            : new CellFault(Rule.NumberOutOfRange, "A place in a session is a whole number from 1.", Expected);
    }

    private static Judged<double> JudgeTds(Cell cell)
    {
        const string Expected = "per cent of dissolved solids above 0 and not over 30 such as 1.35";
        var judged = NumberText.Judge(cell, Expected, dropPercent: true);
        if (judged.Fault is { } fault)
            return fault;
        return judged.Value is > 0 and <= 30
            ? judged.Value
            : new CellFault(Rule.NumberOutOfRange, "A beverage holds more than 0 and at most 30 per cent of dissolved solids.", Expected);
    }

    private static bool IsOwnBlind(Cell cell, BlindTo hidden)
    {
        var rest = cell.Utf8;
        while (!rest.IsEmpty)
        {
            var end = rest.IndexOf((byte)';');
            var word = Cell.Trim(end < 0 ? rest : rest[..end]);
            if (Hidden.Judge(word) is not { Fault: null, Value: var one } || !Hidden.IsOwn(word, one))
                return false;
            rest = end < 0 ? [] : rest[(end + 1)..];
        }

        return true;
    }

    private static Judged<BlindTo> JudgeBlind(Cell cell)
    {
        var hidden = BlindTo.Nothing;
        var rest = cell.Utf8;
        while (!rest.IsEmpty)
        {
            var end = rest.IndexOfAny((byte)';', (byte)'+');
            var judged = Hidden.Judge(end < 0 ? rest : rest[..end]);
            if (judged.Fault is { } fault)
                return fault;
            hidden |= judged.Value;
            rest = end < 0 ? [] : rest[(end + 1)..];
        }

        return hidden;
    }
}
