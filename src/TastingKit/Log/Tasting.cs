using System.Collections.ObjectModel;
using TastingKit.Reading;

namespace TastingKit;

/// <summary>One cup: what was brewed, how, when, and what the taster said of it.</summary>
public sealed record Tasting
{
    // A log may hold a million cups, most of which leave most columns empty: numbers are kept as NaN where they are missing, small ones narrow,
    // and what is seldom filled in, or seldom changes from cup to cup, stands apart, shared by the cups that have it in common.
    private readonly TastingDetails _details = TastingDetails.None;
    private readonly double _doseGrams = double.NaN;
    private readonly double _waterGrams = double.NaN;
    private readonly double _waterCelsius = double.NaN;
    private readonly double _score = double.NaN;
    private readonly long _brewTicks = long.MinValue;
    private readonly int _position = int.MinValue;
    private readonly byte _purpose;
    private readonly byte _blindTo;
    private readonly bool _isTestEntry;
    private readonly object _attributes = ReadOnlyDictionary<TastingAttribute, double>.Empty;
    private readonly int _startOfAttributes;

    /// <summary>The cup's identifier, unique within a log.</summary>
    public required string Id { get; init; }

    /// <summary>The bag it was brewed from.</summary>
    public required Bag Bag { get; init; }

    /// <summary>When it was tasted, by the wall clock where the taster was; midnight where only the day is known.</summary>
    public required DateTime TastedAt { get; init; }

    /// <summary>Whether <see cref="TastedAt"/> carries a time of day and not the day alone.</summary>
    public bool HasTimeOfDay { get; init; }

    /// <summary>Who tasted.</summary>
    public string? Taster
    {
        get => _details.Taster;
        init => _details = value == _details.Taster ? _details : _details with { Taster = value };
    }

    /// <summary>The sitting the cup belongs to, as written.</summary>
    public string? Session { get; init; }

    /// <summary>The sitting by its day, so that a "morning" of each day is one of its own; nothing where the log tells none.</summary>
    internal string? Sitting => Session is null ? null : $"{TastedOn:O} {Session}";

    /// <summary>The cup's place within its session, from 1.</summary>
    public int? Position
    {
        get => _position == int.MinValue ? null : _position;
        init => _position = value ?? int.MinValue;
    }

    /// <summary>Why it was brewed.</summary>
    public Purpose Purpose
    {
        get => (Purpose)_purpose;
        init => _purpose = (byte)value;
    }

    /// <summary>Whether the brew went wrong and says nothing of the coffee.</summary>
    public bool Failed { get; init; }

    /// <summary>The brewer, in the vocabulary's form where it has one.</summary>
    public string? Brewer { get; init; }

    /// <summary>The filter, as written.</summary>
    public string? Filter
    {
        get => _details.Filter;
        init => _details = value == _details.Filter ? _details : _details with { Filter = value };
    }

    /// <summary>The grinder, as written.</summary>
    public string? Grinder
    {
        get => _details.Grinder;
        init => _details = value == _details.Grinder ? _details : _details with { Grinder = value };
    }

    /// <summary>The grind setting as written; only comparable within one grinder.</summary>
    public string? Grind { get; init; }

    /// <summary>The brewing water, as written.</summary>
    public string? Water { get; init; }

    /// <summary>The recipe's name.</summary>
    public string? Recipe { get; init; }

    /// <summary>Whose recipe it is: house, roaster or other.</summary>
    public string? RecipeFrom
    {
        get => _details.RecipeFrom;
        init => _details = value == _details.RecipeFrom ? _details : _details with { RecipeFrom = value };
    }

    /// <summary>Dose of ground coffee in grams.</summary>
    public double? DoseGrams
    {
        get => double.IsNaN(_doseGrams) ? null : _doseGrams;
        init => _doseGrams = value ?? double.NaN;
    }

    /// <summary>Brewing water in grams.</summary>
    public double? WaterGrams
    {
        get => double.IsNaN(_waterGrams) ? null : _waterGrams;
        init => _waterGrams = value ?? double.NaN;
    }

    /// <summary>Beverage in grams.</summary>
    public double? YieldGrams
    {
        get => _details.YieldGrams;
        init => _details = value == _details.YieldGrams ? _details : _details with { YieldGrams = value };
    }

    /// <summary>Temperature of the brewing water in degrees Celsius.</summary>
    public double? WaterCelsius
    {
        get => double.IsNaN(_waterCelsius) ? null : _waterCelsius;
        init => _waterCelsius = value ?? double.NaN;
    }

    /// <summary>Brew time.</summary>
    public TimeSpan? BrewTime
    {
        get => _brewTicks == long.MinValue ? null : TimeSpan.FromTicks(_brewTicks);
        init => _brewTicks = value?.Ticks ?? long.MinValue;
    }

    /// <summary>Total dissolved solids of the beverage in per cent.</summary>
    public double? TdsPercent
    {
        get => _details.TdsPercent;
        init => _details = value == _details.TdsPercent ? _details : _details with { TdsPercent = value };
    }

    /// <summary>Day the dose went into the freezer.</summary>
    public DateOnly? FrozenOn
    {
        get => _details.FrozenOn;
        init => _details = value == _details.FrozenOn ? _details : _details with { FrozenOn = value };
    }

    /// <summary>Day the dose came out of the freezer.</summary>
    public DateOnly? ThawedOn
    {
        get => _details.ThawedOn;
        init => _details = value == _details.ThawedOn ? _details : _details with { ThawedOn = value };
    }

