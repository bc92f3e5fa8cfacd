using System.Text;

namespace TastingKit.Reading;

/// <summary>How a file parts its cells and writes its numbers, found out from its header.</summary>
/// <param name="Delimiter">What stands between two cells.</param>
/// <param name="Start">Where the header begins, in bytes.</param>
/// <param name="FirstLine">The line the header's text begins on.</param>
internal sealed record Dialect(char Delimiter, int Start, int FirstLine)
{
    private static readonly char[] Delimiters = [',', ';', '\t'];

    /// <summary>Whether numbers have a decimal comma: where the semicolon parts cells, since the comma then can't.</summary>
    public bool DecimalComma => Delimiter == ';';

    /// <summary>
    /// Finds the delimiter under which the header holds the most columns that are known, or else the most columns.
    /// A first line <c>sep=;</c>, as a spreadsheet may write it, is taken at its word.
    /// </summary>
    public static Dialect Of(ReadOnlyMemory<byte> text, Func<string, bool> isKnownHeader)
    {
        var span = text.Span;
        if (span.Length > 4 && span.StartsWith("sep="u8) && Array.IndexOf(Delimiters, (char)span[4]) >= 0)
        {
            var end = span.IndexOfAny((byte)'\r', (byte)'\n');
            if (end == 5)
                return new Dialect((char)span[4], span[5..].StartsWith("\r\n"u8) ? 7 : 6, 2);
        }

        return Delimiters
            .Select(delimiter => (Dialect: new Dialect(delimiter, 0, 1), Headers: HeadersUnder(text, delimiter)))
            .OrderByDescending(found => found.Headers.Count(isKnownHeader))
            .ThenByDescending(found => found.Headers.Count)
            .First().Dialect;
    }

    private static List<string> HeadersUnder(ReadOnlyMemory<byte> text, char delimiter)
    {
        using var records = new RecordReader(text, delimiter);
        var headers = new List<string>();
        if (records.Read())
        {
            for (var i = 0; i < records.FieldCount; i++)
                headers.Add(Encoding.UTF8.GetString(Cell.Of(records[i]).Utf8));
        }

        return headers;
    }
}
