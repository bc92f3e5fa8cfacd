namespace TastingKit;

/// <summary>The cups that models of the score may use, and the account of those they may not.</summary>
internal sealed class ScoredCups
{
    public const string NotFrozen = "control doses that were not frozen";

    private ScoredCups(IReadOnlyList<Tasting> cups, IReadOnlyList<LeftOut> leftOut, bool areCuppings)
    {
        Cups = cups;
        LeftOut = leftOut;
        AreCuppings = areCuppings;
    }

    public IReadOnlyList<Tasting> Cups { get; }

    public IReadOnlyList<LeftOut> LeftOut { get; }

    /// <summary>Whether the log has no brewed cups to judge by, so that its cupping bowls are used instead.</summary>
    public bool AreCuppings { get; }

    /// <summary>Cups brewed for a verdict, with a score.</summary>
    public static ScoredCups Of(TastingLog log) => Of(log, TastingAttribute.Score);

    /// <summary>
    /// Cups brewed for a verdict, with a value of an attribute. Cupping bowls are not comparable with brewed cups: they are used only by a log
    /// that has nothing else.
    /// </summary>
    public static ScoredCups Of(TastingLog log, TastingAttribute attribute) => Of(log, attribute, false);

    /// <summary>The same with frozen doses of every purpose, since these were kept as they were; control doses that were not frozen stay out.</summary>
    public static ScoredCups WithFrozenDoses(TastingLog log, TastingAttribute attribute) => Of(log, attribute, true);

    /// <summary>Those of which a question's model knows enough; the others are accounted for with the reason given.</summary>
    public ScoredCups Where(Func<Tasting, bool> isKnown, string reasonAgainst)
    {
        Tasting[] known = [.. Cups.Where(isKnown)];
        return known.Length == Cups.Count ? this : new ScoredCups(known, [.. LeftOut, new LeftOut(reasonAgainst, Cups.Count - known.Length)], AreCuppings);
    }

    /// <summary>Those whose days of rest are known.</summary>
    public ScoredCups WithKnownRest() => Where(cup => cup.RestDays is not null, "without a known rest");

    private static ScoredCups Of(TastingLog log, TastingAttribute attribute, bool withFrozenDoses)
    {
        var cuppings = !log.Tastings.Any(t => t.Purpose == Purpose.Verdict && t.ValueOf(attribute) is not null);
        var used = new List<Tasting>();
        var reasons = new List<string>();
        foreach (var tasting in log.Tastings)
        {
            if (ReasonAgainst(tasting, attribute, cuppings, withFrozenDoses) is { } reason)
                reasons.Add(reason);
            else
                used.Add(tasting);
        }

        var leftOut = reasons.GroupBy(reason => reason).OrderBy(g => g.Key, StringComparer.Ordinal)
            .Select(g => new LeftOut(g.Key, g.Count())).ToArray();
        return new ScoredCups(used, leftOut, cuppings);
    }

    private static string? ReasonAgainst(Tasting tasting, TastingAttribute attribute, bool cuppings, bool withFrozenDoses) => tasting switch
    {
        { IsTestEntry: true } => "try-outs of the form",
        { Failed: true } => "failed",
        { Purpose: Purpose.DialIn } => "for dialling in",
        { Purpose: Purpose.Control, FrozenOn: null } when withFrozenDoses => NotFrozen,
        { Purpose: Purpose.Control } when !withFrozenDoses => "control doses",
        { Purpose: Purpose.Cupping } when !cuppings => "cupping bowls",
        _ when tasting.ValueOf(attribute) is null => attribute.Equals(TastingAttribute.Score) ? "without a score" : $"without {attribute}",
        _ => null,
    };
}
