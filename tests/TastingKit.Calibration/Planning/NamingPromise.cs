namespace TastingKit.Calibration.Planning;

/// <summary>Whether the best of a year's coffees was named, now and after the four cups of the plan, and with what probability that was promised.</summary>
/// <param name="PromisedNow">Probability of naming the best now.</param>
/// <param name="IsNamedNow">Whether the coffee named now is the best.</param>
/// <param name="PromisedAfter">Probability promised for after the plan.</param>
/// <param name="IsNamedAfter">Whether the coffee named after it is the best.</param>
public sealed record NamingPromise(double PromisedNow, bool IsNamedNow, double PromisedAfter, bool IsNamedAfter)
{
    private const int CupsOfPlan = 4;

    // A reader gets up to 20,000: these tell a probability to within 0.008 a year.
    private const int DrawsOfTheTruth = 4000;

    /// <summary>A year of eight coffees and sixty-four cups, its plan brewed and asked again.</summary>
    /// <param name="seed">Seed of the year.</param>
    public static NamingPromise Of(ulong seed)
    {
        var method = new SimulatedMethod { Brewers = [new SimulatedBrewer("cone dripper", 0, 0.5), new SimulatedBrewer("flat-bed dripper", 0.2, 0.5)] };
        var brewing = new FurtherBrewing(new SimulationSettings { Cups = 64, Bags = 8, Method = method }, seed);
        string[] coffees = [.. brewing.Start.Tastings.Where(cup => cup.Score is not null).Select(cup => cup.Bag.Coffee.Id).Distinct()];
        var candidates = new BrewCandidates { Cups = CupsOfPlan, CupsADay = CupsOfPlan };
        var question = BrewQuestion.BestCoffee(coffees);
        var now = Ask(brewing.Start, candidates);
        var best = coffees.MaxBy(coffee => brewing.TrueScore(coffee, now.StandardBrew.Brewer!));
        var after = Ask(brewing.Brew(brewing.Start, [.. now.Plan.Select(step => (step.Candidate.Bag, step.Candidate.Brewer!))], 0), candidates with { Cups = 1 });
        return new NamingPromise(now.Now.Value, now.Named!.Id == best, now.Plan[^1].After.Value, after.Named!.Id == best);

        NextBrew Ask(TastingLog log, BrewCandidates from) => NextBrewAnalysis.Of(log, question, from, TastingLog.DefaultSeed, DrawsOfTheTruth);
    }

    /// <summary>Mean promised probability, the realised rate, and the standard error of the one less the other over years.</summary>
    /// <param name="years">Years.</param>
    /// <param name="isAfter">After the plan, or now.</param>
    public static PromiseKept Compare(IReadOnlyList<NamingPromise> years, bool isAfter)
    {
        ArgumentNullException.ThrowIfNull(years);
        return PromiseKept.Of([.. years.Select(year => isAfter ? (year.PromisedAfter, Share(year.IsNamedAfter)) : (year.PromisedNow, Share(year.IsNamedNow)))]);
    }

    /// <summary>The same of what the plan raises both by, each year held against itself.</summary>
    /// <param name="years">Years.</param>
    public static PromiseKept CompareRise(IReadOnlyList<NamingPromise> years)
    {
        ArgumentNullException.ThrowIfNull(years);
        return PromiseKept.Of([.. years.Select(year => (year.PromisedAfter - year.PromisedNow, Share(year.IsNamedAfter) - Share(year.IsNamedNow)))]);
    }

    private static double Share(bool isNamed) => isNamed ? 1 : 0;
}

/// <summary>What was promised over years, and what came of it.</summary>
/// <param name="Promised">The mean promised.</param>
/// <param name="Realised">The mean that came.</param>
/// <param name="ErrorOfDifference">Standard error of the one less the other, year by year.</param>
/// <param name="ErrorOfRealised">Standard error of what came.</param>
public sealed record PromiseKept(double Promised, double Realised, double ErrorOfDifference, double ErrorOfRealised)
{
    internal static PromiseKept Of(IReadOnlyList<(double Promised, double Realised)> years) => new(
        years.Average(year => year.Promised), years.Average(year => year.Realised),
        StandardError([.. years.Select(year => year.Promised - year.Realised)]), StandardError([.. years.Select(year => year.Realised)]));

    private static double StandardError(double[] values)
    {
        var mean = values.Average();
        return Math.Sqrt(values.Sum(value => (value - mean) * (value - mean)) / Math.Max(1, values.Length - 1) / values.Length);
    }
}
