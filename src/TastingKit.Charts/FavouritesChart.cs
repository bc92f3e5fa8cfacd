namespace TastingKit.Charts;

/// <summary>The highest coffees by predicted score.</summary>
internal static class FavouritesChart
{
    internal const int RowsShown = 20;

    private static readonly RowMark Mark = RowMark.Estimate("predicted score");

    public static Chart Draw(Favourites favourites)
    {
        if (favourites.Coffees.Count == 0)
            return Chart.Nothing(favourites.Question, "No coffee has a predicted score.");
        var shown = favourites.Coffees.Take(RowsShown).ToArray();
        var unit = Words.Unit(favourites);
        var rows = new IntervalRows([.. shown.Select(coffee => Row(coffee, favourites))], "95 % interval");
        var scale = rows.Scale($"Predicted score ({unit})", NumberText.Fixed, []);
        return Chart.Draw(
            ShortText.Sentence(favourites.Finding, favourites.Coffees[0].Coffee.Label),
            $"{Words.HowManyShown(shown.Length, favourites.Coffees.Count, "coffee", "coffees")}, {NumberText.Count(favourites.Computation.CupsUsed, "cup")} in all. "
            + $"Predicted score under the standard brew ({ShortText.Cut(favourites.StandardBrew.ToString(), 120)}) with its 95 % interval, each coffee by itself. At the right, the coffee\u2019s cups.",
            Words.AltText(
                $"One row a coffee, the highest predicted score first, in {unit}: a dot on its 95 % interval, a hollow mark for the plain mean of its cups",
                [.. shown.Select(c => $"{c.Rank}. {ShortText.Cut(c.Coffee.Label, 60)} {NumberText.Fixed(c.Estimate)} ({NumberText.Interval(c.Low, c.High)}), plain mean {NumberText.Fixed(c.PlainMean)}, {NumberText.Count(c.Cups, "cup")}")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static IntervalRow Row(Favourite coffee, Favourites favourites) => new(
        $"{coffee.Rank}. {coffee.Coffee.Name ?? coffee.Coffee.Id}",
        NumberText.Count(coffee.Cups, "cup"),
        coffee.Estimate, coffee.Low, coffee.High, Mark,
        HoverText.Of(
            coffee.Coffee.Label,
            $"predicted score {NumberText.Fixed(coffee.Estimate)} (95 %: {NumberText.Interval(coffee.Low, coffee.High)})",
            $"plain mean {NumberText.Fixed(coffee.PlainMean)} of {NumberText.Count(coffee.Cups, "cup")} in {NumberText.Count(coffee.Bags, "bag")}",
            $"place {coffee.Rank} (95 %: {coffee.RankLow} to {coffee.RankHigh})",
            $"among the best {favourites.TopCount}: {NumberText.Probability(coffee.TopProbability)}; the best: {NumberText.Probability(coffee.BestProbability)}"),
        coffee.PlainMean,
        Below: coffee.Coffee.Roaster ?? "");
}
