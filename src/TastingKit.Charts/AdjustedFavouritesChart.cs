namespace TastingKit.Charts;

/// <summary>The favourites on one scale, each with its place and predicted score by the scores as written beside it.</summary>
internal static class AdjustedFavouritesChart
{
    private static readonly RowMark Mark = RowMark.Estimate("on one scale");

    public static Chart Draw(AdjustedFavourites favourites)
    {
        if (favourites.Coffees.Count == 0 || favourites.Drift is not { } drift)
            return Chart.Nothing(favourites.Question, "No coffee has a predicted score on one scale.");
        var shown = favourites.Coffees.Take(FavouritesChart.RowsShown).ToArray();
        var unit = Words.Unit(favourites);
        var rows = new IntervalRows([.. shown.Select(Row)], "95 % interval", "by the scores as written");
        var scale = rows.Scale($"Predicted score ({unit})", NumberText.Fixed, []);
        return Chart.Draw(
            ShortText.Sentence(favourites.Finding, favourites.Coffees[0].Coffee.Label),
            $"{Words.HowManyShown(shown.Length, favourites.Coffees.Count, "coffee", "coffees")}, {NumberText.Count(favourites.Computation.CupsUsed, "cup")} in all. {drift.Anchor.Assumption}: "
            + "predicted score once the drift is taken out, with its 95 % interval, the drift\u2019s own uncertainty in it. At the right, the place by the scores as written.",
            Words.AltText(
                $"One row a coffee, the highest on one scale first, in {unit}: a dot on its 95 % interval, a hollow mark for its score as written",
                [.. shown.Select(c => $"{c.Rank}. {ShortText.Cut(c.Coffee.Label, 60)} {NumberText.Fixed(c.Estimate)} ({NumberText.Interval(c.Low, c.High)}), place {c.RankAsWritten} as written")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static IntervalRow Row(AdjustedFavourite coffee) => new(
        $"{coffee.Rank}. {coffee.Coffee.Name ?? coffee.Coffee.Id}",
        coffee.Rank == coffee.RankAsWritten ? "same place" : $"was {coffee.RankAsWritten}.",
        coffee.Estimate, coffee.Low, coffee.High, Mark,
        HoverText.Of(
            coffee.Coffee.Label,
            $"on one scale {NumberText.Fixed(coffee.Estimate)} (95 %: {NumberText.Interval(coffee.Low, coffee.High)}), place {coffee.Rank}",
            $"as written {NumberText.Fixed(coffee.EstimateAsWritten)}, place {coffee.RankAsWritten}"),
        coffee.EstimateAsWritten,
        Below: coffee.Coffee.Roaster ?? "");
}
