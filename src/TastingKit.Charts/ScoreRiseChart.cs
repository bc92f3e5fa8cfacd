namespace TastingKit.Charts;

/// <summary>The raw change of a score, the parts that it is the sum of, and below them each factor's share of a mix.</summary>
internal static class ScoreRiseChart
{
    private static readonly RowMark Whole = new("raw change", "diamond", Palette.Third);
    private static readonly RowMark OfIt = new("part of it", "circle", Palette.Main);
    private static readonly RowMark Share = new("a factor\u2019s share of a mix", "circle-open", Palette.Second);

    public static Chart Draw(ScoreRise rise)
    {
        RisePart[] factors = [.. rise.Parts.Where(part => part.Source is RiseSource.Purchasing or RiseSource.Brewing)];
        (string Label, RisePart Part)[] sums =
        [
            .. rise.Purchasing is { } bought ? new[] { ("Another mix of coffees bought", bought) } : [],
            .. rise.Brewing is { } brewed ? new[] { ("Another mix of brews", brewed) } : [],
            .. rise.Parts.Except(factors).Select(part => (LabelOf(part), part)),
        ];
        var rows = new IntervalRows(
        [
            Row("Raw change", rise.Change!, Whole, ""),
            .. sums.Select(sum => Row(sum.Label, sum.Part, OfIt, sum.Part.Source == RiseSource.Drift ? rise.Drift.Assumption : "")),
            .. Panel("Shares of the coffees bought", RiseSource.Purchasing),
            .. Panel("Shares of the brews", RiseSource.Brewing),
        ], "95 % interval");
        var scale = rows.Scale($"Points of the change ({Words.Unit(rise)})", NumberText.Difference, [0.0]);
        return Chart.Draw(
            ShortText.Sentence(rise.Finding),
            $"The parts from the second row to the last filled mark sum to the raw change; {rise.Earlier!.Cups} and {NumberText.Count(rise.Later!.Cups, "cup")} are held against each other, the model being of {NumberText.Count(rise.Computation.CupsUsed, "cup")}. 95 % intervals. Open marks: what each factor has in a mix.",
            Words.AltText(
                $"One row a part of the change, in {Words.Unit(rise)}, on its 95 % interval, against a line at nought",
                [$"raw change {Figures(rise.Change!)}", .. sums.Select(sum => $"{ShortText.Cut(sum.Label, 80)} {Figures(sum.Part)}"), .. factors.Select(part => $"{part.What} {Figures(part)}")]),
            rows.Traces(scale),
            rows.Layout(scale));

        IEnumerable<IntervalRow> Panel(string heading, RiseSource source)
        {
            RisePart[] of = [.. factors.Where(part => part.Source == source)];
            return of.Length == 0 ? [] : [IntervalRow.Heading(heading), .. of.Select(part => Row(Upper(part.What), part, Share, ""))];
        }
    }

    private static string LabelOf(RisePart part) => part.Source switch
    {
        RiseSource.CoffeesAndDrift => "Coffees within like kinds and drift together",
        RiseSource.Chance => "Chance of cups and sittings",
        _ => Upper(part.What),
    };

    private static IntervalRow Row(string label, RisePart part, RowMark mark, string below) => new(
        label, NumberText.Difference(part.Points), part.Points, part.Low, part.High, mark,
        HoverText.Of(ShortText.Cut(label, 60), $"{NumberText.Difference(part.Points)} points (95 %: {NumberText.DifferenceInterval(part.Low, part.High)})", below),
        Below: below);

    private static string Upper(string text) => char.ToUpperInvariant(text[0]) + text[1..];

    private static string Figures(RisePart part) => $"{NumberText.Difference(part.Points)} ({NumberText.DifferenceInterval(part.Low, part.High)})";
}
