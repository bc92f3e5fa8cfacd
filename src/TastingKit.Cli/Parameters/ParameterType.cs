using System.Globalization;
using Microsoft.CodeAnalysis.CSharp;

namespace TastingKit.Cli.Parameters;

/// <summary>A type that can be written on a command line.</summary>
internal sealed class ParameterType
{
    private const NumberStyles Whole = NumberStyles.AllowLeadingSign;
    private const NumberStyles Fraction = NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint | NumberStyles.AllowExponent;

    internal static readonly ParameterType Int = new("int", "a whole number", "12", text =>
        int.TryParse(text, Whole, CultureInfo.InvariantCulture, out var value) ? Literal(value) : null);

    internal static readonly ParameterType Long = new("long", "a whole number", "12", text =>
        long.TryParse(text, Whole, CultureInfo.InvariantCulture, out var value) ? Literal(value) + "L" : null);

    internal static readonly ParameterType Double = new("double", "a number", "0.5", text =>
        double.TryParse(text, Fraction, CultureInfo.InvariantCulture, out var value) && double.IsFinite(value) ? value.ToString("R", CultureInfo.InvariantCulture) + "d" : null);

    internal static readonly ParameterType Decimal = new("decimal", "a number", "0.5", text =>
        decimal.TryParse(text, Fraction, CultureInfo.InvariantCulture, out var value) ? value.ToString(CultureInfo.InvariantCulture) + "m" : null);

    internal static readonly ParameterType Bool = new("bool", "true or false", "true", text => text is "true" or "false" ? text : null);

    internal static readonly ParameterType DateOnly = new("DateOnly", "a day as year-month-day", "2025-03-01", text =>
        System.DateOnly.TryParseExact(text, "yyyy-MM-dd", CultureInfo.InvariantCulture, DateTimeStyles.None, out var day)
            ? string.Create(CultureInfo.InvariantCulture, $"new DateOnly({day.Year}, {day.Month}, {day.Day})")
            : null);

    internal static readonly ParameterType String = new("string", "text", "words", text => SymbolDisplay.FormatLiteral(text, quote: true));

    private static readonly ParameterType[] FromNarrow = [Int, Long, Double, Bool, DateOnly, String];

    private readonly Func<string, string?> _toLiteral;

    private ParameterType(string name, string words, string example, Func<string, string?> toLiteral)
    {
        Name = name;
        Words = words;
        Example = example;
        _toLiteral = toLiteral;
    }

    /// <summary>Its name in C#.</summary>
    internal string Name { get; }

    /// <summary>What is expected, in words.</summary>
    internal string Words { get; }

    /// <summary>A value as it is written on a command line.</summary>
    internal string Example { get; }

    /// <summary>The type of that name in C#, with or without <c>System.</c>; <see langword="null"/> if it can't be written on a command line.</summary>
    internal static ParameterType? Called(string name) => name switch
    {
        "int" or "Int32" => Int,
        "long" or "Int64" => Long,
        "double" or "Double" => Double,
        "decimal" or "Decimal" => Decimal,
        "bool" or "Boolean" => Bool,
        "DateOnly" => DateOnly,
        "string" or "String" => String,
        _ => name.StartsWith("System.", StringComparison.Ordinal) ? Called(name["System.".Length..]) : null,
    };

    /// <summary>The narrowest type that a text can be read as.</summary>
    internal static ParameterType Of(string text) => FromNarrow.First(type => type.ToLiteral(text) is not null);

    /// <summary>The text as C#; <see langword="null"/> if it is not of this type.</summary>
    internal string? ToLiteral(string text) => _toLiteral(text);

    private static string Literal(long value) => value.ToString(CultureInfo.InvariantCulture);
}
