using System.Globalization;
using System.Text;

namespace TastingKit.Reading;

/// <summary>A price as written.</summary>
/// <param name="Amount">The amount, with the noughts it is written with.</param>
/// <param name="Currency">The currency beside it: a code of three letters, or the sign where it stands for several; <see langword="null"/> for none.</param>
internal readonly record struct WrittenPrice(decimal Amount, string? Currency)
{
    /// <inheritdoc/>
    public override string ToString() => FormattableString.Invariant($"{Amount} {Currency}").TrimEnd();
}

/// <summary>Reads prices: <c>18.50</c>, <c>18.50 EUR</c>, <c>€18.50</c>.</summary>
internal static class PriceText
{
    private const string Expected = "a price as a number not below 0 such as 18.50, with or without its currency, such as 18.50 EUR";

    /// <summary>Reads a price.</summary>
    public static Judged<WrittenPrice> Judge(Cell cell)
    {
        var text = cell.Utf8;
        var first = text.IndexOfAnyInRange((byte)'0', (byte)'9');
        var last = text.LastIndexOfAnyInRange((byte)'0', (byte)'9');
        if (first < 0)
            return NumberText.Judge(text, cell.DecimalComma, Expected).Fault!;
        if (first > 0 && text[first - 1] is (byte)'-' or (byte)'+' or (byte)'.' or (byte)',')
            first--;
        // Only one side names a currency; 18,- and 18.– are written of whole amounts.
        var before = Encoding.UTF8.GetString(text[..first]).Trim();
        var after = Encoding.UTF8.GetString(text[(last + 1)..]).Trim();
        var digits = text[first..(last + 1)];
        string? currency = null;
        if (before.Length > 0 || after.Length > 0)
        {
            currency = before.Length > 0 && after.Length > 0 ? null : CodeOf(before + after);
            if (currency is null)
                return Words.IsMissing(cell.Text) ? NumberText.Judge(text, cell.DecimalComma, Expected).Fault!
                    : new CellFault(Rule.UnknownUnit, "What stands beside the number is no currency.", Expected);
        }

        var judged = NumberText.Judge(digits, cell.DecimalComma, Expected);
        if (judged.Fault is { } fault)
            return fault;
        // The number's plain form was checked as any number's; decimal then keeps the noughts a price is written with.
        var plain = Encoding.UTF8.GetString(digits).Replace(',', '.');
        if (!decimal.TryParse(plain, NumberStyles.AllowDecimalPoint | NumberStyles.AllowLeadingSign, CultureInfo.InvariantCulture, out var amount)
            || amount is < 0 or > 100_000_000)
            return new CellFault(Rule.NumberOutOfRange, "A price is not below 0, and not beyond a hundred millions.", Expected);
        var price = new WrittenPrice(amount, currency);
        return currency is null
            ? price
            : Judged<WrittenPrice>.Noted(price, new CellFault(Rule.QuantityReadAs,
                $"The currency beside the number was read as {currency}, here and wherever the column has it so.", "the number in price, the currency in currency"));
    }

    /// <summary>The currency that a sign or a code names; <see langword="null"/> where it names none.</summary>
    private static string? CodeOf(string written) => written switch
    {
        "€" => "EUR",
        "£" => "GBP",
        // Several countries write their own money so: the sign is kept, and no country guessed.
        "$" or "¥" or "kr" or "Kr" or "kr." => written,
        { Length: 3 } when written.All(char.IsAsciiLetter) => written.ToUpperInvariant(),
        _ => null,
    };
}
