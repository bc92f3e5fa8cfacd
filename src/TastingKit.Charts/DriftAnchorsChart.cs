namespace TastingKit.Charts;

/// <summary>The drift under each assumption that the log has something for, with its interval, against no drift.</summary>
internal static class DriftAnchorsChart
{
    private static readonly RowMark Told = new("told from none", "diamond", Palette.Second);
    private static readonly RowMark Untold = new("not told from none", "circle-open", Palette.Main);

    public static Chart Draw(ScaleDrift drift) => drift.Case.Match(
        _ => Chart.Nothing(drift.Question, $"{drift.Finding} No drift is estimated."),
        anchored => Draw(drift, anchored.Drifts));

    private static Chart Draw(ScaleDrift drift, IReadOnlyList<AnchoredDrift> drifts)
    {
        var drawn = new IntervalRows([.. drifts.Select(Row)], "95 % interval");
        var scale = drawn.Scale($"Drift ({Words.Unit(drift)} a year)", NumberText.Difference, [0.0]);
        return Chart.Draw(
            ShortText.Sentence(drift.Finding),
            $"Drift with its 95 % interval under each assumption, against no drift; {NumberText.Count(drift.Computation.CupsUsed, "cup")} in all. Below each line, what it rests on. Each holds only as far as its assumption does.",
            Words.AltText(
                "One row an assumption: the drift it gives on its 95 % interval, in points a year",
                [.. drifts.Select(one => $"{one.Anchor.Assumption}: {NumberText.Difference(one.AYear.Estimate)} ({NumberText.DifferenceInterval(one.AYear.Low, one.AYear.High)}), {one.Anchor.RestsOn}")]),
            drawn.Traces(scale),
            drawn.Layout(scale));
    }

    private static IntervalRow Row(AnchoredDrift one) => new(
        one.Anchor.Assumption, NumberText.Difference(one.AYear.Estimate), one.AYear.Estimate, one.AYear.Low, one.AYear.High, one.AYear.IsToldFromNone ? Told : Untold,
        HoverText.Of(one.Anchor.Assumption, $"drift {NumberText.Difference(one.AYear.Estimate)} points a year (95 %: {NumberText.DifferenceInterval(one.AYear.Low, one.AYear.High)})", one.Anchor.RestsOn),
        Below: one.Anchor.RestsOn);
}
