using TastingKit.Statistics;

namespace TastingKit;

/// <summary>Computes <see cref="LoggedYear"/>.</summary>
internal static class LoggedAnalysis
{
    private const int FewestCoffees = 3;

    public static LoggedYear Of(TastingLog log)
    {
        var cups = log.Tastings;
        var coffees = cups.Select(t => t.Bag.Coffee).DistinctBy(c => c.Id).ToArray();
        var computation = new Computation(
            "none: counts, and for each note the share of the other cups of its coffees that have it too",
            "mean over the cups with the note, each cup left out of its own share; intervals with coffees as the unit (Korn and Graubard)",
            cups.Count, []);
        var support = cups.Count > 0
            ? Support.Given
            : Support.Missing("The log holds no accepted cup.", "See the problems found on reading, and mend the rows they name.");
        return new LoggedYear(
            cups.Select(t => t.Bag.Id).Distinct().Count(),
            coffees.Length,
            cups.Count,
            coffees.Select(c => c.Roaster).OfType<string>().Distinct().Count(),
            coffees.SelectMany(c => c.Countries).Distinct().Count(),
            Months(cups), Notes(cups), [], computation, support);
    }

    private static List<MonthCounts> Months(IReadOnlyList<Tasting> cups)
    {
        var months = new List<MonthCounts>();
        if (cups.Count == 0)
            return months;
        var byMonth = cups.ToLookup(t => new DateOnly(t.TastedAt.Year, t.TastedAt.Month, 1));
        var firstMonthOfBag = cups.GroupBy(t => t.Bag.Id).Select(g => g.Min(t => new DateOnly(t.TastedAt.Year, t.TastedAt.Month, 1)))
            .GroupBy(month => month).ToDictionary(g => g.Key, g => g.Count());
        var last = byMonth.Max(g => g.Key);
        for (var month = byMonth.Min(g => g.Key); month <= last; month = month.AddMonths(1))
        {
            var judged = byMonth[month].Count(t => t is { Failed: false, Score: not null, Purpose: Purpose.Verdict or Purpose.Cupping });
            months.Add(new MonthCounts(month, judged, byMonth[month].Count() - judged, firstMonthOfBag.GetValueOrDefault(month)));
        }

        return months;
    }

    private static List<NoteConstancy> Notes(IReadOnlyList<Tasting> cups)
    {
        // Cups without any note say nothing of constancy: the taster may not have written notes that day.
        var noted = cups.Where(t => t.Notes.Count > 0 && !t.Failed)
            .Select(t => (Coffee: t.Bag.Coffee.Id, Notes: t.Notes.Select(n => n.ToLowerInvariant()).ToHashSet(StringComparer.Ordinal)))
            .GroupBy(t => t.Coffee).Where(g => g.Count() >= 2).Select(g => g.Select(t => t.Notes).ToArray()).ToArray();
        var shares = new Dictionary<string, List<(int Coffee, double Share)>>(StringComparer.Ordinal);
        for (var coffee = 0; coffee < noted.Length; coffee++)
        {
            var counts = noted[coffee].SelectMany(n => n).GroupBy(n => n).Select(g => (Note: g.Key, Cups: g.Count()));
            foreach (var (note, withIt) in counts)
            {
                var foundAgain = (withIt - 1.0) / (noted[coffee].Length - 1);
                if (!shares.TryGetValue(note, out var list))
                    shares[note] = list = [];
                list.AddRange(Enumerable.Repeat((coffee, foundAgain), withIt));
            }
        }

        return [.. shares.Where(s => s.Value.Select(v => v.Coffee).Distinct().Count() >= FewestCoffees)
            .Select(s => Summarise(s.Key, s.Value))
            .OrderByDescending(n => n.Low).ThenByDescending(n => n.Constancy).ThenBy(n => n.Note, StringComparer.Ordinal)];
    }

    private static NoteConstancy Summarise(string note, IReadOnlyList<(int Coffee, double Share)> cups)
    {
        var share = ClusteredProportion.Of([.. cups.Select(c => c.Share)], [.. cups.Select(c => c.Coffee)]);
        return new NoteConstancy(note, share.Value, share.Low, share.High, cups.Count, cups.Select(c => c.Coffee).Distinct().Count());
    }
}
