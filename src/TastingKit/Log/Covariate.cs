using System.Globalization;

namespace TastingKit;

/// <summary>A number that each cup was brewed with, and the step of it that differences are stated for: the ratio, the temperature, or any column of the log.</summary>
public sealed class Covariate
{
    /// <summary>Days in a year, wherever a slope or a drift is told by the year.</summary>
    internal const double DaysAYear = 365.25;

    private readonly Func<Tasting, double?> _valueOf;

    private Covariate(string name, double step, string unit, Func<Tasting, double?> valueOf, bool isOfRecipe)
    {
        (Name, Step, Unit, IsOfRecipe) = (name, step, unit, isOfRecipe);
        _valueOf = valueOf;
    }

    /// <summary>Grams of water a gram of coffee, a step being one gram.</summary>
    public static Covariate Ratio { get; } = new("ratio", 1, "in ratio", t => t.Ratio, true);

    /// <summary>Temperature of the brewing water, a step being 5 °C.</summary>
    public static Covariate WaterTemperature { get; } = new("water temperature", 5, "°C", t => t.WaterCelsius, true);

    /// <summary>Brew time, a step being 30 seconds.</summary>
    public static Covariate BrewTime { get; } = new("brew time", 30, "s", t => t.BrewTime?.TotalSeconds, false);

    /// <summary>Dose of ground coffee, a step being one gram.</summary>
    public static Covariate Dose { get; } = new("dose", 1, "g", t => t.DoseGrams, false);

    /// <summary>Strength: total dissolved solids of the beverage, a step being a tenth of a per cent.</summary>
    public static Covariate Strength { get; } = new("strength", 0.1, "% dissolved", t => t.TdsPercent, false);

    /// <summary>The cup's place in its session, a step being one cup later.</summary>
    public static Covariate Position { get; } = new("position", 1, "cup later", t => t.Position, false);

    /// <summary>The day tasted, a step being a year of 365.25 days. Its slope is that of whatever changed over time, and no drift of the scale by itself.</summary>
    public static Covariate Calendar { get; } = new("calendar", 1, "year", t => t.TastedOn.DayNumber / DaysAYear, false);

    /// <summary>Natural logarithm of the price of a hundred grams, a step being a tenth: about ten per cent dearer. Comparable within one currency only.</summary>
    internal static Covariate LogPrice { get; } = new("price", 0.1, "of its logarithm", t => t.Bag is { Price: > 0 and var price, NetWeightGrams: > 0 and var grams } ? Math.Log(100 * (double)price / grams) : null, false);

    /// <summary>The covariate's name in plain words.</summary>
    public string Name { get; }

    /// <summary>How much of it a difference is stated for, in <see cref="Unit"/>; positive.</summary>
    public double Step { get; }

    /// <summary>The unit of the step, for example <c>°C</c>; empty where the log's column has none.</summary>
    public string Unit { get; }

    /// <summary>The step in words, for example <c>5 °C</c>.</summary>
    public string StepInWords => $"{Step.ToString("0.###", CultureInfo.InvariantCulture)} {Unit}".TrimEnd();

    /// <summary>Whether it is a part of what a recipe states, so that a recipe's difference includes it.</summary>
    internal bool IsOfRecipe { get; }

    /// <summary>The grind setting within one grinder; settings of other grinders are not comparable, and their cups are left out.</summary>
    /// <param name="grinder">The grinder, as written in the log.</param>
    public static Covariate Grind(string grinder)
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(grinder);
        return new Covariate($"grind on {grinder}", 1, "on the dial", t => t.Grinder == grinder ? NumberIn(t.Grind) : null, false);
    }

    /// <summary>A column of <c>tastings.csv</c> that the kit has no name for. Cells that are no number count as missing.</summary>
    /// <param name="header">The column's header, as written.</param>
    /// <param name="step">How much of it a difference is stated for; positive.</param>
    /// <param name="unit">The step's unit, for pages.</param>
    /// <exception cref="ArgumentOutOfRangeException">The step is not a positive number.</exception>
    public static Covariate Column(string header, double step = 1, string unit = "")
    {
        ArgumentException.ThrowIfNullOrWhiteSpace(header);
        ArgumentNullException.ThrowIfNull(unit);
        return new Covariate(header, Checked(step), unit, t => NumberIn(t.OtherColumns.GetValueOrDefault(header)), false);
    }

    /// <summary>The same covariate, differences being stated for another step.</summary>
    /// <param name="step">The step in <see cref="Unit"/>; positive.</param>
    /// <exception cref="ArgumentOutOfRangeException">The step is not a positive number.</exception>
    public Covariate Per(double step) => new(Name, Checked(step), Unit, _valueOf, IsOfRecipe);

    /// <summary>The value of a cup; <see langword="null"/> where the log does not say.</summary>
    public double? ValueOf(Tasting tasting) => _valueOf(tasting) is { } value && double.IsFinite(value) ? value : null;

    /// <summary>The covariate's name.</summary>
    public override string ToString() => Name;

    private static double Checked(double step) =>
        step > 0 && double.IsFinite(step) ? step : throw new ArgumentOutOfRangeException(nameof(step), step, "A step is a positive number.");

    private static double? NumberIn(string? text) =>
        double.TryParse(text, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var number) ? number : null;
}
