using System.Globalization;
using System.Text;
using CsCheck;

namespace TastingKit.Tests.Log.Properties;

/// <summary>The cells of a sound log, before they are written in any one way. Cells of numbers have a point.</summary>
/// <param name="Bags">The bags' cells, below <see cref="BagHeader"/>.</param>
/// <param name="Cups">The cups' cells, below <see cref="CupHeader"/>.</param>
internal sealed record WrittenLog(string[][] Bags, string[][] Cups)
{
    public static readonly string[] BagHeader = ["bag_id", "coffee", "roaster", "roast_date", "net_weight_g"];

    public static readonly string[] CupHeader =
        ["tasting_id", "bag_id", "tasted_at", "position", "brewer", "dose_g", "water_g", "water_temp", "brew_time", "score", "sweetness", "notes", "remark"];

    private static readonly Gen<string> Letters = Gen.String[Gen.Char["abkz éüß茶Ж\"',;=\t\n|-0.?"], 0, 12];

    /// <summary>A text with all that a format is apt to break on, and letters at its ends, so that it is no number, no date and no word for a missing value.</summary>
    private static readonly Gen<string> Text = Letters.Select(inside => $"Q{inside}kx");

    private static readonly Gen<string> MaybeText = Gen.Frequency((1, Gen.Const("")), (3, Text));

    /// <summary>Sound logs.</summary>
    public static Gen<WrittenLog> All { get; } = Gen.Int[1, 4].SelectMany(bags => Gen.Select(
        Gen.Select(Text, MaybeText, Gen.Int[0, 90], Gen.Int[1, 8]).Array[bags],
        Cup(bags).Array[0, 12],
        (ofBags, cups) => new WrittenLog(
            [.. ofBags.Select((bag, i) => new[] { $"B{i}", bag.Item1, bag.Item2, Day(bag.Item3), Number(bag.Item4 * 125) })],
            [.. cups.Select((cup, i) => cup.Prepend($"T{i}").ToArray())])));

    private static Gen<string[]> Cup(int bags) => Gen.Select(
        Gen.Select(Gen.Int[0, bags - 1], Gen.Int[100, 300], Gen.Int[-1, 24 * 60 - 1], Gen.Int[1, 9]),
        Gen.Select(MaybeText, Gen.Int[20, 80], Gen.Int[7, 20]),
        Gen.Select(Gen.Int[160, 198], Gen.Int[61, 599], Gen.Int[1, 9], Gen.Int[0, 15]),
        Gen.Select(Text.Array[0, 3], MaybeText),
        (bag, brew, cup, words) => new[]
        {
            $"B{bag.Item1}", bag.Item3 < 0 ? Day(bag.Item2) : $"{Day(bag.Item2)}T{bag.Item3 / 60:00}:{bag.Item3 % 60:00}", Number(bag.Item4), brew.Item1,
            Number(brew.Item2 / 2.0), Number(brew.Item2 / 2.0 * brew.Item3), Number(cup.Item1 / 2.0) + "C", $"{cup.Item2 / 60}:{cup.Item2 % 60:00}", Number(cup.Item3), Number(cup.Item4),
            string.Join("; ", words.Item1.Select(note => note.Replace(';', ':'))), words.Item2,
        });

    /// <summary>The files in the plainest dialect.</summary>
    public TastingLog Read() => new Dialect(',', "\n", false, false, 0, 0).Read(this);

