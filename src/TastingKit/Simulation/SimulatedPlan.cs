using TastingKit.Statistics;

namespace TastingKit;

/// <summary>A cup that the taster means to brew.</summary>
/// <param name="Bag">The bag's place on the shelf.</param>
/// <param name="Day">Days from 1 January, from 0.</param>
/// <param name="Afternoon">Whether it belongs to the afternoon's session.</param>
/// <param name="Order">Sorts the cups of a session; random.</param>
/// <param name="Pair">The pair of repeats it belongs to, the blind ones numbered first, or -1.</param>
/// <param name="Coded">Whether it is coded beside a cup of its pair that is not.</param>
/// <param name="Frozen">Whether it is of a dose that was frozen on the day its bag was opened.</param>
internal readonly record struct PlannedCup(int Bag, int Day, bool Afternoon, double Order, int Pair, bool Coded = false, bool Frozen = false) : IComparable<PlannedCup>
{
    public int CompareTo(PlannedCup other) =>
        Day != other.Day ? Day.CompareTo(other.Day)
        : Afternoon != other.Afternoon ? Afternoon.CompareTo(other.Afternoon)
        : Order != other.Order ? Order.CompareTo(other.Order)
        : Bag.CompareTo(other.Bag);
}

/// <summary>The cups of a simulated year as planned, before anything was found out.</summary>
internal static class SimulatedPlan
{
    public static List<PlannedCup> Draw(SimulationSettings settings, SimulatedCalendar calendar, SimulatedShelf shelf, RandomStream random)
    {
        var schedule = settings.Schedule;
        var controls = schedule.ControlDoses > 0 ? 1 : 0;
        var weights = new double[shelf.Bags.Count - controls];
        for (var i = 0; i < weights.Length; i++)
            weights[i] = 0.5 + random.NextDouble();
        var repeats = schedule.BlindRepeats + schedule.SightedRepeats;
        var dealt = Chance.Deal(settings.Cups - schedule.ControlDoses - repeats - schedule.LabelPairs - schedule.FreshFrozenPairs - schedule.FlightBags, weights);

        var plan = new List<PlannedCup>(settings.Cups);
        for (var i = 0; i < dealt.Length; i++)
        {
            var bag = shelf.Bags[i + controls];
            for (var n = 0; n < dealt[i]; n++)
                plan.Add(new PlannedCup(i + controls, calendar.Draw(bag.OpenDay, bag.LastDay, random), random.NextDouble() < schedule.AfternoonShare, random.NextDouble(), -1));
        }

        // Which cups are repeated does not depend on what they taste like.
        var singles = new int[plan.Count];
        for (var i = 0; i < singles.Length; i++)
            singles[i] = i;
        random.Shuffle<int>(singles);
        var coded = repeats + schedule.LabelPairs;
        for (var pair = 0; pair < Math.Min(coded + schedule.FreshFrozenPairs, singles.Length); pair++)
        {
            var first = plan[singles[pair]] with { Pair = pair };
            plan[singles[pair]] = first;
            plan.Add(first with { Order = random.NextDouble(), Coded = pair >= repeats, Frozen = pair >= coded });
        }

        for (var dose = 0; dose < schedule.ControlDoses; dose++)
        {
            var day = (int)((dose + 0.5) / schedule.ControlDoses * calendar.DayCount);
            plan.Add(new PlannedCup(0, calendar.Draw(day, day, random), false, random.NextDouble(), -1));
        }

        // One dose of bags from all over the year, tasted side by side on its last day.
        for (var flight = 0; flight < schedule.FlightBags; flight++)
        {
            var bag = controls + (int)((flight + 0.5) / schedule.FlightBags * dealt.Length);
            plan.Add(new PlannedCup(bag, calendar.Draw(calendar.DayCount - 1, calendar.DayCount - 1, random), false, random.NextDouble(), -1, Coded: true, Frozen: true));
        }

        plan.Sort();
        return plan;
    }
}
