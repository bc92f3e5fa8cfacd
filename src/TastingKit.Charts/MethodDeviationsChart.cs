namespace TastingKit.Charts;

/// <summary>The differences of each process or coffee on one scale, process under process.</summary>
internal static class MethodDeviationsChart
{
    private const int RowsShown = 24;

    public static Chart Draw(MethodDeviations deviations)
    {
        var ofCoffee = deviations.By == Factor.Coffee;
        var ordered = ofCoffee ? deviations.Deviations : [.. deviations.Deviations.OrderBy(d => d.Level, StringComparer.Ordinal)];
        // Of many coffees the two ends are shown: where the method does most one way and the other.
        MethodDeviation[] shown = ordered.Count <= RowsShown ? [.. ordered] : [.. ordered.Take(RowsShown / 2), .. ordered.Skip(ordered.Count - (RowsShown / 2))];
        var unit = Words.Unit(deviations);
        var rows = new IntervalRows(
            ofCoffee
                ? [.. shown.Select(d => Row(d, ofCoffee))]
                : [.. shown.GroupBy(d => d.Level).SelectMany(panel => panel.Select(d => Row(d, ofCoffee)).Prepend(IntervalRow.Heading(panel.Key)))],
            "95 % interval");
        var scale = rows.Scale($"First less second ({unit})", NumberText.Difference, [0.0], -deviations.Margin, deviations.Margin);
        var pair = ofCoffee ? $"{ShortText.Cut(shown[0].First, 40)} less {ShortText.Cut(shown[0].Second, 40)}. " : "";
        return Chart.Draw(
            ShortText.Sentence(deviations.Finding, shown.SelectMany(d => new[] { d.Level, d.First, d.Second }).Append(deviations.Factor.Name)),
            $"{pair}{(shown.Length == ordered.Count ? $"{shown.Length}" : $"The {RowsShown / 2} highest and the {RowsShown / 2} lowest of {ordered.Count}")} differences, partially pooled, {NumberText.Count(deviations.Computation.CupsUsed, "cup")} in all. "
            + $"95 % interval each by itself. Grey band: less than the margin of {NumberText.Fixed(deviations.Margin)} points, fixed before looking; too small to matter is what the 90 % interval leaves within it. Below each line, cups of the first and the second.",
            Words.AltText(
                $"One row {(ofCoffee ? "a coffee" : "a pair and process")}, first less second, in {unit}: a mark on its 95 % interval, against a line at no difference and a band of plus and minus {NumberText.Fixed(deviations.Margin)}",
                [.. shown.Select(d => $"{ShortText.Cut(d.Level, 40)}: {ShortText.Cut(d.First, 40)} less {ShortText.Cut(d.Second, 40)} {MethodMarks.Figures(d.Answer)}, {MethodMarks.Verdict(d.Answer)}")]),
            rows.Traces(scale),
            rows.Layout(scale, Guides.UprightBand(-deviations.Margin, deviations.Margin)));
    }

    private static IntervalRow Row(MethodDeviation deviation, bool ofCoffee) => new(
        ofCoffee ? ShortText.CutMiddle(deviation.Level, 48) : $"{ShortText.CutMiddle(deviation.First, 24)} \u2212 {ShortText.CutMiddle(deviation.Second, 24)}", "",
        deviation.Answer.Estimate, deviation.Answer.Low, deviation.Answer.High, MethodMarks.OfPair(deviation.Answer),
        HoverText.Of(
            deviation.Level,
            $"{ShortText.Cut(deviation.First, 60)} less {ShortText.Cut(deviation.Second, 60)}",
            $"{NumberText.Difference(deviation.Answer.Estimate)} points (95 %: {NumberText.DifferenceInterval(deviation.Answer.Low, deviation.Answer.High)})",
            MethodMarks.Verdict(deviation.Answer)),
        Below: $"{deviation.FirstCups} and {deviation.SecondCups} cups{(ofCoffee ? "" : $", {NumberText.Count(deviation.Coffees, "coffee")}")}",
        BelowAside: MethodMarks.Size(deviation.Answer));
}
