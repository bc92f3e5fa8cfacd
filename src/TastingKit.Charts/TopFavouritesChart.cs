namespace TastingKit.Charts;

/// <summary>The probability of each coffee that it belongs among the best so many.</summary>
internal static class TopFavouritesChart
{
    private const double Likely = 0.9;
    private const double Unlikely = 0.1;

    private static readonly RowMark Sure = new("90 % or more", "circle", Palette.Main);
    private static readonly RowMark Open = new("10 % to 90 %", "diamond", Palette.Second);
    private static readonly RowMark Remote = new("under 10 %", "circle-open", Palette.Quiet);

    public static Chart Draw(Favourites favourites)
    {
        if (favourites.Coffees.Count == 0)
            return Chart.Nothing(favourites.Question, "No coffee has a predicted score.");
        var likeliest = favourites.Coffees.OrderByDescending(coffee => coffee.TopProbability).ThenBy(coffee => coffee.Rank).ToArray();
        var shown = likeliest.Take(FavouritesChart.RowsShown).ToArray();
        var rows = new IntervalRows([.. shown.Select(coffee => Row(coffee, favourites.TopCount))], "");
        var scale = RowScale.Shares($"Probability of {Place(favourites.TopCount)}", Unlikely, 0.5, Likely);
        var rest = likeliest.Length == shown.Length
            ? ""
            : $" The {NumberText.Count(likeliest.Length - shown.Length, "coffee")} not shown: {NumberText.Probability(likeliest[shown.Length].TopProbability)} or less each.";
        return Chart.Draw(
            Finding(favourites),
            $"{Words.HowManyShown(shown.Length, likeliest.Length, "coffee", "coffees", "likeliest")}, {NumberText.Count(favourites.Computation.CupsUsed, "cup")} in all. "
            + $"Probability of {Place(favourites.TopCount)} by score under the standard brew; over all coffees it adds up to {favourites.TopCount}.{rest} At the right, probability and cups.",
            Words.AltText(
                $"One row a coffee, the likeliest first: the probability of {Place(favourites.TopCount)}, with guides at 10, 50 and 90 per cent",
                [.. shown.Select(c => $"{ShortText.Cut(c.Coffee.Label, 60)} {NumberText.Probability(c.TopProbability)}, {NumberText.Count(c.Cups, "cup")}")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static string Finding(Favourites favourites)
    {
        var sure = favourites.Coffees.Count(coffee => coffee.TopProbability >= Likely);
        var open = favourites.Coffees.Count(coffee => coffee.TopProbability is >= Unlikely and < Likely);
        var known = (favourites.TopCount, sure) switch
        {
            (1, 0) => "The log is not sure which coffee is the best",
            (1, _) => "The log is sure which coffee is the best",
            (var top, 0) => $"The log is sure of none of the best {top}",
            var (top, some) => $"Of the best {top}, the log is sure of {some}",
        };
        return $"{known}; {NumberText.Count(open, sure > 0 ? "more coffee has" : "coffee has", sure > 0 ? "more coffees have" : "coffees have")} a chance between 10 % and 90 %.";
    }

    private static string Place(int topCount) => topCount == 1 ? "being the best" : $"being among the best {topCount}";

    private static IntervalRow Row(Favourite coffee, int topCount)
    {
        var mark = coffee.TopProbability switch
        {
            >= Likely => Sure,
            >= Unlikely => Open,
            _ => Remote,
        };
        return new IntervalRow(
            coffee.Coffee.Name ?? coffee.Coffee.Id,
            NumberText.Probability(coffee.TopProbability),
            coffee.TopProbability, 0, coffee.TopProbability, mark,
            HoverText.Of(
                coffee.Coffee.Label,
                $"probability of {Place(topCount)}: {NumberText.Probability(coffee.TopProbability)}",
                topCount == 1 ? "" : $"of {Place(1)}: {NumberText.Probability(coffee.BestProbability)}",
                $"place {coffee.Rank} (95 %: {coffee.RankLow} to {coffee.RankHigh})",
                $"predicted score {NumberText.Fixed(coffee.Estimate)} (95 %: {NumberText.Interval(coffee.Low, coffee.High)})",
                $"{NumberText.Count(coffee.Cups, "cup")} in {NumberText.Count(coffee.Bags, "bag")}"),
            Below: coffee.Coffee.Roaster ?? "",
            BelowAside: NumberText.Count(coffee.Cups, "cup"));
    }
}
