namespace TastingKit.Calibration.Planning;

/// <summary>Whether the best of a year's coffees was named, now and after the four cups of the plan, and with what probability that was promised.</summary>
/// <param name="PromisedNow">Probability of naming the best now.</param>
/// <param name="IsNamedNow">Whether the coffee named now is the best.</param>
/// <param name="PromisedAfter">Probability promised for after the plan.</param>
/// <param name="IsNamedAfter">Whether the coffee named after it is the best.</param>
public sealed record NamingPromise(double PromisedNow, bool IsNamedNow, double PromisedAfter, bool IsNamedAfter)
{
    private const int CupsOfPlan = 4;

    /// <summary>A year of eight coffees and sixty-four cups, its plan brewed and asked again.</summary>
    /// <param name="seed">Seed of the year.</param>
    public static NamingPromise Of(ulong seed)
    {
        var method = new SimulatedMethod { Brewers = [new SimulatedBrewer("cone dripper", 0, 0.5), new SimulatedBrewer("flat-bed dripper", 0.2, 0.5)] };
        var brewing = new FurtherBrewing(new SimulationSettings { Cups = 64, Bags = 8, Method = method }, seed);
        string[] coffees = [.. brewing.Start.Tastings.Where(cup => cup.Score is not null).Select(cup => cup.Bag.Coffee.Id).Distinct()];
        var candidates = new BrewCandidates { Cups = CupsOfPlan, CupsADay = CupsOfPlan };
        var question = BrewQuestion.BestCoffee(coffees);
        var now = brewing.Start.NextBrew(question, candidates);
        var best = coffees.MaxBy(coffee => brewing.TrueScore(coffee, now.StandardBrew.Brewer!));
        var after = brewing.Brew(brewing.Start, [.. now.Plan.Select(step => (step.Candidate.Bag, step.Candidate.Brewer!))], 0).NextBrew(question, candidates with { Cups = 1 });
        return new NamingPromise(now.Now.Value, now.Named!.Id == best, now.Plan[^1].After.Value, after.Named!.Id == best);
    }

    /// <summary>Mean promised probability, the realised rate, and the standard error of the one less the other over years.</summary>
    /// <param name="years">Years.</param>
    /// <param name="isAfter">After the plan, or now.</param>
    public static (double Promised, double Realised, double StandardError) Compare(IReadOnlyList<NamingPromise> years, bool isAfter)
    {
        ArgumentNullException.ThrowIfNull(years);
        double[] promised = [.. years.Select(year => isAfter ? year.PromisedAfter : year.PromisedNow)];
        double[] named = [.. years.Select(year => (isAfter ? year.IsNamedAfter : year.IsNamedNow) ? 1.0 : 0)];
        double[] differences = [.. promised.Zip(named, (p, n) => p - n)];
        var mean = differences.Average();
        var variance = differences.Sum(d => (d - mean) * (d - mean)) / Math.Max(1, differences.Length - 1);
        return (promised.Average(), named.Average(), Math.Sqrt(variance / differences.Length));
    }
}