    private static string Day(int day) => new DateOnly(2025, 1, 1).AddDays(day).ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);

    private static string Number(double value) => value.ToString(CultureInfo.InvariantCulture);

    /// <summary>One way of writing a log down.</summary>
    /// <param name="Delimiter">What stands between two cells.</param>
    /// <param name="LineEnd">What ends a row.</param>
    /// <param name="DecimalComma">Whether numbers have a comma.</param>
    /// <param name="QuoteAll">Whether every cell is quoted, or only those that need it.</param>
    /// <param name="Encoding">0 UTF-8, 1 with its mark, 2 and 3 UTF-16 of either order with its mark, 4 and 5 without, 6 Windows-1252 where it has all letters.</param>
    /// <param name="Spelling">How headers are spelled, and what trails: bits.</param>
    internal sealed record Dialect(char Delimiter, string LineEnd, bool DecimalComma, bool QuoteAll, int Encoding, int Spelling)
    {
        private static readonly HashSet<string> Numbers = ["net_weight_g", "dose_g", "water_g", "water_temp", "score", "sweetness", "position"];

        /// <summary>Every dialect that is found out.</summary>
        public static Gen<Dialect> All { get; } = Gen.Select(
            Gen.OneOf(',', ';', '\t'), Gen.OneOf("\n", "\r\n", "\r"), Gen.Bool, Gen.Bool, Gen.Int[0, 6], Gen.Int[0, 31],
            (delimiter, end, comma, quote, encoding, spelling) => new Dialect(delimiter, end, comma && delimiter == ';', quote, encoding, spelling));

        /// <summary>Reads a log written so.</summary>
        public TastingLog Read(WrittenLog log) => Reading.LogInMemory.Read(
            ("bags.csv", Bytes(Table(BagHeader, log.Bags))), ("tastings.csv", Bytes(Table(CupHeader, log.Cups))));

        private string Table(string[] header, string[][] rows)
        {
            int[] order = [.. Enumerable.Range(0, header.Length)];
            if ((Spelling & 1) != 0)
                Array.Reverse(order);
            var text = new StringBuilder();
            Append(header.Select(Header));
            foreach (var row in rows)
                Append(row.Select((cell, i) => DecimalComma && Numbers.Contains(header[i]) ? cell.Replace('.', ',') : cell));
            if ((Spelling & 2) != 0)
                text.Append(LineEnd).Append(new string(Delimiter, header.Length)).Append(LineEnd);
            return text.ToString();

            void Append(IEnumerable<string> cells)
            {
                string[] all = [.. cells];
                text.AppendJoin(Delimiter, order.Select(i => Cell(all[i])));
                if ((Spelling & 4) != 0)
                    text.Append(Delimiter).Append(Delimiter);
                text.Append(LineEnd);
            }
        }

        private string Header(string name) => (Spelling >> 3) switch
        {
            1 => name.ToUpperInvariant(),
            2 => name.Replace('_', ' '),
            3 => " " + CultureInfo.InvariantCulture.TextInfo.ToTitleCase(name.Replace('_', '-')),
            _ => name,
        };

        private string Cell(string cell) => QuoteAll || cell.AsSpan().IndexOfAny($"{Delimiter}\"\r\n") >= 0
            ? $"\"{cell.Replace("\"", "\"\"", StringComparison.Ordinal)}\""
            : cell;

        private byte[] Bytes(string text)
        {
            var windows = CodePagesEncodingProvider.Instance.GetEncoding(1252, new EncoderReplacementFallback("\u0001"), DecoderFallback.ReplacementFallback)!;
            return Encoding switch
            {
                1 => [.. System.Text.Encoding.UTF8.Preamble, .. System.Text.Encoding.UTF8.GetBytes(text)],
                2 => [.. System.Text.Encoding.Unicode.Preamble, .. System.Text.Encoding.Unicode.GetBytes(text)],
                3 => [.. System.Text.Encoding.BigEndianUnicode.Preamble, .. System.Text.Encoding.BigEndianUnicode.GetBytes(text)],
                4 => System.Text.Encoding.Unicode.GetBytes(text),
                5 => System.Text.Encoding.BigEndianUnicode.GetBytes(text),
                6 when windows.GetBytes(text) is var bytes && !bytes.Contains((byte)1) => bytes,
                _ => System.Text.Encoding.UTF8.GetBytes(text),
            };
        }
    }
}
