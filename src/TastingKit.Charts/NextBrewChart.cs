namespace TastingKit.Charts;

/// <summary>The cups that can be brewed next by what each is expected to do for the question.</summary>
internal static class NextBrewChart
{
    private const int RowsShown = 12;

    private static readonly RowMark OfPlan = new("cup of the plan", "diamond", Palette.Second);
    private static readonly RowMark Other = new("other cup that can be brewed", "circle", Palette.Main);

    public static Chart Draw(NextBrew next)
    {
        var shown = next.Gains.Take(RowsShown).ToArray();
        var rows = new IntervalRows([.. shown.Select((gain, i) => Row(next, gain, i + 1))], "");
        var isProbability = next.Now.IsProbability;
        var scale = rows.Scale(
            isProbability ? "Rise of the probability (points of 100)" : "Taken off the answer\u2019s variance (%)", NumberText.Fixed, [0.0]);
        var plan = next.Plan.Count == 0 ? "" : $" After the {NumberText.Count(next.Plan.Count, "cup")} of the plan: {NextBrew.Say(next.Plan[^1].After)}.";
        return Chart.Draw(
            ShortText.Sentence(next.Finding, [next.Gains[0].Candidate.Bag.Coffee.Label, .. Brew(next.Gains[0].Candidate), .. next.Coffees.Select(coffee => coffee.Label), .. Levels(next.Asked)]),
            $"{Words.HowManyShown(shown.Length, next.Gains.Count, "possible cup", "possible cups")}, from {NumberText.Count(next.Computation.CupsUsed, "cup")} so far. "
            + (isProbability
                ? $"Bars: by how much one such cup is expected to raise the probability of naming the best of {NumberText.Count(next.Coffees.Count, "coffee")}, {NextBrew.Say(next.Now)} now."
                : $"Bars: the share of the answer\u2019s variance that one such cup takes off; the 95 % interval reaches {NextBrew.Say(next.Now)} points now.")
            + $"{plan} Expected from the design of the log, so there are no intervals. At the right, the gain and where the answer would stand; below, the brew and the coffee\u2019s cups so far.",
            Words.AltText(
                "One bar a cup that can be brewed, the highest expected gain first",
                [.. shown.Select(gain => $"{ShortText.Cut(gain.Candidate.Bag.Coffee.Label, 60)}, {ShortText.Cut(gain.Candidate.Brew, 60)}: {next.Say(gain)}, to {NextBrew.Say(gain.After)}, {NumberText.Count(gain.CupsSoFar, "cup")} so far")]),
            rows.Traces(scale),
            rows.Layout(scale));
    }

    private static IntervalRow Row(NextBrew next, BrewGain gain, int place)
    {
        var cup = gain.Candidate;
        int[] places = [.. Enumerable.Range(1, next.Plan.Count).Where(i => next.Plan[i - 1].Candidate is var planned
            && planned.Bag.Id == cup.Bag.Id && planned.Brewer == cup.Brewer && planned.RecipeFrom == cup.RecipeFrom)];
        var inPlan = places.Length == 0 ? "" : $"no. {string.Join(", ", places)} of the plan";
        var value = 100 * gain.Gain;
        return new IntervalRow(
            $"{place}. {cup.Bag.Coffee.Name ?? cup.Bag.Coffee.Id}",
            $"{NumberText.Fixed(value, 1)}: {NextBrew.Say(gain.After)}",
            value, Math.Min(0, value), Math.Max(0, value), places.Length > 0 ? OfPlan : Other,
            HoverText.Of(
                cup.Bag.Coffee.Label,
                ShortText.Cut(cup.Brew, 60),
                $"{next.Say(gain)}, to {NextBrew.Say(gain.After)}",
                inPlan,
                $"bag {ShortText.Cut(cup.Bag.Id, 20)}{(cup.IsSealed ? ", sealed" : "")}, {NumberText.Fixed(cup.GramsLeft, 0)} g left{(cup.RestDays is { } rest ? $", {NumberText.Count(rest, "day")} of rest" : "")}"),
            Below: cup.Brew,
            BelowAside: NumberText.Count(gain.CupsSoFar, "cup"));
    }

    private static IEnumerable<string> Brew(BrewCandidate candidate) => new[] { candidate.Brewer, candidate.RecipeFrom }.OfType<string>();

    private static IEnumerable<string> Levels(BrewQuestion asked) =>
        asked.Match(better => new[] { better.First, better.Second }.OfType<string>(), _ => [], _ => []);
}
