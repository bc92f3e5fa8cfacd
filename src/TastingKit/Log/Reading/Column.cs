using System.Globalization;

namespace TastingKit.Reading;

/// <summary>Another header under which a column is met.</summary>
/// <param name="Header">The header; case, spaces, hyphens and underscores don't count.</param>
/// <param name="Unit">The unit it states for numbers without one of their own.</param>
internal sealed record Alias(string Header, string? Unit = null)
{
    public static implicit operator Alias(string header) => new(header);
}

/// <summary>One column that a file can have: its name, how a cell is judged, and where the value goes.</summary>
/// <typeparam name="TRow">What gathers a row's values.</typeparam>
internal abstract class Column<TRow>(string name)
{
    /// <summary>The canonical header.</summary>
    public string Name { get; } = name;

    /// <summary>Other headers that mean it.</summary>
    public IReadOnlyList<Alias> AlsoWritten { get; init; } = [];

    /// <summary>Whether a file without the column can't be read, and a row without a sound cell is rejected.</summary>
    public bool Required { get; init; }

    /// <summary>Judges a cell, keeps its value, and reports what can't be kept.</summary>
    public abstract void Read(in Cell cell, TRow row, RecordReports reports);

    /// <summary>
    /// Fills the value in <paramref name="into"/> from another row on the same thing where it is missing there.
    /// Returns the two values as text where they contradict one another, else <see langword="null"/>.
    /// </summary>
    public abstract (string Kept, string Other)? Merge(TRow into, TRow from);

    private readonly CellFault _empty = new(Rule.RequiredMissing, $"A row can't be used without its {name}.", $"a {name} in every row");

    /// <summary>How bad a fault of the column's cell is for its row.</summary>
    protected Severity Severity => Required ? Severity.Rejected : Severity.Doubtful;

    /// <summary>Reports an empty cell of a required column.</summary>
    protected void ReportEmpty(in Cell cell, RecordReports reports)
    {
        if (Required)
            reports.Cell(Severity.Rejected, cell, _empty);
    }
}

/// <summary>What a text of a column is known to mean, and the text where it is kept beside the value.</summary>
internal readonly record struct KnownCell<T>(T Value, string? Written);

/// <summary>A column whose cells are judged whole: a value, or a fault.</summary>
internal abstract class JudgedColumn<TRow, T>(string name, CellJudge<T> judge) : Column<TRow>(name)
{
    /// <summary>Whether a text is the kit's own writing; of any other it is kept beside the value. <see langword="null"/> where none is kept.</summary>
    public IsOwnWriting<T>? IsOwn { get; init; }

    /// <inheritdoc/>
    public override void Read(in Cell cell, TRow row, RecordReports reports)
    {
        if (cell.IsEmpty)
        {
            ReportEmpty(cell, reports);
            return;
        }

        var known = cell.Column.Judged<KnownCell<T>>();
        if (known.TryGet(cell, out var value))
        {
            Keep(row, value);
            return;
        }

        var judged = judge(cell);
        if (judged.Fault is { } fault)
        {
            reports.Cell(Severity, cell, fault);
            return;
        }

        value = new KnownCell<T>(judged.Value, IsOwn is null || IsOwn(cell, judged.Value) ? null : cell.Text);
        Keep(row, value);
        if (judged.Note is { } note && reports.File.FirstTime(note.Why, cell.Header))
            reports.Cell(Severity.Information, cell, note);
        known.Add(cell, value);
    }

    private void Keep(TRow row, KnownCell<T> cell)
    {
        Keep(row, cell.Value);
        if (cell.Written is { } written)
            ((IKeepsWritten)row!).KeepWritten(Name, written);
    }

    /// <summary>Puts a value where it belongs.</summary>
    protected abstract void Keep(TRow row, T value);

    /// <summary>Takes over the text beside a value that is taken over.</summary>
    protected void KeepWrittenOf(TRow into, TRow from)
    {
        if (IsOwn is not null && ((IKeepsWritten)from!).WrittenOf(Name) is { } written)
            ((IKeepsWritten)into!).KeepWritten(Name, written);
    }
}

/// <summary>A column of numbers, days or other values.</summary>
internal sealed class ValueColumn<TRow, T>(string name, CellJudge<T> judge, Func<TRow, T?> get, Action<TRow, T> set)
    : JudgedColumn<TRow, T>(name, judge)
    where T : struct
{
    /// <inheritdoc/>
    public override (string Kept, string Other)? Merge(TRow into, TRow from)
    {
        if (get(from) is not { } other)
            return null;
        if (get(into) is not { } kept)
        {
            set(into, other);
            KeepWrittenOf(into, from);
            return null;
        }

        return EqualityComparer<T>.Default.Equals(kept, other) ? null : (Text(kept), Text(other));
    }

    /// <inheritdoc/>
    protected override void Keep(TRow row, T value) => set(row, value);

    private static string Text(T value) => value is DateOnly day
        ? day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture)
        : FormattableString.Invariant($"{value}");
}

/// <summary>A column that takes a closed list of words and keeps the canonical one.</summary>
internal sealed class WordColumn<TRow>(string name, WordList<string> words, Func<TRow, string?> get, Action<TRow, string> set)
    : JudgedColumn<TRow, string>(name, words.Judge)
{
    /// <inheritdoc/>
    public override (string Kept, string Other)? Merge(TRow into, TRow from)
    {
        if (get(from) is not { } other)
            return null;
        if (get(into) is not { } kept)
        {
            set(into, other);
            KeepWrittenOf(into, from);
            return null;
        }

        return kept == other ? null : (kept, other);
    }

    /// <inheritdoc/>
    protected override void Keep(TRow row, string value) => set(row, value);
}