    /// <summary>Temperature of the cup when scored, as written.</summary>
    public string? CupTemperature
    {
        get => _details.CupTemperature;
        init => _details = value == _details.CupTemperature ? _details : _details with { CupTemperature = value };
    }

    /// <summary>What the taster did not know.</summary>
    public BlindTo BlindTo
    {
        get => (BlindTo)_blindTo;
        init => _blindTo = (byte)value;
    }

    /// <summary>The overall score, on the log's scale for it; <see langword="null"/> where the cup was not scored.</summary>
    public double? Score
    {
        get => double.IsNaN(_score) ? null : _score;
        init => _score = value ?? double.NaN;
    }

    /// <summary>The attributes that were scored, the overall score left out.</summary>
    public IReadOnlyDictionary<TastingAttribute, double> Attributes
    {
        get => _attributes is AttributeRoom room ? new AttributeValues(room, _startOfAttributes) : (IReadOnlyDictionary<TastingAttribute, double>)_attributes;
        init => (_attributes, _startOfAttributes) = value is AttributeValues read ? (read.Room, read.Start) : ((object)value, 0);
    }

    /// <summary>Where the attributes stand among those of the log that was read; a place in no room where they stand by themselves.</summary>
    internal (AttributeRoom? Room, int Start) InRoom
    {
        get => (_attributes as AttributeRoom, _startOfAttributes);
        init => (_attributes, _startOfAttributes) = value.Room is { } room ? ((object)room, value.Start) : (ReadOnlyDictionary<TastingAttribute, double>.Empty, 0);
    }

    /// <summary>Tasting notes in the order written, each in the vocabulary's form where it has one.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>The process the taster guessed, blind, in the vocabulary's form where it has one.</summary>
    public string? GuessedProcess
    {
        get => _details.GuessedProcess;
        init => _details = value == _details.GuessedProcess ? _details : _details with { GuessedProcess = value };
    }

    /// <summary>A private remark: never shown on a page that is shared.</summary>
    public string? Remark { get; init; }

    /// <summary>
    /// Whether the cup is a try-out of the form: its own row says so, or its bag is one (<see cref="Bag.IsTestEntry"/>).
    /// It stays in the log; analyses of scores leave it out and say how many.
    /// </summary>
    public bool IsTestEntry
    {
        get => _isTestEntry || Bag.IsTestEntry;
        init => _isTestEntry = value;
    }

    /// <summary>Columns the kit has no name for, by header, non-empty cells only.</summary>
    public IReadOnlyDictionary<string, string> OtherColumns
    {
        get => _details.OtherColumns;
        init => _details = ReferenceEquals(value, _details.OtherColumns) ? _details : _details with { OtherColumns = value };
    }

    /// <summary>
    /// What the log has in the columns (by their canonical name) where something else stands here: quantities and dates that were converted from
    /// another writing (<c>201F</c>, <c>1:16</c>, <c>25/03/2025</c>, <c>18 g</c>), words that were put into the vocabulary's form or are another writing of a
    /// closed list's (<c>Review</c>), scores that were
    /// moved onto the scale of a later year's folder. Empty where all is written as the kit itself writes it.
    /// </summary>
    public IReadOnlyDictionary<string, string> AsWritten { get; init; } = EmptyColumns.Instance;

    /// <summary>What is kept apart, all of it at once.</summary>
    internal TastingDetails Details
    {
        init => _details = value;
    }

    /// <summary>The day of the tasting.</summary>
    public DateOnly TastedOn => DateOnly.FromDateTime(TastedAt);

    /// <summary>Days the dose spent frozen before this cup: 0 if it never was, up to the tasting if no thawing is logged.</summary>
    public int FrozenDays => FrozenOn is { } frozen ? Math.Max(0, (ThawedOn ?? TastedOn).DayNumber - frozen.DayNumber) : 0;

    /// <summary>
    /// Effective rest in days: from roast to tasting, less the days frozen.
    /// <see langword="null"/> where the bag has no roast date, or the days logged contradict one another and would make it negative.
    /// </summary>
    public int? RestDays =>
        Bag.RoastDate is { } roasted && TastedOn.DayNumber - roasted.DayNumber - FrozenDays is >= 0 and var days ? days : null;

    /// <summary>Grams of brewing water a gram of coffee as the log states it beside or instead of dose and water.</summary>
    public double? StatedRatio
    {
        get => _details.StatedRatio;
        init => _details = value == _details.StatedRatio ? _details : _details with { StatedRatio = value };
    }

    /// <summary>
    /// Grams of brewing water a gram of coffee: from dose and water where both are logged, else as stated; <see langword="null"/> where neither is.
    /// </summary>
    public double? Ratio => DoseGrams > 0 && WaterGrams is { } water ? water / DoseGrams : StatedRatio;

    /// <summary>The value scored for an attribute, the overall score included; <see langword="null"/> where it was not scored.</summary>
    public double? ValueOf(TastingAttribute attribute)
    {
        if (attribute.Equals(TastingAttribute.Score))
            return Score;
        // What a log was read to have is asked by its own type: in a million cups the way through a dictionary takes as long as the look.
        if (_attributes is AttributeRoom room)
            return room.ValueAt(_startOfAttributes, attribute) is var value && double.IsNaN(value) ? null : value;
        return ((IReadOnlyDictionary<TastingAttribute, double>)_attributes).TryGetValue(attribute, out var own) ? own : null;
    }
}
