namespace TastingKit.Calibration;

/// <summary>
/// When to open a bag: whether the interval holds the true best age to open a bag of its kind, how often the ages named do, how probable each age is
/// to be near the best, and whether it is refused where the ages at which bags were opened do not tell. A bag of each process is asked for.
/// </summary>
public sealed class RestPlanCalibration(Func<TastingLog, string, RestPlan> analyse) : ICalibratedAnalysis
{
    private const int DaysApart = 10;
    private const int FewestBags = 6;
    private const double Nought = 1e-9;

    /// <inheritdoc/>
    public string Name => "rest plan";

    /// <inheritdoc/>
    public void Examine(SimulatedYear year, YearRecord record)
    {
        ArgumentNullException.ThrowIfNull(year);
        ArgumentNullException.ThrowIfNull(record);
        var cups = year.Log.Tastings.Where(cup => cup is { Score: not null, RestDays: not null, Failed: false, Purpose: Purpose.Verdict });
        foreach (var kind in cups.GroupBy(cup => cup.Bag.Coffee.Process!))
        {
            Bag[] bags = [.. kind.Select(cup => cup.Bag).DistinctBy(bag => bag.Id)];
            int[] ages = [.. bags.Select(bag => bag.OpenedOn!.Value.DayNumber - bag.RoastDate!.Value.DayNumber)];
            var plan = analyse(year.Log, bags[0].Id);
            foreach (var caution in plan.Cautions)
                record.Cautions.Add($"{Name}: {caution.Name}");
            if (bags.Length < FewestBags || ages.Max() - ages.Min() < DaysApart)
                record.Count($"{Name}: answered where bags do not tell", plan.Support.IsSupported);
            else
                record.Find($"{Name}: answered where bags may tell (reported)", plan.Support.IsSupported);
            if (plan.Support.IsSupported)
                Examine(plan, [.. bags.Select(bag => year.Truth.CoffeeOf(bag.Coffee.Id).Bags.Single(own => own.BagId == bag.Id))], record);
        }
    }

    private void Examine(RestPlan plan, BagTruth[] bags, YearRecord record)
    {
        double[] truth = [.. plan.Days.Select(opened => bags.Average(bag => Enumerable.Range(opened.Age, plan.DaysOpen + 1).Average(day => bag.RestEffect(day))))];
        OpeningDay[] named = [.. plan.Days.Where(day => day.Estimate >= plan.Best.Estimate - plan.Near)];
        for (var day = 0; day < truth.Length; day += 3)
            record.Predict($"{Name}: near the best", plan.Days[day].NearBest, truth[day] >= truth.Max() - plan.Near);
        if (truth.Max() - truth.Min() < Nought)
        {
            record.Count($"{Name}: a best day named where all are alike", plan.NamesBest);
            return;
        }

        var best = plan.Days[Array.IndexOf(truth, truth.Max())].Age;
        record.Cover($"{Name}: best age to open", plan.Best.Age, plan.BestLow, plan.BestHigh, best);
        record.Find($"{Name}: a best age named (reported)", plan.NamesBest);
        if (plan.NamesBest)
            record.Count($"{Name}: the true best age not among those named", best < named[0].Age || best > named[^1].Age);
    }
}
