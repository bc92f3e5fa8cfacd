namespace TastingKit.Charts;

/// <summary>The differences that a part of the method makes in the attributes, each on a share of its own scale.</summary>
internal static class MethodProfileChart
{
    private const int RowsShown = 24;

    public static Chart Draw(MethodProfile profile)
    {
        var all = profile.Selected.SelectMany(effects => effects.Contrasts.Select(contrast => (Effects: effects, Contrast: contrast))).ToArray();
        if (all.Length == 0)
            return Chart.Nothing(profile.Question, ShortText.Sentence(profile.Finding));

        // What differs comes first, attribute by attribute; a long list is cut where nothing is decided.
        var shown = all.Where(row => row.Contrast.Answer.Direction != Direction.Undecided).Concat(all.Where(row => row.Contrast.Answer.Direction == Direction.Undecided))
            .Take(RowsShown).ToArray();
        var level = $"{NumberText.Fixed(100 * profile.Level, 1)} %";
        var margin = shown.Max(row => row.Effects.Margin / Length(row.Effects));
        var rows = new IntervalRows(
            [.. shown.GroupBy(row => row.Effects.Attribute.Name).SelectMany(panel => panel.Select(row => Row(row.Effects, row.Contrast, level)).Prepend(IntervalRow.Heading(panel.Key)))],
            $"{level} interval");
        var scale = rows.Scale("First less second (share of the attribute\u2019s scale)", (value, _) => Share(value), [0.0], -margin, margin);
        return Chart.Draw(
            ShortText.Sentence(profile.Finding, shown.Select(row => row.Effects.Attribute.Name).Append(profile.Factor.Name)),
            $"{Words.HowManyShown(shown.Length, all.Length, "pair", "pairs", "first")} in {NumberText.Count(profile.Selected.Count(), "attribute")} of {profile.Attributes.Count} compared within coffees, {NumberText.Count(profile.Computation.CupsUsed, "cup")} in all. "
            + $"{level} interval, simultaneous over an attribute\u2019s pairs and widened for the selection. Grey band: less than the margin of {Share(margin)} of a scale, fixed before looking. Below each line, cups of the first and the second and coffees brewed with both.",
            Words.AltText(
                $"One row a pair and attribute, first less second, as a share of the attribute\u2019s scale: a mark on its {level} interval, against a line at no difference and a band of plus and minus {Share(margin)}",
                [.. shown.Select(row => $"{ShortText.Cut(row.Effects.Attribute.Name, 30)}: {ShortText.Cut(row.Contrast.First, 40)} less {ShortText.Cut(row.Contrast.Second, 40)} {MethodMarks.Figures(row.Contrast.Answer)} points, {MethodMarks.Verdict(row.Contrast.Answer)}")]),
            rows.Traces(scale),
            rows.Layout(scale, Guides.UprightBand(-margin, margin)));
    }

    private static IntervalRow Row(MethodEffects effects, MethodContrast contrast, string level) => new(
        $"{ShortText.CutMiddle(contrast.First, 24)} \u2212 {ShortText.CutMiddle(contrast.Second, 24)}", "",
        contrast.Answer.Estimate / Length(effects), contrast.Answer.Low / Length(effects), contrast.Answer.High / Length(effects), MethodMarks.OfPair(contrast.Answer),
        HoverText.Of(
            $"{effects.Attribute.Name}: {contrast.First} \u2212 {contrast.Second}",
            $"{NumberText.Difference(contrast.Answer.Estimate)} points ({level}: {NumberText.DifferenceInterval(contrast.Answer.Low, contrast.Answer.High)})",
            MethodMarks.Verdict(contrast.Answer)),
        Below: $"{contrast.FirstCups} and {contrast.SecondCups} cups, {NumberText.Count(contrast.SharedCoffees, "coffee")}",
        BelowAside: MethodMarks.Size(contrast.Answer));

    private static double Length(MethodEffects effects) => effects.Scale.Max - effects.Scale.Min;

    private static string Share(double value) => $"{NumberText.Fixed(100 * value, 0)} %";
}
