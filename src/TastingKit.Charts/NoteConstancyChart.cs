namespace TastingKit.Charts;

/// <summary>How often a note, where it was found at all, is found again.</summary>
internal static class NoteConstancyChart
{
    public const string Question = "Which notes kept coming back?";

    private const int RowsShown = 20;

    private static readonly RowMark Mark = RowMark.Estimate("found again");

    public static Chart Draw(LoggedYear year)
    {
        if (year.Notes.Count == 0)
            return Chart.Nothing(Question, "No note was named in three coffees with at least two cups each.");
        var shown = year.Notes.Take(RowsShown).ToArray();
        var rows = new IntervalRows([.. shown.Select(Row)], "95 % interval");
        var scale = RowScale.Shares("Found again in the coffee\u2019s other cups", 0, 0.25, 0.5, 0.75, 1);
        var first = year.Notes[0];
        return Chart.Draw(
            $"The note most surely constant is {ShortText.Cut(first.Note, 60)}: where it was found, {NumberText.Percent(first.Constancy)} of the coffee\u2019s other cups have it too (95 % interval {Interval(first)}; {Counts(first)}).",
            $"{Words.HowManyShown(shown.Length, year.Notes.Count, "note", "notes", "most surely constant")} named in at least three coffees. "
            + "Share of a coffee\u2019s other cups in which the note is found again, with its 95 % interval, coffees as the unit.",
            Words.AltText(
                "One row a note, the most surely constant first: the share of a coffee\u2019s other cups in which it is found again, a dot on its 95 % interval",
                [.. shown.Select(n => $"{ShortText.Cut(n.Note, 40)} {NumberText.Percent(n.Constancy)} ({Interval(n)}), {Counts(n)}")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static IntervalRow Row(NoteConstancy note) => new(
        note.Note, Counts(note), note.Constancy, note.Low, note.High, Mark,
        HoverText.Of(
            note.Note,
            $"found again in {NumberText.Percent(note.Constancy)} of the coffee\u2019s other cups (95 %: {Interval(note)})",
            Counts(note)));

    private static string Interval(NoteConstancy note) => $"{NumberText.Percent(note.Low)} to {NumberText.Percent(note.High)}";

    private static string Counts(NoteConstancy note) => $"{NumberText.Count(note.Cups, "cup")}, {NumberText.Count(note.Coffees, "coffee")}";
}
