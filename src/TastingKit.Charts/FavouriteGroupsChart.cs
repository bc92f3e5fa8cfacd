namespace TastingKit.Charts;

/// <summary>Kinds of coffee by expected score.</summary>
internal static class FavouriteGroupsChart
{
    private const int RowsShown = 40;

    private static readonly RowMark Mark = RowMark.Estimate("expected score");

    public static Chart Draw(FavouriteGroups groups)
    {
        if (groups.Groups.Count == 0)
            return Chart.Nothing(groups.Question, $"No {groups.Factor.Name} has an expected score.");
        var shown = groups.Groups.Take(RowsShown).ToArray();
        var unit = Words.Unit(groups);
        var factor = ShortText.Cut(groups.Factor.Name, 40);
        var rows = new IntervalRows([.. shown.Select(Row)], "95 % interval");
        var scale = rows.Scale($"Expected score ({unit})", NumberText.Fixed, []);
        return Chart.Draw(
            ShortText.Sentence(groups.Finding, groups.Groups[0].Level),
            $"{(shown.Length == groups.Groups.Count ? $"{shown.Length}" : $"The {shown.Length} highest of {groups.Groups.Count}")} compared by {factor}, {NumberText.Count(groups.Computation.CupsUsed, "cup")} in all. "
            + $"Expected score of a coffee of that {factor} under the standard brew ({ShortText.Cut(groups.StandardBrew.ToString(), 120)}) with its 95 % interval, each by itself.",
            Words.AltText(
                $"One row for each level of {factor}, the highest expected score first, in {unit}: a dot on its 95 % interval, a hollow mark for the plain mean of its cups",
                [.. shown.Select(g => $"{ShortText.Cut(g.Level, 60)} {NumberText.Fixed(g.Estimate)} ({NumberText.Interval(g.Low, g.High)}), plain mean {NumberText.Fixed(g.PlainMean)}, {Counts(g)}")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static IntervalRow Row(FavouriteGroup group) => new(
        group.Level,
        Counts(group),
        group.Estimate, group.Low, group.High, Mark,
        HoverText.Of(
            group.Level,
            $"expected score {NumberText.Fixed(group.Estimate)} (95 %: {NumberText.Interval(group.Low, group.High)})",
            $"plain mean {NumberText.Fixed(group.PlainMean)}",
            Counts(group),
            $"place {group.Rank}; the best: {NumberText.Probability(group.BestProbability)}"),
        group.PlainMean);

    private static string Counts(FavouriteGroup group) => $"{NumberText.Count(group.Cups, "cup")}, {NumberText.Count(group.Coffees, "coffee")}";
}
