namespace TastingKit.Reading;

/// <summary>The units that a header can state in brackets, in the form in which the column that takes them knows them.</summary>
internal static class HeaderUnit
{
    /// <summary>The unit; <see langword="null"/> where the text is none.</summary>
    public static string? Of(string written) => written.Trim().TrimStart('°', 'º').ToLowerInvariant() switch
    {
        "c" or "celsius" => "C",
        "f" or "fahrenheit" => "F",
        "g" or "gram" or "grams" => "g",
        "kg" => "kg",
        "oz" or "ounces" => "oz",
        "lb" or "lbs" => "lb",
        "ml" => "ml",
        "g/l" => "g/L",
        "min" or "minutes" => "min",
        "s" or "sec" or "seconds" => "s",
        _ => null,
    };
}
