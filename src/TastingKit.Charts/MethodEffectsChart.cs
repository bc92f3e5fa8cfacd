namespace TastingKit.Charts;

/// <summary>The differences that a part of the method makes, within coffees.</summary>
internal static class MethodEffectsChart
{
    private const int RowsShown = 24;

    private static readonly RowMark Higher = new("first scores higher", "triangle-right", Palette.Main);
    private static readonly RowMark Lower = new("first scores lower", "triangle-left", Palette.Second);
    private static readonly RowMark Undecided = new("undecided", "circle-open", Palette.Quiet);

    public static Chart Draw(MethodEffects effects)
    {
        if (effects.Contrasts.Count == 0)
            return Chart.Nothing(effects.Question, $"No two levels of {effects.Factor.Name} were compared.");
        var shown = effects.Contrasts.Take(RowsShown).ToArray();
        var unit = Words.Unit(effects);
        var rows = new IntervalRows([.. shown.Select(Row)], "95 % interval");
        var scale = rows.Scale($"First less second ({unit})", NumberText.Difference, [0.0], -effects.Margin, effects.Margin);
        return Chart.Draw(
            ShortText.Sentence(effects.Finding, shown.SelectMany(c => new[] { c.First, c.Second }).Append(effects.Factor.Name)),
            $"{Words.HowManyShown(shown.Length, effects.Contrasts.Count, "pair", "pairs", "largest")} compared within coffees, {NumberText.Count(effects.Computation.CupsUsed, "cup")} in all. "
            + $"95 % intervals, simultaneous over the pairs. Grey band: less than the margin of {NumberText.Fixed(effects.Margin)} points, fixed before looking. "
            + "Below each line, cups of the first and the second and coffees brewed with both.",
            Words.AltText(
                $"One row a pair, first less second, in {unit}: a mark on its 95 % interval, simultaneous over the pairs, against a line at no difference and a band of plus and minus {NumberText.Fixed(effects.Margin)}",
                [.. shown.Select(c => $"{Name(c, 40)} {NumberText.Difference(c.Estimate)} ({NumberText.DifferenceInterval(c.Low, c.High)}), {Verdict(c)}, {Counts(c)}")]),
            rows.Traces(scale),
            rows.Layout(scale, Guides.UprightBand(-effects.Margin, effects.Margin)));
    }

    private static IntervalRow Row(MethodContrast contrast)
    {
        var mark = contrast.Direction switch
        {
            Direction.Higher => Higher,
            Direction.Lower => Lower,
            _ => Undecided,
        };
        return new IntervalRow(
            Name(contrast, 24), "", contrast.Estimate, contrast.Low, contrast.High, mark,
            HoverText.Of(
                Name(contrast, 60),
                $"{NumberText.Difference(contrast.Estimate)} points (95 %: {NumberText.DifferenceInterval(contrast.Low, contrast.High)})",
                Verdict(contrast),
                $"{ShortText.Cut(contrast.First, 60)}: {NumberText.Count(contrast.FirstCups, "cup")}",
                $"{ShortText.Cut(contrast.Second, 60)}: {NumberText.Count(contrast.SecondCups, "cup")}",
                $"{NumberText.Count(contrast.SharedCoffees, "coffee")} brewed with both"),
            Below: $"{contrast.FirstCups} and {contrast.SecondCups} cups, {NumberText.Count(contrast.SharedCoffees, "coffee")}",
            BelowAside: SizeInWords(contrast));
    }

    private static string Name(MethodContrast contrast, int width) =>
        $"{ShortText.CutMiddle(contrast.First, width)} \u2212 {ShortText.CutMiddle(contrast.Second, width)}";

    private static string Counts(MethodContrast contrast) =>
        $"{contrast.FirstCups} and {contrast.SecondCups} cups, {NumberText.Count(contrast.SharedCoffees, "coffee")} with both";

    /// <summary>The direction is told by the mark; beside the counts there is no room for it in words.</summary>
    private static string SizeInWords(MethodContrast contrast) => contrast.Size switch
    {
        Size.Matters => "matters",
        Size.TooSmallToMatter => "too small to matter",
        _ => contrast.Direction == Direction.Undecided ? "undecided" : "size undecided",
    };

    private static string Verdict(MethodContrast contrast) =>
        contrast.Direction == Direction.Undecided ? SizeInWords(contrast) : $"{Word(contrast.Direction)}, {SizeInWords(contrast)}";

    private static string Word(Direction direction) => direction == Direction.Higher ? "higher" : "lower";
}
