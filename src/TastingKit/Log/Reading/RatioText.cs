using System.Globalization;
using System.Text;
using System.Text.RegularExpressions;

namespace TastingKit.Reading;

/// <summary>Reads the ratio of brewing water to coffee: <c>16</c>, <c>1:16</c>, <c>16:1</c>, <c>62.5 g/L</c>.</summary>
internal static partial class RatioText
{
    private const string Expected = "grams of water a gram of coffee such as 16, 1:16 or 62.5 g/L";

    /// <summary>Reads a ratio from 1 to 100.</summary>
    public static Judged<double> Judge(Cell cell)
    {
        var number = QuantityText.NumberOf(cell.Utf8, out var unit);
        if (number.Length > 0 && (unit.Length > 0 || !number.Contains((byte)':')))
        {
            if (unit.Length == 0)
                unit = cell.Unit ?? "";
            var isStrength = Words.Folded(unit) is "gl" or "gperl" or "gliter" or "glitre" or "gperliter" or "gperlitre";
            if (unit.Length == 0 || isStrength)
            {
                var judged = NumberText.Judge(number, cell.DecimalComma, Expected);
                if (judged.Fault is { } fault)
                    return fault;
                if (!isStrength)
                    return InRange(judged.Value);
                return judged.Value > 0
                    ? Noted(InRange(1000 / judged.Value), "Grams of coffee a litre of water were turned into grams of water a gram of coffee")
                    : InRange(0);
            }
        }

        var text = cell.Utf8.Length <= 40 ? Encoding.UTF8.GetString(cell.Utf8) : "";
        var pair = Pair().Match(text);
        if (!pair.Success)
            return Words.IsMissing(text)
                ? new CellFault(Rule.RatioNotRead, "A word for a missing value stands where a ratio belongs.", Expected + ", or an empty cell")
                : new CellFault(Rule.RatioNotRead, "It is no ratio of water and coffee.", Expected);
        if (Part(pair, "a", cell) is not { } first || Part(pair, "b", cell) is not { } second || (first != 1 && second != 1))
            return new CellFault(Rule.RatioNotRead, "One side of a ratio is 1.", Expected);
        var ratio = InRange(Math.Max(first, second));
        // A spreadsheet takes 1:16 for a time of day, and adds the seconds.
        return pair.Groups["c"].Success ? Noted(ratio, "A spreadsheet made a time of it; it was read as a ratio", Rule.SpreadsheetTime)
            : first > 1 ? Noted(ratio, "Water stands before coffee; it was read as a ratio")
            : ratio;
    }

    private static Judged<double> Noted(Judged<double> ratio, string how, string rule = Rule.QuantityReadAs) => ratio.Fault is not null
        ? ratio
        : Judged<double>.Noted(ratio.Value, new CellFault(rule, how + ", here and wherever the column has that form.", Expected));

    private static double? Part(Match pair, string group, Cell cell)
    {
        var text = pair.Groups[group].Value;
        return double.TryParse(cell.DecimalComma ? text.Replace(',', '.') : text, NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value) ? value : null;
    }

    private static Judged<double> InRange(double ratio) => ratio is >= 1 and <= 100
        ? ratio
        : new CellFault(Rule.NumberOutOfRange, "A gram of coffee takes from 1 to 100 g of water.", Expected);

    [GeneratedRegex(@"^(?<a>[0-9]{1,3}([.,][0-9]{1,3})?)\s*:\s*(?<b>[0-9]{1,3}([.,][0-9]{1,3})?)(?<c>:00)?$", RegexOptions.ExplicitCapture | RegexOptions.CultureInvariant)]
    private static partial Regex Pair();
}
