namespace TastingKit.Charts;

/// <summary>What seeing the label does and what it goes with, against nothing, each with its interval and the pairs it rests on.</summary>
internal static class LabelEffectChart
{
    private static readonly RowMark Effect = new("seeing the label", "diamond", Palette.Second);
    private static readonly RowMark GoesWith = new("what it goes with, and order", "circle", Palette.Main);
    private static readonly RowMark Weaker = new("outside pairs: weaker", "circle-open", Palette.Quiet);

    public static Chart Draw(LabelEffect effect)
    {
        var rows = new List<IntervalRow>();
        var missing = new List<string>();
        Add("Seeing the label, on average", "pair", Effect, effect.Average);
        foreach (var premium in effect.Premiums)
            Add(premium.What, premium.Per, GoesWith, premium.Answer);
        Add("Coming later", "place in the sitting", GoesWith, effect.Order);
        Add("Seen against coded outside pairs", "cup", Weaker, effect.OutsidePairs);
        if (rows.Count == 0)
            return Chart.Nothing(effect.Question, ShortText.Sentence(effect.Finding));
        var drawn = new IntervalRows(rows, "95 % interval");
        var scale = drawn.Scale($"Added by it ({Words.Unit(effect)})", NumberText.Difference, [0.0]);
        return Chart.Draw(
            ShortText.Sentence(effect.Finding),
            $"Points with 95 % intervals, each by itself, against no effect; {NumberText.Count(effect.Computation.CupsUsed, "cup")} in {NumberText.Count(effect.Pairs.Count, "pair")} of a coded cup and one whose label was seen. Below each line, for what it stands and what it rests on."
            + (missing.Count == 0 ? "" : $" Not answered: {ShortText.Cut(string.Join("; ", missing), 200)}."),
            Words.AltText(
                $"One row an effect, in {Words.Unit(effect)}: a mark on its 95 % interval",
                [.. rows.Select(row => $"{ShortText.Cut(row.Label, 60)} {row.Aside} ({NumberText.DifferenceInterval(row.Low, row.High)}), {row.Below}")]),
            drawn.Traces(scale),
            drawn.Layout(scale));

        void Add(string what, string per, RowMark mark, PartAnswer answer)
        {
            if (answer.Match(one => Row(char.ToUpperInvariant(what[0]) + what[1..], per, mark, one), _ => null) is { } row)
                rows.Add(row);
            else
                missing.Add(what);
        }
    }

    private static IntervalRow? Row(string label, string per, RowMark mark, PartAnswer.Estimated one) => new(
        label, NumberText.Difference(one.Estimate), one.Estimate, one.Low, one.High, mark,
        HoverText.Of(label, $"{NumberText.Difference(one.Estimate)} points per {per} (95 %: {NumberText.DifferenceInterval(one.Low, one.High)})", one.From),
        Below: $"per {ShortText.Cut(per, 36)}", BelowAside: NumberText.Count(one.Cups, "cup"));
}
