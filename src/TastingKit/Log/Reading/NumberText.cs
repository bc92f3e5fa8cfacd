using System.Buffers;
using System.Globalization;
using System.Text;

namespace TastingKit.Reading;

/// <summary>Reads numbers as a log writes them: digits with at most one decimal sign. Nothing is guessed.</summary>
internal static class NumberText
{
    /// <summary>Reads a cell that holds a number and nothing else; a per cent sign after it is dropped where asked.</summary>
    public static Judged<double> Judge(Cell cell, string expected, bool dropPercent = false)
    {
        var digits = cell.Utf8;
        if (dropPercent && digits.Length > 1 && digits[^1] == '%')
            digits = digits[..^1].TrimEnd((byte)' ');
        return Judge(digits, cell.DecimalComma, expected);
    }

    /// <summary>Reads a text that holds a number and nothing else.</summary>
    public static Judged<double> Judge(ReadOnlySpan<byte> digits, bool decimalComma, string expected)
    {
        if (TryShort(digits, decimalComma, out var exact))
            return exact;
        if (!IsPlain(digits, out var commas, out var points))
            return NotPlain(digits, decimalComma, expected);
        if (commas > 0)
        {
            if (!decimalComma || commas > 1 || points > 0)
                return NotPlain(digits, decimalComma, expected);
            Span<byte> withPoint = stackalloc byte[MostDigits];
            digits.CopyTo(withPoint);
            withPoint[digits.IndexOf((byte)',')] = (byte)'.';
            return Parse(withPoint[..digits.Length], expected);
        }

        if (decimalComma && LooksGrouped(digits))
        {
            return new CellFault(Rule.AmbiguousNumber,
                "In a file with decimal commas a point before three digits may part thousands or decimals.", expected);
        }

        return points > 1 ? NotPlain(digits, decimalComma, expected) : Parse(digits, expected);
    }

    private const int MostDigits = 40;

    private static readonly double[] PowersOfTen = [1, 1e1, 1e2, 1e3, 1e4, 1e5, 1e6, 1e7, 1e8, 1e9, 1e10, 1e11, 1e12, 1e13, 1e14, 1e15];
    private static readonly SearchValues<char> GroupedNumber = SearchValues.Create("0123456789.,'\u2019 \u00A0\u202F");

    /// <summary>
    /// Reads at most fifteen digits with at most one decimal sign. The digits as a whole number and the power of ten are both exact doubles,
    /// so that their quotient is the nearest double, as the parser of .NET gives it (Clinger 1990).
    /// </summary>
    private static bool TryShort(ReadOnlySpan<byte> digits, bool decimalComma, out double value)
    {
        const int MostExactDigits = 15;
        value = 0;
        if (digits.IsEmpty || digits.Length > MostExactDigits || (decimalComma && digits.Contains((byte)'.')))
            return false;
        var sign = decimalComma ? (byte)',' : (byte)'.';
        var (whole, decimals, seen) = (0L, -1, 0);
        foreach (var b in digits)
        {
            if (b is >= (byte)'0' and <= (byte)'9')
            {
                whole = whole * 10 + (b - '0');
                seen++;
                if (decimals >= 0)
                    decimals++;
            }
            else if (b == sign && decimals < 0)
            {
                decimals = 0;
            }
            else
            {
                return false;
            }
        }

        value = whole / PowersOfTen[Math.Max(decimals, 0)];
        return seen > 0;
    }

    private static Judged<double> Parse(ReadOnlySpan<byte> digits, string expected) =>
        double.TryParse(digits, NumberStyles.AllowLeadingSign | NumberStyles.AllowDecimalPoint, CultureInfo.InvariantCulture, out var value)
            ? value
            : NotPlain(digits, false, expected);

    /// <summary>Whether there are only digits, a sign in front and decimal signs, and not more than any real number has.</summary>
    private static bool IsPlain(ReadOnlySpan<byte> digits, out int commas, out int points)
    {
        (commas, points) = (0, 0);
        if (digits.IsEmpty || digits.Length > MostDigits)
            return false;
        var any = false;
        for (var i = 0; i < digits.Length; i++)
        {
            switch (digits[i])
            {
                case >= (byte)'0' and <= (byte)'9': any = true; break;
                case (byte)'.': points++; break;
                case (byte)',': commas++; break;
                case (byte)'-' or (byte)'+' when i == 0: break;
                default: return false;
            }
        }

        return any;
    }

    private static bool LooksGrouped(ReadOnlySpan<byte> digits)
    {
        var point = digits.IndexOf((byte)'.');
        return point is >= 1 and <= 3 && digits.Length - point - 1 == 3 && digits[0] != '0';
    }

    private static CellFault NotPlain(ReadOnlySpan<byte> digits, bool decimalComma, string expected)
    {
        var text = Encoding.UTF8.GetString(digits);
        if (Words.IsMissing(text))
            return new CellFault(Rule.NotANumber, "A word for a missing value stands where a number belongs.", $"{expected}, or an empty cell");
        if (text.StartsWith('#'))
            return new CellFault(Rule.NotANumber, "A spreadsheet's error stands where a number belongs.", expected);
        var hasDigit = text.AsSpan().IndexOfAnyInRange('0', '9') >= 0;
        if (!hasDigit)
            return new CellFault(Rule.NotANumber, "It is not a number.", expected);
        if (!text.AsSpan().ContainsAnyExcept(GroupedNumber))
        {
            return new CellFault(Rule.AmbiguousNumber,
                decimalComma ? "The number has more than one decimal sign." : "A comma in a number may part thousands or decimals.",
                $"{expected}, with one decimal {(decimalComma ? "comma" : "point")} and no sign between thousands");
        }

        return new CellFault(Rule.NotANumber, "Words or signs stand beside the number.", expected);
    }
}
