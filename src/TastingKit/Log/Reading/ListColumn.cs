namespace TastingKit.Reading;

/// <summary>A column of several texts in one cell, parted by semicolons: countries of a blend, tasting notes.</summary>
/// <remarks>Empty parts are dropped; so are words for a missing value, with a report. The order is kept.</remarks>
internal sealed class ListColumn<TRow>(string name, TextUse use, Func<TRow, IReadOnlyList<string>> get, Action<TRow, IReadOnlyList<string>> set)
    : Column<TRow>(name)
{
    /// <inheritdoc/>
    public override void Read(in Cell cell, TRow row, RecordReports reports)
    {
        if (cell.IsEmpty)
        {
            ReportEmpty(cell, reports);
            return;
        }

        var known = cell.Column.Judged<IReadOnlyList<string>>();
        if (known.TryGet(cell, out var shared))
        {
            set(row, shared);
            return;
        }

        var reported = reports.File.Count;
        var text = TextCell.Cleaned(cell, reports).AsSpan();
        var parts = new List<string>(text.Count(';') + 1);
        foreach (var range in text.Split(';'))
        {
            var trimmed = text[range].Trim();
            if (trimmed.IsEmpty)
                continue;
            var part = cell.Column.Shared(trimmed);
            if (Words.IsMissing(part))
            {
                reports.Cell(Severity.Information, cell, TextCell.WordForMissing);
                continue;
            }

            if (use == TextUse.Name && Words.HasLostLetter(part))
                reports.Cell(Severity.Doubtful, cell, TextCell.LostLetter);
            if (use == TextUse.Name && reports.File.Spellings.Note(cell.Header, part, reports.Line) is { } varies)
                reports.Cell(Severity.Information, cell, varies);
            parts.Add(part);
        }

        if (parts.Count == 0)
            return;
        // Cups that say the same share one list, so nobody may write to it.
        var read = new ReadWords([.. parts]);
        set(row, read);
        if (reports.File.Count == reported)
            known.Add(cell, read);
    }

    /// <inheritdoc/>
    public override (string Kept, string Other)? Merge(TRow into, TRow from)
    {
        var (kept, other) = (get(into), get(from));
        if (other.Count == 0)
            return null;
        if (kept.Count == 0)
        {
            set(into, other);
            return null;
        }

        return kept.Select(Words.Folded).SequenceEqual(other.Select(Words.Folded))
            ? null
            : (string.Join("; ", kept), string.Join("; ", other));
    }
}
