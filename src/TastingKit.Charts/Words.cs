namespace TastingKit.Charts;

/// <summary>Phrases that several charts say alike.</summary>
internal static class Words
{
    private const int RowsSpoken = 6;

    /// <summary>The unit of a result's estimates, as its table has it.</summary>
    public static string Unit(TastingResult result) => result.Table.Columns.Single(column => column.Name == "estimate").Unit;

    /// <summary>How many are drawn, and of how many where that is not all.</summary>
    public static string HowManyShown(int shown, int all, string singular, string plural, string which = "highest") =>
        shown == all ? NumberText.Count(all, singular, plural) : $"The {shown} {which} of {NumberText.Count(all, singular, plural)}";

    /// <summary>
    /// What a chart shows for a reader who can't see it: its form, then its figures. A long list is read out as its first rows
    /// and its last; the figures in full stand in the result's table.
    /// </summary>
    /// <param name="form">The form without a full stop.</param>
    /// <param name="figures">One phrase a row.</param>
    public static string AltText(string form, IReadOnlyList<string> figures)
    {
        var spoken = figures.Count <= RowsSpoken + 1
            ? string.Join("; ", figures)
            : $"{string.Join("; ", figures.Take(RowsSpoken))}; and so on to {figures[^1]}";
        return $"{form}. {spoken}.";
    }
}
