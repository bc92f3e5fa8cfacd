namespace TastingKit.Charts;

/// <summary>What a step more of each covariate of the brew does, within coffees.</summary>
internal static class MethodSlopesChart
{
    private const int RowsShown = 24;

    public static Chart Draw(MethodSlopes slopes)
    {
        var shown = slopes.Slopes.Take(RowsShown).ToArray();
        var unit = Words.Unit(slopes);
        var rows = new IntervalRows([.. shown.Select(Row)], "95 % interval");
        var scale = rows.Scale($"Difference of a step more ({unit})", NumberText.Difference, [0.0], -slopes.Margin, slopes.Margin);
        return Chart.Draw(
            ShortText.Sentence(slopes.Finding, shown.Select(s => s.Covariate.Name)),
            $"Differences within coffees, up to {NumberText.Count(slopes.Computation.CupsUsed, "cup")}. 95 % interval each by itself. "
            + $"Grey band: less than the margin of {NumberText.Fixed(slopes.Margin)} points a step, fixed before looking; too small to matter is what the 90 % interval leaves within it. Below each line, the values brewed, and cups and coffees.",
            Words.AltText(
                $"One row a number of the brew, what one step more does, in {unit}: a mark on its 95 % interval, against a line at no difference and a band of plus and minus {NumberText.Fixed(slopes.Margin)}",
                [.. shown.Select(s => $"{Name(s, 40)} {MethodMarks.Figures(s.Answer)}, {MethodMarks.Verdict(s.Answer)}, {Counts(s)}")]),
            rows.Traces(scale),
            rows.Layout(scale, Guides.UprightBand(-slopes.Margin, slopes.Margin)));
    }

    private static IntervalRow Row(MethodSlope slope) => new(
        Name(slope, 34), "", slope.Answer.Estimate, slope.Answer.Low, slope.Answer.High, MethodMarks.OfStep(slope.Answer),
        HoverText.Of(
            Name(slope, 60),
            $"{NumberText.Difference(slope.Answer.Estimate)} points (95 %: {NumberText.DifferenceInterval(slope.Answer.Low, slope.Answer.High)})",
            MethodMarks.Verdict(slope.Answer),
            slope.Shape.Match(_ => "no bend seen", _ => "bent: not the same everywhere", _ => "too few values to see a bend"),
            Counts(slope)),
        Below: Counts(slope),
        BelowAside: MethodMarks.Size(slope.Answer));

    private static string Name(MethodSlope slope, int width) =>
        $"{ShortText.CutMiddle(slope.Covariate.Name, width)}, {ShortText.Cut(slope.Covariate.StepInWords, 14)} more";

    private static string Counts(MethodSlope slope) => $"{NumberText.Count(slope.Cups, "cup")}, {NumberText.Count(slope.Coffees, "coffee")}";
}
