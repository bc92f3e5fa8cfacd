namespace TastingKit.Calibration.Planning;

/// <summary>
/// How many further cups it takes to bring the 95 % interval of two brewers' difference to 85 % of its width, by the plan and by brewing every
/// bag on every brewer in turn. Both are brewed two a day from the same bags and brewers. After each day the interval is the one that a reader is
/// shown of what the brewer does (<see cref="MethodEffects"/>), every variance estimated anew.
/// </summary>
/// <param name="ByPlan">Cups by the plan; one that does not get there in sixty cups counts as sixty.</param>
/// <param name="InTurn">Cups in turn.</param>
/// <param name="Promised">What eight cups of the plan were promised to bring the width to, as a share of what they brought it to.</param>
public sealed record BrewRace(int ByPlan, int InTurn, double Promised)
{
    private const double Share = 0.85;
    private const int MostCups = 60;
    private const int CupsADay = 2;
    private const int CupsPromised = 8;
    private const string Cone = "cone dripper";
    private const string Flat = "flat-bed dripper";

    /// <summary>Cups by the plan over cups in turn.</summary>
    public double Ratio => (double)ByPlan / InTurn;

    /// <summary>A year of ninety cups of twelve bags, brewed on in both ways.</summary>
    /// <param name="shareOfCone">Share of the log's cups on the first brewer: 0.85 is an unbalanced log, 0.5 a balanced one.</param>
    /// <param name="seed">Seed of the year.</param>
    public static BrewRace Of(double shareOfCone, ulong seed)
    {
        var method = new SimulatedMethod { Brewers = [new SimulatedBrewer(Cone, 0.2, shareOfCone), new SimulatedBrewer(Flat, 0, 1 - shareOfCone)] };
        var brewing = new FurtherBrewing(new SimulationSettings { Cups = 90, Bags = 12, Method = method }, seed);
        (Bag Bag, string Brewer)[] inTurn = [.. brewing.Start.Bags.SelectMany(bag => new[] { (bag, Cone), (bag, Flat) })];
        var promised = Plan(brewing.Start, CupsPromised);
        var brought = promised.Plan.Chunk(CupsADay).Index().Aggregate(brewing.Start, (log, day) => brewing.Brew(log, Cups(day.Item), day.Index));
        return new BrewRace(
            CupsNeeded(brewing, (log, _) => Cups(Plan(log, CupsADay).Plan)),
            CupsNeeded(brewing, (_, brewed) => [.. Enumerable.Range(brewed, CupsADay).Select(i => inTurn[i % inTurn.Length])]),
            promised.Plan[^1].After.Value / HalfWidth(brought));
    }

    private static NextBrew Plan(TastingLog log, int cups) =>
        log.NextBrew(BrewQuestion.BetterBrewer(Cone, Flat), new BrewCandidates { Cups = cups, CupsADay = CupsADay });

    private static (Bag Bag, string Brewer)[] Cups(IEnumerable<PlannedBrew> plan) => [.. plan.Select(step => (step.Candidate.Bag, step.Candidate.Brewer!))];

    private static int CupsNeeded(FurtherBrewing brewing, Func<TastingLog, int, IReadOnlyList<(Bag Bag, string Brewer)>> choose)
    {
        var log = brewing.Start;
        var wanted = Share * HalfWidth(log);
        for (var brewed = 0; brewed < MostCups; brewed += CupsADay)
        {
            log = brewing.Brew(log, choose(log, brewed), brewed / CupsADay);
            if (HalfWidth(log) <= wanted)
                return brewed + CupsADay;
        }

        return MostCups;
    }

    private static double HalfWidth(TastingLog log)
    {
        var answer = log.MethodEffects(Factor.Brewer).Contrasts.Single().Answer;
        return (answer.High - answer.Low) / 2;
    }
}
