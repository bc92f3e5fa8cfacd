using System.Runtime.CompilerServices;

namespace TastingKit;

public sealed partial class TastingLog
{
    /// <summary>
    /// The log of some of the cups. Bags without a cup left, and the verdicts and blind tests that speak of them, are left out with them;
    /// reports, accounts, scales and changes stay as they were, and <see cref="Filters"/> says what was done.
    /// </summary>
    /// <param name="predicate">Which cups to keep.</param>
    /// <param name="description">What they are, for pages; the condition as written where it is not given.</param>
    public TastingLog Where(Func<Tasting, bool> predicate, [CallerArgumentExpression(nameof(predicate))] string description = "")
    {
        ArgumentNullException.ThrowIfNull(predicate);
        ArgumentNullException.ThrowIfNull(description);
        Tasting[] kept = [.. Tastings.Where(predicate)];
        var bagIds = kept.Select(cup => cup.Bag.Id).ToHashSet(StringComparer.Ordinal);
        return new TastingLog(new LogContents
        {
            Name = Name,
            Bags = [.. Bags.Where(bag => bagIds.Contains(bag.Id))],
            Tastings = kept,
            Scales = [.. _scales.Values],
            PublishedVerdicts = [.. PublishedVerdicts.Where(verdict => bagIds.Contains(verdict.BagId))],
            BlindTests = [.. BlindTests.Where(test => bagIds.Contains(test.BagA) && bagIds.Contains(test.BagB))],
            Changes = Changes,
            Problems = Problems,
            Confirmed = Confirmed,
            Accounts = Accounts,
            Vocabulary = Vocabulary,
            Filters = [.. Filters, new LogFilter(description, Tastings.Count, kept.Length)],
        }).WatchedBy(Watch);
    }

    /// <summary>The log of the cups that have one of some levels of a factor, as in <c>log.Filter(Factor.Process, "washed", "honey")</c>.</summary>
    /// <param name="factor">The factor.</param>
    /// <param name="levels">The levels to keep, at least one; case does not count. Cups for which the log does not say have <see cref="Factor.NotStated"/>.</param>
    /// <exception cref="ArgumentException">No level is given, or no cup has one of them; the message lists those there are.</exception>
    public TastingLog Filter(Factor factor, params IReadOnlyList<string> levels)
    {
        ArgumentNullException.ThrowIfNull(factor);
        ArgumentNullException.ThrowIfNull(levels);
        const int MostNamed = 20;
        if (levels.Count == 0)
            throw new ArgumentException("No level is given; one or more to keep would be right.", nameof(levels));
        var there = Tastings.Select(factor.LevelOf).ToHashSet(StringComparer.OrdinalIgnoreCase);
        if (levels.FirstOrDefault(level => !there.Contains(level)) is { } unknown)
        {
            throw new ArgumentException(
                $"No cup has the {factor} '{unknown}'. The log has {string.Join(", ", there.Order(StringComparer.OrdinalIgnoreCase).Take(MostNamed))}{(there.Count > MostNamed ? ", …" : "")}.", nameof(levels));
        }

        var kept = levels.ToHashSet(StringComparer.OrdinalIgnoreCase);
        return Where(cup => kept.Contains(factor.LevelOf(cup)), $"{factor} {string.Join(" or ", levels)}");
    }

    /// <summary>The log of the cups tasted from one day to another, both included.</summary>
    /// <param name="first">The first day.</param>
    /// <param name="last">The last day; not before <paramref name="first"/>.</param>
    /// <exception cref="ArgumentException">The last day lies before the first.</exception>
    public TastingLog Between(DateOnly first, DateOnly last)
    {
        if (last < first)
            throw new ArgumentException(FormattableString.Invariant($"The last day, {last:yyyy-MM-dd}, lies before the first, {first:yyyy-MM-dd}."), nameof(last));
        return Where(cup => cup.TastedOn >= first && cup.TastedOn <= last, FormattableString.Invariant($"tasted from {first:yyyy-MM-dd} to {last:yyyy-MM-dd}"));
    }
}
