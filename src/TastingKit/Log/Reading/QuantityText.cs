using System.Buffers;
using System.Text;

namespace TastingKit.Reading;

/// <summary>Reads numbers with a unit: grams, temperatures, brew times. A unit that is not known is refused.</summary>
internal static class QuantityText
{
    private const double GramsAnOunce = 28.349523125;
    private static readonly SearchValues<byte> NumberBytes = SearchValues.Create("0123456789.,+-"u8);
    private const double GramsAPound = 453.59237;

    private static readonly string[] OneLetter = [.. Enumerable.Range(0, 128).Select(code => ((char)code).ToString().Trim())];

    /// <summary>Reads a mass in grams; a bare number is in the header's unit, or else in grams.</summary>
    public static Judged<double> JudgeGrams(Cell cell) => JudgeGrams(cell, ofWater: false);

    /// <summary>Reads a mass of water in grams, which a volume states too: a millilitre is a gram to within half a per cent below 30 °C.</summary>
    public static Judged<double> JudgeWater(Cell cell) => JudgeGrams(cell, ofWater: true);

    private static Judged<double> JudgeGrams(Cell cell, bool ofWater)
    {
        const string Expected = "grams as a number above 0 such as 18.5, or with its unit g, kg, oz or lb";
        var number = NumberOf(cell.Utf8, out var unit);
        if (unit.Length == 0)
            unit = cell.Unit ?? "g";
        double? factor = unit == "g" ? 1 : unit.ToLowerInvariant().TrimEnd('.') switch
        {
            "g" or "gr" or "gram" or "grams" => 1,
            "kg" or "kilo" or "kilos" => 1000,
            "oz" or "ounce" or "ounces" => GramsAnOunce,
            "lb" or "lbs" or "pound" or "pounds" => GramsAPound,
            "ml" or "millilitre" or "millilitres" when ofWater => 1,
            "l" or "litre" or "litres" or "liter" or "liters" when ofWater => 1000,
            _ => null,
        };
        if (factor is null && !number.IsEmpty)
            return new CellFault(Rule.UnknownUnit, $"The unit '{unit}' is not known.", Expected);
        var judged = NumberText.Judge(number.IsEmpty ? cell.Utf8 : number, cell.DecimalComma, Expected);
        if (judged.Fault is { } fault)
            return fault;
        var grams = judged.Value * factor!.Value;
        if (grams is > 0 and <= 100_000)
        {
            return factor == 1 && unit is not ("ml" or "mL") ? grams : Judged<double>.Noted(grams, new CellFault(Rule.QuantityReadAs,
                $"Numbers in {unit} were turned into grams, here and wherever the column has that unit.", Expected));
        }

        return new CellFault(Rule.NumberOutOfRange, "A mass in a log lies above 0 g and not over 100 kg; a nought is not a measurement.", Expected);
    }

    /// <summary>Reads a temperature in degrees Celsius; a bare number has the header's unit, or the one that fits all bare numbers of the column.</summary>
    public static Judged<double> JudgeTemperature(Cell cell)
    {
        const string Expected = "a temperature of water with its unit, such as 94C or 201F";
        var number = NumberOf(cell.Utf8, out var unit);
        if (number.IsEmpty)
            return NumberText.Judge(cell.Utf8, cell.DecimalComma, Expected).Fault!;
        if (unit.Length == 0)
            unit = cell.Unit ?? "";
        char? letter;
        switch (unit is "C" or "F" ? unit : unit.TrimStart('°', 'º', ' ').ToLowerInvariant())
        {
            case "" when unit.Length == 0: letter = null; break;
            case "C": letter = 'C'; break;
            case "F": letter = 'F'; break;
            case "c" or "celsius" or "deg c": letter = 'C'; break;
            case "f" or "fahrenheit" or "deg f": letter = 'F'; break;
            default: return new CellFault(Rule.UnknownUnit, $"The unit '{unit}' is not known.", Expected);
        }

        var judged = NumberText.Judge(number, cell.DecimalComma, Expected);
        if (judged.Fault is { } fault)
            return fault;
        if (letter is { } written)
            return Liquid(judged.Value, written);
        if (cell.Column.Temperatures is not { Unit: { } unitOfAll, Count: var count })
        {
            return new CellFault(Rule.BareTemperature,
                "It has no unit, and the column's bare numbers are neither all of Celsius nor all of Fahrenheit; the cell was left missing.", Expected);
        }

        var temperature = Liquid(judged.Value, unitOfAll);
        return temperature.Fault is null
            ? Judged<double>.Noted(temperature.Value, new CellFault(Rule.BareTemperature,
                FormattableString.Invariant($"{count} temperatures have no unit; all can be °{unitOfAll} and were read so."), Expected))
            : temperature;

        static Judged<double> Liquid(double value, char unit)
        {
            var celsius = unit == 'F' ? FromFahrenheit(value) : value;
            return IsLiquid(celsius) ? celsius : NotLiquid(Expected);
        }
    }

    /// <summary>Degrees Fahrenheit in degrees Celsius.</summary>
    public static double FromFahrenheit(double fahrenheit) => (fahrenheit - 32) / 1.8;

    /// <summary>The fault of a temperature at which water does not brew.</summary>
    private static CellFault NotLiquid(string expected) =>
        new(Rule.TemperatureOverBoiling, "Brewing water is liquid: from 0 to 100 °C, 32 to 212 °F.", expected);

    /// <summary>Whether water is liquid at a temperature; a quarter of a degree is allowed for rounding on the way from Fahrenheit.</summary>
    public static bool IsLiquid(double celsius) => celsius is >= 0 and <= 100.25;

    /// <summary>The number a text begins with, and the unit after it; empty where the text does not begin with one.</summary>
    public static ReadOnlySpan<byte> NumberOf(ReadOnlySpan<byte> text, out string unit)
    {
        var end = text.IndexOfAnyExcept(NumberBytes);
        // A unit has no digits; what has is two numbers, or one parted in thousands, and no number as a whole.
        if (end >= 0 && text[end..].IndexOfAnyInRange((byte)'0', (byte)'9') >= 0)
            end = -1;
        unit = end < 0 ? ""
            : text.Length - end == 1 ? OneLetter[text[end] & 0x7F]
            : Encoding.UTF8.GetString(text[end..]).Trim();
        return end < 0 ? text : text[..end];
    }
}
