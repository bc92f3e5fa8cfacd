using System.Collections.ObjectModel;

namespace TastingKit;

/// <summary>One cup: what was brewed, how, when, and what the taster said of it.</summary>
public sealed record Tasting
{
    private readonly bool _isTestEntry;

    /// <summary>The cup's identifier, unique within a log.</summary>
    public required string Id { get; init; }

    /// <summary>The bag it was brewed from.</summary>
    public required Bag Bag { get; init; }

    /// <summary>When it was tasted, by the wall clock where the taster was; midnight where only the day is known.</summary>
    public required DateTime TastedAt { get; init; }

    /// <summary>Whether <see cref="TastedAt"/> carries a time of day and not the day alone.</summary>
    public bool HasTimeOfDay { get; init; }

    /// <summary>Who tasted.</summary>
    public string? Taster { get; init; }

    /// <summary>The sitting the cup belongs to, as written.</summary>
    public string? Session { get; init; }

    /// <summary>The cup's place within its session, from 1.</summary>
    public int? Position { get; init; }

    /// <summary>Why it was brewed.</summary>
    public Purpose Purpose { get; init; }

    /// <summary>Whether the brew went wrong and says nothing of the coffee.</summary>
    public bool Failed { get; init; }

    /// <summary>The brewer, in the vocabulary's form where it has one.</summary>
    public string? Brewer { get; init; }

    /// <summary>The filter, as written.</summary>
    public string? Filter { get; init; }

    /// <summary>The grinder, as written.</summary>
    public string? Grinder { get; init; }

    /// <summary>The grind setting as written; only comparable within one grinder.</summary>
    public string? Grind { get; init; }

    /// <summary>The brewing water, as written.</summary>
    public string? Water { get; init; }

    /// <summary>The recipe's name.</summary>
    public string? Recipe { get; init; }

    /// <summary>Whose recipe it is: house, roaster or other.</summary>
    public string? RecipeFrom { get; init; }

    /// <summary>Dose of ground coffee in grams.</summary>
    public double? DoseGrams { get; init; }

    /// <summary>Brewing water in grams.</summary>
    public double? WaterGrams { get; init; }

    /// <summary>Beverage in grams.</summary>
    public double? YieldGrams { get; init; }

    /// <summary>Temperature of the brewing water in degrees Celsius.</summary>
    public double? WaterCelsius { get; init; }

    /// <summary>Brew time.</summary>
    public TimeSpan? BrewTime { get; init; }

    /// <summary>Total dissolved solids of the beverage in per cent.</summary>
    public double? TdsPercent { get; init; }

    /// <summary>Day the dose went into the freezer.</summary>
    public DateOnly? FrozenOn { get; init; }

    /// <summary>Day the dose came out of the freezer.</summary>
    public DateOnly? ThawedOn { get; init; }

    /// <summary>Temperature of the cup when scored, as written.</summary>
    public string? CupTemperature { get; init; }

    /// <summary>What the taster did not know.</summary>
    public BlindTo BlindTo { get; init; }

    /// <summary>The overall score, on the log's scale for it; <see langword="null"/> where the cup was not scored.</summary>
    public double? Score { get; init; }

    /// <summary>The attributes that were scored, the overall score left out.</summary>
    public IReadOnlyDictionary<TastingAttribute, double> Attributes { get; init; } =
        ReadOnlyDictionary<TastingAttribute, double>.Empty;

    /// <summary>Tasting notes in the order written, each in the vocabulary's form where it has one.</summary>
    public IReadOnlyList<string> Notes { get; init; } = [];

    /// <summary>The process the taster guessed, blind, in the vocabulary's form where it has one.</summary>
    public string? GuessedProcess { get; init; }

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
    public IReadOnlyDictionary<string, string> OtherColumns { get; init; } = EmptyColumns.Instance;

    /// <summary>
    /// What the log has in the columns (by their canonical name) whose words were put into the vocabulary's form, or whose scores were moved onto
    /// the scale of a later year's folder; empty for most cups.
    /// </summary>
    public IReadOnlyDictionary<string, string> AsWritten { get; init; } = EmptyColumns.Instance;

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

    /// <summary>Grams of brewing water a gram of coffee; <see langword="null"/> unless both are logged.</summary>
    public double? Ratio => DoseGrams > 0 && WaterGrams is { } water ? water / DoseGrams : null;

    /// <summary>The value scored for an attribute, the overall score included; <see langword="null"/> where it was not scored.</summary>
    public double? ValueOf(TastingAttribute attribute) =>
        attribute.Equals(TastingAttribute.Score) ? Score
        : Attributes.TryGetValue(attribute, out var value) ? value
        : null;
}
