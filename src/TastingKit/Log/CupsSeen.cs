using TastingKit.Reading;

namespace TastingKit;

/// <summary>
/// What there is to see of a log's cups before it is one. A log may hold a million, and to fetch them costs most: they are looked at once, and of
/// many each core looks at its part.
/// </summary>
/// <param name="IsInOrder">Whether each stands where it belongs after the one before.</param>
/// <param name="RisesById">Whether each identifier lies above the one before.</param>
/// <param name="Astray">The first cup of a bag that the log does not hold.</param>
/// <param name="Attributes">The attributes that any cup has a value for.</param>
internal sealed record CupsSeen(bool IsInOrder, bool RisesById, Tasting? Astray, IReadOnlySet<TastingAttribute> Attributes)
{
    private const int ManyCups = 50_000;

    /// <summary>Looks at the cups.</summary>
    public static CupsSeen Of(Tasting[] cups, IReadOnlyDictionary<string, Bag> bags)
    {
        if (cups.Length < ManyCups)
            return Of(cups, 0, cups.Length, bags);
        var parts = new CupsSeen[Environment.ProcessorCount];
        Parallel.For(0, parts.Length, part => parts[part] =
            Of(cups, (int)((long)cups.Length * part / parts.Length), (int)((long)cups.Length * (part + 1) / parts.Length), bags));
        return new CupsSeen(
            parts.All(part => part.IsInOrder), parts.All(part => part.RisesById), parts.Select(part => part.Astray).FirstOrDefault(astray => astray is not null),
            parts.SelectMany(part => part.Attributes).ToHashSet());
    }

    private static CupsSeen Of(Tasting[] cups, int from, int to, IReadOnlyDictionary<string, Bag> bags)
    {
        var (isInOrder, risesById) = (true, true);
        var attributes = new HashSet<TastingAttribute>();
        (TastingAttribute[]?, ulong) met = default;
        for (var i = from; i < to; i++)
        {
            var cup = cups[i];
            isInOrder = isInOrder && (i == 0 || TastingLog.Order(cups[i - 1], cup) <= 0);
            risesById = risesById && (i == 0 || Identifiers.LiesAbove(cup.Id, cups[i - 1].Id));
            if ((i == from || !ReferenceEquals(cup.Bag, cups[i - 1].Bag)) && !bags.ContainsKey(cup.Bag.Id))
                return new CupsSeen(isInOrder, risesById, cup, attributes);
            if (cup.InRoom is ({ } room, var start) && !room.HasNewName(start, ref met))
                continue;
            foreach (var (attribute, _) in cup.Attributes)
                attributes.Add(attribute);
        }

        return new CupsSeen(isInOrder, risesById, null, attributes);
    }
}
