using System.Buffers.Text;

namespace TastingKit.Reading;

/// <summary>Whether a cell's text is the kit's own writing of the value that it was read as, so that the value alone tells it.</summary>
internal delegate bool IsOwnWriting<in T>(Cell cell, T value);

/// <summary>A row that keeps, beside a value, the text that it was converted from.</summary>
internal interface IKeepsWritten
{
    /// <summary>Keeps the text of a column.</summary>
    void KeepWritten(string column, string text);

    /// <summary>The text kept of a column; <see langword="null"/> where none was.</summary>
    string? WrittenOf(string column);
}

/// <summary>The kit's own writing of values. Of any other the text is kept beside the value.</summary>
internal static class OwnWriting
{
    private const int LongestNumber = 32;

    /// <summary>A number without a unit, with the decimal sign of its file.</summary>
    public static bool Number(Cell cell, double value) => IsNumber(cell.Utf8, cell.DecimalComma, value);

    /// <summary>Degrees Celsius, with or without their unit.</summary>
    public static bool Celsius(Cell cell, double value) =>
        IsNumber(cell.Utf8.EndsWith("C"u8) ? cell.Utf8[..^1] : cell.Utf8, cell.DecimalComma, value);

    /// <summary>An ISO date.</summary>
    public static bool Day(Cell cell, DateOnly value) => cell.Utf8.Length == 10 && IsIso(cell.Utf8);

    /// <summary>An ISO date, with a time of hours and minutes, and perhaps seconds, or without.</summary>
    public static bool Moment(Cell cell, Moment value) => cell.Utf8.Length is 10 or 16 or 19 && IsIso(cell.Utf8) && !value.InUtc && !cell.Utf8[10..].ContainsAny("+-"u8);

    /// <summary>Minutes and seconds, as in 3:15.</summary>
    public static bool Clock(Cell cell, TimeSpan value)
    {
        var text = cell.Utf8;
        return text.Length is 4 or 5 && text[^3] == ':' && value.TotalMinutes < 60 && Utf8Parser.TryParse(text[..^3], out int minutes, out var read) && read == text.Length - 3
            && minutes == (int)value.TotalMinutes;
    }

    /// <summary>An amount without a currency.</summary>
    public static bool Price(Cell cell, WrittenPrice value) => value.Currency is null && IsNumber(cell.Utf8, cell.DecimalComma, (double)value.Amount);

    private static bool IsIso(ReadOnlySpan<byte> text) => text[4] == '-' && text[7] == '-';

    private static bool IsNumber(ReadOnlySpan<byte> text, bool decimalComma, double value)
    {
        if (text.IsEmpty || text.Length > LongestNumber)
            return false;
        Span<byte> pointed = stackalloc byte[LongestNumber];
        text.CopyTo(pointed);
        if (decimalComma && text.IndexOf((byte)',') is >= 0 and var comma)
            pointed[comma] = (byte)'.';
        return Utf8Parser.TryParse(pointed[..text.Length], out double number, out var read) && read == text.Length && number == value;
    }
}
