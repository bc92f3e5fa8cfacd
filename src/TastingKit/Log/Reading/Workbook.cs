using System.Buffers;
using System.Globalization;
using System.Text;
using System.Xml;
using ExcelDataReader;
using ExcelDataReader.Exceptions;

namespace TastingKit.Reading;

/// <summary>
/// Reads a workbook as the folder of files that its sheets stand for: the sheet <c>tastings</c> is <c>tastings.csv</c>, row by row. What a cell
/// holds becomes the text that a CSV file would have, so that a workbook is judged by the same rules.
/// </summary>
internal static class Workbook
{
    private const int MostBytes = 1 << 30;
    private const int RowsBetweenTells = 1024;

    private static readonly SearchValues<char> NeedsQuotes = SearchValues.Create(",\"\r\n");

    static Workbook() => Encoding.RegisterProvider(CodePagesEncodingProvider.Instance);

    /// <summary>Whether a file is a workbook, by its name.</summary>
    public static bool Is(string path) =>
        Path.GetExtension(path).Equals(".xlsx", StringComparison.OrdinalIgnoreCase) || Path.GetExtension(path).Equals(".xlsm", StringComparison.OrdinalIgnoreCase);

    /// <summary>The sheets that hold anything, each as a file.</summary>
    /// <param name="path">The workbook.</param>
    /// <param name="known">The names of a log's files, which a sheet may write in its own way.</param>
    /// <param name="watch">Is told that it is being opened, and may end it.</param>
    /// <exception cref="LogReadException">It can't be read.</exception>
    public static IReadOnlyList<SourceFile> Sheets(string path, IReadOnlyList<string> known, WorkWatch watch)
    {
        try
        {
            using var stream = File.OpenRead(path);
            var failed = FailedFormulas.Of(stream);
            using var reader = ExcelReaderFactory.CreateOpenXmlReader(stream);
            var sheets = new List<SourceFile>();
            do
            {
                var named = known.FirstOrDefault(file => Words.Folded(Path.GetFileNameWithoutExtension(file)) == Words.Folded(reader.Name)) ?? reader.Name.Trim() + ".csv";
                if (Sheet(reader, named, failed, Path.GetFileName(path), watch) is { } sheet)
                    sheets.Add(sheet);
            }
            while (reader.NextResult());
            return sheets;
        }
        catch (Exception e) when (e is ExcelReaderException or InvalidDataException or XmlException or IOException or UnauthorizedAccessException
            or FormatException or OverflowException or ArgumentException or NullReferenceException or IndexOutOfRangeException or KeyNotFoundException or InvalidOperationException)
        {
            // A spoiled workbook makes its library fail in many ways.
            throw new LogReadException($"{Path.GetFileName(path)} can't be read as a workbook: {e.Message} An .xlsx file without a password, or CSV files, would be right.", e);
        }
    }

    private static SourceFile? Sheet(IExcelDataReader reader, string name, FailedFormulas failed, string workbook, WorkWatch watch)
    {
        var text = new ArrayBufferWriter<byte>(1 << 16);
        var rows = new List<int>();
        var line = new StringBuilder();
        // The width of the header, the first row that holds anything: what a later row lacks of it is empty cells, which a sheet does not store.
        var width = 0;
        for (var row = 1; reader.Read(); row++)
        {
            if (row % RowsBetweenTells == 0)
            {
                watch.CancellationToken.ThrowIfCancellationRequested();
                watch.Report(new WorkProgress($"opening {workbook}", null));
            }

            line.Clear();
            var filled = 0;
            for (var i = 0; i < reader.FieldCount; i++)
            {
                var cell = Text(reader, i);
                if (cell.Length == 0 && (cell = failed.At(reader.Name, row, i)).Length == 0)
                    continue;
                line.Append(',', i - filled);
                filled = i;
                if (cell.AsSpan().ContainsAny(NeedsQuotes))
                    line.Append('"').Append(cell.Replace("\"", "\"\"", StringComparison.Ordinal)).Append('"');
                else
                    line.Append(cell);
            }

            if (line.Length > 0)
            {
                width = width == 0 ? filled + 1 : width;
                line.Append(',', Math.Max(0, width - 1 - filled));
            }

            line.Append('\n');
            var written = line.ToString();
            AddLines(written, row, rows);
            Encoding.UTF8.GetBytes(written, text);
            if (text.WrittenCount > MostBytes)
                throw new InvalidDataException("It holds more than a gigabyte of text.");
        }

        rows.Add(rows.Count == 0 ? 1 : rows[^1] + 1);
        return width > 0 ? SourceFile.FromSheet(name, reader.Name, text.WrittenMemory, [.. rows]) : null;
    }

    /// <summary>Notes the sheet's row for every line that its text takes; CR, LF and CRLF each end one.</summary>
    private static void AddLines(ReadOnlySpan<char> text, int row, List<int> rows)
    {
        for (var i = 0; i < text.Length; i++)
        {
            if (text[i] == '\n' || (text[i] == '\r' && (i + 1 == text.Length || text[i + 1] != '\n')))
                rows.Add(row);
        }
    }

    private static string Text(IExcelDataReader reader, int index) => reader.GetValue(index) switch
    {
        null => "",
        string text => text,
        DateTime moment => Moment(moment),
        // A time of day is kept as such; columns of durations read it as what a spreadsheet made of minutes and seconds.
        TimeSpan time => Clock(time),
        bool yes => yes ? "true" : "false",
        double number => IsPercent(reader, index) ? Number(number * 100) + "%" : Number(number),
        IFormattable other => other.ToString(null, CultureInfo.InvariantCulture),
        var other => other.ToString() ?? "",
    };

    private static string Number(double value)
    {
        // Fifteen digits are what a spreadsheet shows; 8.8 is stored as 8.8000000000000007.
        var shown = value.ToString("G15", CultureInfo.InvariantCulture);
        return shown.Contains('E', StringComparison.Ordinal) ? value.ToString("0.###############", CultureInfo.InvariantCulture) : shown;
    }

    private static string Moment(DateTime moment)
    {
        // Excel's day nought: a time without a day.
        if (moment.Year < 1900)
            return Clock(moment - new DateTime(1899, 12, 31) is { Ticks: >= 0 } late ? late : moment.TimeOfDay);
        return moment.ToString(moment.TimeOfDay == TimeSpan.Zero ? "yyyy-MM-dd" : moment.Second == 0 ? "yyyy-MM-dd'T'HH:mm" : "yyyy-MM-dd'T'HH:mm:ss", CultureInfo.InvariantCulture);
    }

    private static string Clock(TimeSpan time)
    {
        var seconds = (long)Math.Round(time.TotalSeconds);
        return string.Create(CultureInfo.InvariantCulture, $"{seconds / 3600:00}:{seconds / 60 % 60:00}:{seconds % 60:00}");
    }

    private static bool IsPercent(IExcelDataReader reader, int index) => reader.GetNumberFormatString(index) is { } format && format.Contains('%', StringComparison.Ordinal);
}
