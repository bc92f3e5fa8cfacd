namespace TastingKit.Calibration.Planning;

/// <summary>
/// How many further cups it takes to bring the 95 % interval of two brewers' difference to 85 % of its width, by the plan and by brewing every
/// bag on every brewer in turn. Both are brewed two a day, and both are asked after each day with every variance estimated anew.
/// </summary>
public static class BrewRace
{
    private const double Share = 0.85;
    private const int MostCups = 40;
    private const int CupsADay = 2;
    private const string Cone = "cone dripper";
    private const string Flat = "flat-bed dripper";

    /// <summary>Cups by the plan over cups in turn; one that does not get there in forty cups counts as forty.</summary>
    /// <param name="shareOfCone">Share of the log's cups on the first brewer: 0.85 is an unbalanced log, 0.5 a balanced one.</param>
    /// <param name="seed">Seed of the year.</param>
    public static double RatioOf(double shareOfCone, ulong seed)
    {
        var method = new SimulatedMethod { Brewers = [new SimulatedBrewer(Cone, 0.2, shareOfCone), new SimulatedBrewer(Flat, 0, 1 - shareOfCone)] };
        var brewing = new FurtherBrewing(new SimulationSettings { Cups = 90, Bags = 12, Method = method }, seed);
        (Bag Bag, string Brewer)[] inTurn = [.. brewing.Start.Bags.SelectMany(bag => new[] { (bag, Cone), (bag, Flat) })];
        var byPlan = CupsNeeded(brewing, (next, _) => [.. next.Plan.Select(step => (step.Candidate.Bag, step.Candidate.Brewer!))]);
        var byTurn = CupsNeeded(brewing, (_, brewed) => [.. Enumerable.Range(brewed, CupsADay).Select(i => inTurn[i % inTurn.Length])]);
        return (double)byPlan / byTurn;
    }

    private static int CupsNeeded(FurtherBrewing brewing, Func<NextBrew, int, IReadOnlyList<(Bag Bag, string Brewer)>> choose)
    {
        var log = brewing.Start;
        double? wanted = null;
        for (var brewed = 0; brewed < MostCups; brewed += CupsADay)
        {
            var next = log.NextBrew(BrewQuestion.BetterBrewer(Cone, Flat), new BrewCandidates { Cups = CupsADay, CupsADay = CupsADay });
            wanted ??= Share * next.Now.Value;
            if (next.Now.Value <= wanted)
                return brewed;
            log = brewing.Brew(log, choose(next, brewed), brewed / CupsADay);
        }

        return MostCups;
    }
}
