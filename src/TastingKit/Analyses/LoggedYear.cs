namespace TastingKit;

/// <summary>What was logged: how many cups of what, when, and the notes that kept coming back.</summary>
public sealed class LoggedYear : TastingResult
{
    internal LoggedYear(
        int bags, int coffees, int cups, int roasters, int countries, IReadOnlyList<MonthCounts> months, IReadOnlyList<NoteConstancy> notes,
        IReadOnlyList<Caution> cautions, Computation computation, Support support)
        : base(cautions, computation, support)
    {
        Bags = bags;
        Coffees = coffees;
        Cups = cups;
        Roasters = roasters;
        Countries = countries;
        Months = months;
        Notes = notes;
    }

    /// <summary>Bags with at least one cup.</summary>
    public int Bags { get; }

    /// <summary>Coffees with at least one cup.</summary>
    public int Coffees { get; }

    /// <summary>Cups accepted, of whatever purpose.</summary>
    public int Cups { get; }

    /// <summary>Roasters named.</summary>
    public int Roasters { get; }

    /// <summary>Countries named.</summary>
    public int Countries { get; }

    /// <summary>Cups by month, from the first month to the last, months without cups included.</summary>
    public IReadOnlyList<MonthCounts> Months { get; }

    /// <summary>Notes named in at least three coffees, the most surely constant first: by the lower bound of the interval.</summary>
    public IReadOnlyList<NoteConstancy> Notes { get; }

    /// <inheritdoc/>
    public override string Question => "What was logged?";

    /// <inheritdoc/>
    protected override IReadOnlyList<string> Sentences()
    {
        var first = Notes.Count > 0
            ? $"{NumberText.Count(Cups, "cup")} of {NumberText.Count(Coffees, "coffee")} in {NumberText.Count(Bags, "bag")}; the note most surely constant is {Notes[0].Note}, found again in {NumberText.Percent(Notes[0].Constancy)} of the other cups of its coffees (95 % interval {NumberText.Percent(Notes[0].Low)} to {NumberText.Percent(Notes[0].High)})."
            : $"{NumberText.Count(Cups, "cup")} of {NumberText.Count(Coffees, "coffee")} in {NumberText.Count(Bags, "bag")}.";
        var origin = (Roasters, Countries) switch
        {
            (0, 0) => "The log names neither roasters nor countries.",
            (0, _) => $"They come from {NumberText.Count(Countries, "country", "countries")}; the log names no roaster.",
            (_, 0) => $"They come from {NumberText.Count(Roasters, "roaster")}; the log names no country.",
            _ => $"They come from {NumberText.Count(Roasters, "roaster")} and {NumberText.Count(Countries, "country", "countries")}.",
        };
        return new[] { first, origin, Notes.Count > 0 ? "" : "No note was named in three coffees with at least two cups each, so nothing can be said of constancy." }
            .Where(sentence => sentence.Length > 0).ToArray();
    }

    /// <inheritdoc/>
    protected override ResultTable Tabulate() => new(
        "How constant the notes are within a coffee",
        [
            new TableColumn("what", "Note", ColumnKind.Text),
            new TableColumn("estimate", "Found again", ColumnKind.Share),
            new TableColumn("interval", "95 % interval", ColumnKind.Interval, "share"),
            new TableColumn("cups", "Cups with it", ColumnKind.Count),
            new TableColumn("coffees", "Coffees with it", ColumnKind.Count),
        ],
        [.. Notes.Select(n => (IReadOnlyList<TableCell>)
            [
                new TableCell.Text(n.Note),
                new TableCell.Share(n.Constancy),
                new TableCell.Interval(n.Low, n.High),
                new TableCell.Count(n.Cups),
                new TableCell.Count(n.Coffees),
            ])]);
}
