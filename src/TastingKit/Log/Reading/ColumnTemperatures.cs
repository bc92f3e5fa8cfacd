namespace TastingKit.Reading;

/// <summary>
/// The unit of a column's temperatures that are written without one, decided by all of them: all can be Celsius, or all can be Fahrenheit
/// of water at which one brews.
/// </summary>
/// <param name="Unit">C or F; <see langword="null"/> where neither fits all of them.</param>
/// <param name="Count">How many there are.</param>
internal sealed record ColumnTemperatures(char? Unit, int Count)
{
    private const double LeastFahrenheit = 120;

    /// <summary>Passes over a column.</summary>
    public static ColumnTemperatures Of(HeldColumn column)
    {
        var (count, celsius, fahrenheit) = (0, true, true);
        column.Visit((text, _) =>
        {
            if (NumberText.Judge(text, column.DecimalComma, "") is not { Fault: null, Value: var value })
                return;
            count++;
            celsius &= QuantityText.IsLiquid(value);
            fahrenheit &= value >= LeastFahrenheit && QuantityText.IsLiquid(QuantityText.FromFahrenheit(value));
        });
        return new ColumnTemperatures(count == 0 ? null : celsius ? 'C' : fahrenheit ? 'F' : null, count);
    }
}
