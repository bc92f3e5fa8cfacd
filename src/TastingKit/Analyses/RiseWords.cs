namespace TastingKit;

/// <summary>What the parts of a change are called, and the sentences that tell them.</summary>
internal static class RiseWords
{
    public static string Of(RiseSource source) => source switch
    {
        RiseSource.Purchasing => "coffees bought",
        RiseSource.Brewing => "brews",
        RiseSource.Equipment => "water and equipment",
        RiseSource.Coffees or RiseSource.CoffeesAndDrift => "beyond the mix",
        RiseSource.Drift => "the scale",
        RiseSource.Chance => "chance",
        _ => throw new ArgumentOutOfRangeException(nameof(source), source, "An unknown source."),
    };

    public static string Name(RisePart part) => part.Source is RiseSource.Purchasing or RiseSource.Brewing or RiseSource.Equipment ? $"mix: {part.What}" : part.What;

    public static IReadOnlyList<string> Of(ScoreRise rise)
    {
        var (earlier, later, change) = (rise.Earlier!, rise.Later!, rise.Change!);
        var named = rise.Attribute.Equals(TastingAttribute.Score) ? "Cups\u2019 mean score" : $"Cups\u2019 mean {rise.Attribute}";
        var (verb, doubt) = change.IsToldFromNone ? (change.Points > 0 ? "rose" : "fell", "") : ("went", ", which the chance of bags alone could make");
        return
        [
            $"{named} {verb} from {NumberText.Fixed(earlier.Mean)} ({earlier.Days}; {earlier.Counts}) to {NumberText.Fixed(later.Mean)} ({later.Days}; {later.Counts}): {change.Figures}{doubt}.",
            Mix(rise),
            .. Largest(rise),
            .. Beyond(rise),
            "Each factor\u2019s share is what its other mix is worth by this log\u2019s own differences. The model adds what factors do, so that a share is the same in whatever order they are changed, and so is its mean over all orders.",
        ];
    }

    private static string Mix(ScoreRise rise)
    {
        string[] parts =
        [
            .. rise.Purchasing is { } bought ? new[] { $"another mix of coffees bought {bought.Figures}" } : [],
            .. rise.Brewing is { } brewed ? new[] { $"another mix of brews {brewed.Figures}" } : [],
            .. rise.Parts.Where(part => part.Source == RiseSource.Equipment).Select(part => $"{part.What} {part.Figures}"),
        ];
        return parts.Length == 0 ? "Nothing that the log states of coffees and brews differs enough to make a mix." : $"Of that, by the mix: {string.Join("; ", parts)}.";
    }

    private static IEnumerable<string> Largest(ScoreRise rise)
    {
        foreach (var (source, lead) in new[] { (RiseSource.Purchasing, "Of the coffees bought"), (RiseSource.Brewing, "Of the brews") })
        {
            RisePart[] of = [.. rise.Parts.Where(part => part.Source == source)];
            if (of.Length > 1)
                yield return $"{lead}, the largest share is of {of.MaxBy(part => Math.Abs(part.Points))!.What}: {of.MaxBy(part => Math.Abs(part.Points))!.Figures}.";
        }
    }

    private static IEnumerable<string> Beyond(ScoreRise rise)
    {
        if (rise.PartOf(RiseSource.CoffeesAndDrift) is { } together)
            yield return $"Beyond the mix, coffees within like kinds and a drift of the scale together: {together.Figures}. Nothing in this log tells the two apart.";
        if (rise.PartOf(RiseSource.Coffees) is { } coffees)
            yield return $"Beyond the mix, coffees within like kinds: {coffees.Figures}.";
        if (rise.PartOf(RiseSource.Drift) is { } drift)
            yield return $"{rise.Drift.Assumption}, drift of the scale: {drift.Figures}.";
        if (rise.BeyondMix is { } steady)
        {
            yield return steady.IsToldFromNone
                ? $"It is more than which coffees happened to be bought: other coffees of the same kinds would {(steady.Points > 0 ? "rise" : "fall")} too, by {steady.Figures}, coffees and scale together."
                : $"With other coffees of the same kinds, no change beyond the mix is told from none: {steady.Figures}, coffees and scale together.";
        }

        if (rise.PartOf(RiseSource.Chance) is { } chance)
            yield return $"The rest, {chance.Figures}, is {chance.What}.";
    }
}
