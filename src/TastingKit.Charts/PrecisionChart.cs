namespace TastingKit.Charts;

/// <summary>How far one cup's score scatters: over blind repeats, over sighted ones, between sittings and from day to day.</summary>
internal static class PrecisionChart
{
    private static readonly RowMark Repeats = new("blind repeats", "diamond", Palette.Second);
    private static readonly RowMark Others = new("not repeatability", "circle", Palette.Main);

    public static Chart Draw(TastingPrecision precision)
    {
        var rows = new List<IntervalRow>();
        var missing = new List<string>();
        Add("Repeatability: blind, one brew, one day", Repeats, precision.Repeatability);
        Add("Repeats of a brew that was known", Others, precision.SightedRepeats);
        Add("Between sittings", Others, precision.BetweenSittings);
        Add("From day to day, one bag and brew", Others, precision.DayToDay);
        if (rows.Count == 0)
            return Chart.Nothing(precision.Question, "No standard deviation can be told from this log.");
        var unit = precision.Unit;
        var drawn = new IntervalRows(rows, "95 % interval");
        var scale = drawn.Scale($"Standard deviation ({unit})", NumberText.Fixed, [0.0]);
        return Chart.Draw(
            ShortText.Sentence(precision.Finding),
            $"Standard deviations of one cup\u2019s score with 95 % intervals, each by itself; {NumberText.Count(precision.Computation.CupsUsed, "cup")} in all. Below each line, what it rests on."
            + (missing.Count == 0 ? "" : $" Not told by this log: {string.Join("; ", missing)}."),
            Words.AltText(
                $"One row a standard deviation, in {unit}: a mark on its 95 % interval",
                [.. rows.Select(row => $"{row.Label} {NumberText.Fixed(row.Estimate)} ({NumberText.Interval(row.Low, row.High)}), {row.Below}")]),
            drawn.Traces(scale),
            drawn.Layout(scale));

        void Add(string label, RowMark mark, PartAnswer answer)
        {
            if (answer.Match(one => Row(label, mark, one), _ => null) is { } row)
                rows.Add(row);
            else
                missing.Add(char.ToLowerInvariant(label[0]) + label[1..]);
        }
    }

    private static IntervalRow? Row(string label, RowMark mark, PartAnswer.Estimated one) => new(
        label, $"{NumberText.Fixed(one.Estimate)}", one.Estimate, one.Low, one.High, mark,
        HoverText.Of(label, $"{NumberText.Fixed(one.Estimate)} points (95 %: {NumberText.Interval(one.Low, one.High)})", one.From),
        Below: one.From);
}
