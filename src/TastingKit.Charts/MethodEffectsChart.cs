namespace TastingKit.Charts;

/// <summary>The differences that a part of the method makes, within coffees.</summary>
internal static class MethodEffectsChart
{
    private const int RowsShown = 24;

    public static Chart Draw(MethodEffects effects)
    {
        if (effects.Contrasts.Count == 0)
            return Chart.Nothing(effects.Question, $"No two levels of {effects.Factor.Name} were compared.");
        var shown = effects.Contrasts.Take(RowsShown).ToArray();
        var unit = Words.Unit(effects);
        var level = $"{NumberText.Fixed(100 * effects.Level, effects.Level == 0.95 ? 0 : 1)} %";
        var rows = new IntervalRows([.. shown.Select(c => Row(c, level))], $"{level} interval");
        var scale = rows.Scale($"{Measured(effects.Attribute)}, first less second ({unit})", NumberText.Difference, [0.0], -effects.Margin, effects.Margin);
        return Chart.Draw(
            ShortText.Sentence(effects.Finding, shown.SelectMany(c => new[] { c.First, c.Second }).Append(effects.Factor.Name)),
            $"{Words.HowManyShown(shown.Length, effects.Contrasts.Count, "pair", "pairs", "largest")} compared within coffees, {NumberText.Count(effects.Computation.CupsUsed, "cup")} in all. "
            + $"95 % intervals, simultaneous over the pairs. Grey band: less than the margin of {NumberText.Fixed(effects.Margin)} points, fixed before looking; too small to matter is what the 90 % interval leaves within it. "
            + "Below each line, cups of the first and the second and coffees brewed with both.",
            Words.AltText(
                $"One row a pair, first less second, in {unit}: a mark on its {level} interval, simultaneous over the pairs, against a line at no difference and a band of plus and minus {NumberText.Fixed(effects.Margin)}",
                [.. shown.Select(c => $"{Name(c, 40)} {MethodMarks.Figures(c.Answer)}, {MethodMarks.Verdict(c.Answer)}, {Counts(c)}")]),
            rows.Traces(scale),
            rows.Layout(scale, Guides.UprightBand(-effects.Margin, effects.Margin)));
    }

    private static IntervalRow Row(MethodContrast contrast, string level) => new(
        Name(contrast, 24), "", contrast.Answer.Estimate, contrast.Answer.Low, contrast.Answer.High, MethodMarks.OfPair(contrast.Answer),
        HoverText.Of(
            Name(contrast, 80),
            $"{NumberText.Difference(contrast.Answer.Estimate)} points ({level}: {NumberText.DifferenceInterval(contrast.Answer.Low, contrast.Answer.High)})",
            MethodMarks.Verdict(contrast.Answer),
            Counts(contrast)),
        Below: $"{contrast.FirstCups} and {contrast.SecondCups} cups, {NumberText.Count(contrast.SharedCoffees, "coffee")}",
        BelowAside: MethodMarks.Size(contrast.Answer));

    private static string Measured(TastingAttribute attribute) => ShortText.Cut($"{char.ToUpperInvariant(attribute.Name[0])}{attribute.Name[1..]}", 20);

    private static string Name(MethodContrast contrast, int width) =>
        $"{ShortText.CutMiddle(contrast.First, width)} \u2212 {ShortText.CutMiddle(contrast.Second, width)}";

    private static string Counts(MethodContrast contrast) =>
        $"{contrast.FirstCups} and {contrast.SecondCups} cups, {NumberText.Count(contrast.SharedCoffees, "coffee")} with both";
}
