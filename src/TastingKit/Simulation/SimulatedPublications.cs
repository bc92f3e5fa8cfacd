using System.Globalization;
using TastingKit.Statistics;

namespace TastingKit;

/// <summary>What a simulated reviewer published, and the blind tests that were made.</summary>
internal sealed class SimulatedPublications
{
    private readonly SimulationSettings _settings;
    private readonly SimulatedCalendar _calendar;

    public SimulatedPublications(
        SimulationSettings settings, SimulatedCalendar calendar, IReadOnlyList<Bag> bags, IReadOnlyList<Tasting> tastings, RandomStream random)
    {
        (_settings, _calendar) = (settings, calendar);
        Verdicts = DrawVerdicts(bags, tastings, random.Split(0));
        BlindTests = DrawTriangles(tastings, random.Split(1));
    }

    public IReadOnlyList<PublishedVerdict> Verdicts { get; }

    public IReadOnlyList<BlindTest> BlindTests { get; }

    /// <summary>A bag with four verdict cups or more is reviewed, mostly a few days after its last, by the mean of its scores.</summary>
    private PublishedVerdict[] DrawVerdicts(IReadOnlyList<Bag> bags, IReadOnlyList<Tasting> tastings, RandomStream random)
    {
        var cupsOf = tastings.Where(cup => cup is { Purpose: Purpose.Verdict, Failed: false, Score: not null }).ToLookup(cup => cup.Bag.Id);
        var verdicts = new List<PublishedVerdict>();
        foreach (var bag in bags)
        {
            var delay = 1 + random.NextInt32(6);
            var published = random.NextDouble() < 0.85;
            var corrected = random.NextDouble() < 0.04;
            Tasting[] cups = [.. cupsOf[bag.Id]];
            if (cups.Length < 4 || !published)
                continue;
            var on = cups[^1].TastedOn.AddDays(delay);
            if (on.Year != _settings.Year)
                continue;
            var score = _settings.Taster.Record(cups.Average(cup => cup.Score!.Value), _settings.Taster.ScoreScale);
            verdicts.Add(new PublishedVerdict(
                on, bag.Id, score, Sentence(bag, cups),
                bag.Obtained switch
                {
                    "bought" => "bought at the full price",
                    "gift" => "a gift of the roaster",
                    "sample" => "a free sample of the roaster",
                    _ => "sent by the sponsor of the episode",
                },
                corrected ? on.AddDays(9) : null));
        }

        return [.. verdicts.OrderBy(verdict => verdict.PublishedOn)];
    }

    private static string Sentence(Bag bag, Tasting[] cups)
    {
        var notes = cups.SelectMany(cup => cup.Notes).CountBy(note => note)
            .OrderByDescending(count => count.Value).ThenBy(count => count.Key, StringComparer.Ordinal).ToArray();
        var best = cups.Where(cup => cup.Brewer is not null).GroupBy(cup => cup.Brewer!)
            .OrderByDescending(group => group.Average(cup => cup.Score!.Value)).ThenBy(group => group.Key, StringComparer.Ordinal).FirstOrDefault();
        var first = notes switch
        {
            [] => "Hard to put a word to.",
            [var only] => $"Mostly {only.Key}.",
            [var one, var two, ..] when one.Value == cups.Length => $"Every cup had the {one.Key}; behind it, {two.Key}.",
            [var one, var two, ..] => $"More {one.Key} than {two.Key}.",
        };
        var rest = cups[^1].RestDays is { } days ? $" Still going on day {days.ToString(CultureInfo.InvariantCulture)}." : "";
        return $"{first}{(best is null ? "" : $" Take the {best.Key}.")}{(bag.RoastLevel == "dark" ? " Roasted darker than I would." : rest)}";
    }

    private BlindTest[] DrawTriangles(IReadOnlyList<Tasting> tastings, RandomStream random)
    {
        const int trials = 6;
        var tests = new List<BlindTest>();
        for (var i = 0; i < _settings.Schedule.TriangleTests; i++)
        {
            var day = _calendar.FirstDay.AddDays((int)((i + 0.5) / _settings.Schedule.TriangleTests * _calendar.DayCount));
            var correct = 0;
            for (var trial = 0; trial < trials; trial++)
                correct += random.NextDouble() < _settings.Schedule.TriangleCorrect ? 1 : 0;

            // Two bags that were both on the counter in the weeks around that day.
            string[] near = [.. tastings.Where(cup => cup.Purpose == Purpose.Verdict && Math.Abs(cup.TastedOn.DayNumber - day.DayNumber) <= 14)
                .Select(cup => cup.Bag.Id).Distinct()];
            var first = near.Length > 0 ? random.NextInt32(near.Length) : 0;
            if (near.Length < 2)
                continue;
            var second = (first + 1 + random.NextInt32(near.Length - 1)) % near.Length;
            tests.Add(new BlindTest(SimulatedShelf.Invariant("x", i + 1, 2), day, "triangle", null, near[first], near[second], trials, correct));
        }

        return [.. tests];
    }
}
