using System.Globalization;

namespace TastingKit;

/// <summary>A place for one cup: a day, the cup's place in it, and the sitting it belongs to.</summary>
internal sealed record BrewSlot(DateOnly Day, int Position, string Session)
{
    /// <summary>The places of a plan's cups, within the cups a day and the latest hour.</summary>
    /// <param name="log">The log, whose cups of the first day count.</param>
    /// <param name="lastCup">Its last cup.</param>
    /// <param name="candidates">The limits.</param>
    public static IReadOnlyList<BrewSlot> Of(TastingLog log, DateTime lastCup, BrewCandidates candidates)
    {
        var from = candidates.From ?? lastCup.Date.AddDays(1);
        var day = DateOnly.FromDateTime(from);
        if (candidates.LatestHour is { } latest && TimeOnly.FromDateTime(from) >= latest)
            day = day.AddDays(1);
        // At least one cup finds room on a day, or a plan would never end.
        var allowance = Math.Max(candidates.CupsADay, candidates.CupsOfAllowance);
        var slots = new List<BrewSlot>();
        for (; slots.Count < candidates.Cups; day = day.AddDays(1))
        {
            Tasting[] logged = [.. log.Tastings.Where(cup => cup.TastedOn == day)];
            var session = logged.MaxBy(cup => cup.TastedAt)?.Session ?? $"planned for {Said(day)}";
            for (var i = 0; slots.Count < candidates.Cups && logged.Length + ((i + 1) * candidates.CupsOfAllowance) <= allowance + 1e-9; i++)
                slots.Add(new BrewSlot(day, logged.Length + i + 1, session));
        }

        return slots;
    }

    public static string Said(DateOnly day) => day.ToString("yyyy-MM-dd", CultureInfo.InvariantCulture);
}
