namespace TastingKit;

/// <summary>What a reader of a course over rest must know.</summary>
internal static class RestCautions
{
    private const int FewestBags = 6;

    /// <summary>Days by which the ages at which bags were opened must differ, over at least <see cref="FewestBags"/> bags, to tell sealed rest from open.</summary>
    public const int FewestDaysApart = 10;

    public static IReadOnlyList<Caution> Of(TastingLog log, IReadOnlyList<Tasting> cups, RestModel model, TastingAttribute attribute, ulong seed)
    {
        var cautions = new List<Caution> { RunsTogether(cups) };
        var bags = cups.Select(c => c.Bag.Id).Distinct().Count();
        if (bags < FewestBags)
        {
            cautions.Add(new Caution("few-bags",
                $"It rests on {NumberText.Count(bags, "bag")}: it is told of these bags alone, and another may run otherwise."));
        }

        if (model.Fit.Cautions.Any(c => c.Contains("dropped", StringComparison.Ordinal)))
        {
            cautions.Add(new Caution("brew-runs-with-rest",
                "Part of the brew changed only together with something else in the model, and is not told from it."));
        }

        Caution?[] others =
        [
            model.OneOffsSetAside, model.SessionsLeftOut, ScoreCautions.EquipmentChanged(log, cups), ScoreCautions.Ceiling([.. cups.Select(c => c.ValueOf(attribute)!.Value)], log.ScaleOf(attribute)),
            ScoreCautions.HangTogether(model.ResidualsWithBagLines(), cups, seed),
        ];
        cautions.AddRange(others.OfType<Caution>());
        return cautions;
    }

    /// <summary>The age in days at which each bag was opened: as logged, else that of its first cup.</summary>
    public static IReadOnlyList<int> OpeningAges(IEnumerable<Tasting> cups) =>
        [.. cups.Where(c => c.Bag.RoastDate is not null).GroupBy(c => c.Bag.Id)
            .Select(bag => (bag.First().Bag.OpenedOn ?? bag.Min(c => c.TastedOn)).DayNumber - bag.First().Bag.RoastDate!.Value.DayNumber)
            .Where(age => age >= 0).Order()];

    private static Caution RunsTogether(IReadOnlyList<Tasting> cups)
    {
        var ages = OpeningAges(cups);
        var sealedRest = ages.Count < FewestBags || ages[^1] - ages[0] < FewestDaysApart
            ? "these bags were opened at much the same age, so that nothing is told of rest in a sealed bag"
            : $"these bags were opened from day {ages[0]} to day {ages[^1]} of their age, but the course is the one within bags, mostly open ones";
        return new Caution("rest-runs-with-calendar",
            $"Inside one bag the days of rest, the days since opening, the calendar and the number of the cup run together: the course holds them all, a drifting scale tilts it, and {sealedRest}.");
    }
}
