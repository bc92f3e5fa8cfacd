using System.Buffers;
using System.Text;

namespace TastingKit.Reading;

/// <summary>What a text is for, which decides what is looked for in it.</summary>
internal enum TextUse
{
    /// <summary>An identifier: taken as it stands.</summary>
    Identifier,

    /// <summary>A name or a word that groups rows: words for a missing value and filler are no name.</summary>
    Name,

    /// <summary>Free text: kept as it stands.</summary>
    Free,
}

/// <summary>A column of text. White space at the ends is dropped; all else is kept as written.</summary>
internal sealed class TextColumn<TRow>(string name, TextUse use, Func<TRow, string?> get, Action<TRow, string> set) : Column<TRow>(name)
{
    /// <summary>Whether a word such as <c>none</c> says that there is none, and is no missing value.</summary>
    public bool NoneIsAnAnswer { get; init; }

    /// <summary>What follows where the text names a try-out of the form; <see langword="null"/> where it is not looked for.</summary>
    public string? IfTest { get; init; }

    /// <inheritdoc/>
    public override void Read(in Cell cell, TRow row, RecordReports reports)
    {
        if (cell.IsEmpty)
        {
            ReportEmpty(cell, reports);
            return;
        }

        var known = cell.Column.Judged<string>();
        if (known.TryGet(cell, out var text))
        {
            set(row, text);
            return;
        }

        var reported = reports.File.Count;
        text = TextCell.Cleaned(cell, reports);
        if (use != TextUse.Free && Words.HasLostLetter(text))
            reports.Cell(Severity.Doubtful, cell, TextCell.LostLetter);

        if (use == TextUse.Name && !Accept(text, cell, reports))
            return;
        if (use != TextUse.Free && Words.IsSpreadsheetDate(text))
        {
            reports.Cell(Severity.Doubtful, cell, new CellFault(
                Rule.SpreadsheetDate, "A spreadsheet may have made a day and a month of it; it was kept as it stands.", "the text as it was, such as 26-1, in a cell formatted as text"));
        }

        if (use == TextUse.Name && reports.File.Spellings.Note(cell.Header, text, reports.Line) is { } varies)
            reports.Cell(Severity.Information, cell, varies);
        if (text.Length > 0)
            set(row, text);
        else
            ReportEmpty(cell, reports);
        if (reports.File.Count == reported)
            known.Add(cell, text);
    }

    /// <inheritdoc/>
    public override (string Kept, string Other)? Merge(TRow into, TRow from)
    {
        if (get(from) is not { } other)
            return null;
        if (get(into) is not { } kept)
        {
            set(into, other);
            return null;
        }

        return string.Equals(kept, other, StringComparison.Ordinal) || Words.Folded(kept) == Words.Folded(other) ? null : (kept, other);
    }

    private bool Accept(string text, in Cell cell, RecordReports reports)
    {
        if (Words.IsMissing(text))
        {
            if (!NoneIsAnAnswer || !text.Equals("none", StringComparison.OrdinalIgnoreCase))
                reports.Cell(Severity.Information, cell, TextCell.WordForMissing);

            return false;
        }

        if (Words.IsFiller(text))
        {
            reports.Cell(Severity.Doubtful, cell, new CellFault(Rule.FillerText, "It fills the cell and says nothing; the cell was left missing.", "the value, or an empty cell"));
            return false;
        }

        if (IfTest is not null && Words.IsTest(text))
        {
            reports.Cell(Severity.Doubtful, cell, new CellFault(
                Rule.TestEntry, $"The row looks like a try-out of the form{IfTest}.", "a row of a real coffee; take the row out if it is none"));
        }

        return true;
    }
}

/// <summary>Text of a cell, without what can't be shown.</summary>
internal static class TextCell
{
    /// <summary>What is said of a word that stands for a missing value.</summary>
    public static CellFault WordForMissing { get; } =
        new(Rule.WordForMissing, $"The word was taken for a missing value, as are {Words.MissingList}.", "an empty cell, or the value");

    /// <summary>What is said of a word that a letter is missing from.</summary>
    public static CellFault LostLetter { get; } =
        new(Rule.LostLetter, "A letter was lost before the file was written: a mark stands in its place.", "the word with its own letter, in UTF-8");

    /// <summary>The text, control characters taken out and reported.</summary>
    public static string Cleaned(in Cell cell, RecordReports reports)
    {
        if (!HasControl(cell.Utf8))
            return cell.Text;
        reports.Cell(Severity.Doubtful, cell, new CellFault(
            Rule.ControlCharacter, "It holds characters that can't be shown, which were taken out.", "text without control characters"));
        var clean = new StringBuilder(cell.Utf8.Length);
        foreach (var c in cell.Text)
        {
            if (!char.IsControl(c) || c is '\t' or '\n' or '\r')
                clean.Append(c);
        }

        return clean.ToString().Trim();
    }

    private static readonly SearchValues<byte> SingleControls =
        SearchValues.Create([.. Enumerable.Range(0, 0x20).Append(0x7F).Select(code => (byte)code).Where(b => b is not ((byte)'\t' or (byte)'\n' or (byte)'\r'))]);

    private static bool HasControl(ReadOnlySpan<byte> text)
    {
        // C0 controls and DEL are single bytes; C1 controls are C2 80 to C2 9F.
        if (text.ContainsAny(SingleControls))
            return true;

        for (var at = text.IndexOf((byte)0xC2); at >= 0; text = text[(at + 1)..], at = text.IndexOf((byte)0xC2))
        {
            if (at + 1 < text.Length && text[at + 1] is >= 0x80 and <= 0x9F)
                return true;
        }

        return false;
    }
}
