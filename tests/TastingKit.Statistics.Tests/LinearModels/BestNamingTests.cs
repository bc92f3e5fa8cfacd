namespace TastingKit.Statistics.Tests.LinearModels;

/// <summary>The probability of naming the best, against the closed form for two and against plain simulation for several.</summary>
public sealed class BestNamingTests
{
    private static readonly LinearMixedModelFit Fit = LinearMixedModel.Fit(new CrossedYear(6, rows: 40, bags: 6, days: 12).Design());

    private static FurtherFunction Bag(int bag) => new(Fit.At(Setting.Averaged()) + Fit.RandomEffect("bag", $"bag {bag}"));

    private static FurtherFunction Cup(int bag) => Bag(bag) + new FurtherFunction(LinearFunction.Zero, new NewLevel("day", "tomorrow", 1));

    [Fact]
    public void Of_two_the_probability_is_the_closed_form()
    {
        FurtherFunction[] closest = [.. Enumerable.Range(0, 6).Select(Bag).OrderByDescending(bag => Fit.Value(bag.Known)).Take(2)];
        var observations = FurtherObservations.Of(Fit, [.. closest, closest[0] - closest[1], Cup(0), Cup(3)]);
        var naming = BestNaming.Of(observations, [0, 1], 40_000, 1);
        foreach (int cup in new[] { 3, 4 })
        {
            // Truth and prediction agree in sign: a normal integral over what will be predicted.
            double difference = observations.Value(2), told = observations.Reduction(2, cup), left = observations.Variance(2) - told, sum = 0;
            const int Points = 20_000;
            for (int i = 0; i < Points; i++)
            {
                double predicted = difference + Math.Sqrt(told) * StandardNormal.Quantile((i + 0.5) / Points);
                sum += StandardNormal.CumulativeProbability(Math.Abs(predicted) / Math.Sqrt(left)) / Points;
            }

            // Only the truth is sampled: the standard error is at most 0.0025.
            Assert.Equal(sum, naming.ProbabilityAfter(cup), 0.01);
        }

        double now = StandardNormal.CumulativeProbability(Math.Abs(observations.Value(2)) / Math.Sqrt(observations.Variance(2)));
        Assert.Equal(now, naming.Probability, 0.01);
    }

    [Fact]
    public void Of_several_the_probability_is_that_of_planned_cups_played_through()
    {
        int[] rivals = [0, 1, 2, 3, 4, 5];
        var observations = FurtherObservations.Of(Fit, [.. rivals.Select(Bag), .. rivals.Select(Cup)]);
        var naming = BestNaming.Of(observations, rivals, 40_000, 2);
        int likeliest = rivals.MaxBy(bag => naming.ProbabilitiesOfBeingBest()[bag]);
        int closest = rivals.Where(bag => bag != likeliest).MaxBy(bag => naming.ProbabilitiesOfBeingBest()[bag]);
        var after = naming.After(6 + likeliest);

        // The same cup played through draw by draw, and a second one on top of it.
        Assert.Equal(after.Probability, naming.ProbabilityAfter(6 + likeliest), 0.012);
        Assert.Equal(after.After(6 + closest).Probability, after.ProbabilityAfter(6 + closest), 0.012);
        Assert.All(rivals, bag => Assert.True(naming.ProbabilityAfter(6 + bag) > naming.Probability - 0.005));
        Assert.True(after.ProbabilityAfter(6 + closest) > naming.Probability + 0.01, "two cups of the closest rivals must help");
        Assert.Equal(1, naming.ProbabilitiesOfBeingBest().Sum(), 1e-9);
    }

    [Fact]
    public void Cups_without_end_name_the_best()
    {
        int[] rivals = [0, 1, 2, 3, 4, 5];
        var naming = BestNaming.Of(FurtherObservations.Of(Fit, [.. rivals.Select(Bag), .. rivals.Select(Bag)]), rivals, 1000, 3);
        for (int round = 0; round < 500; round++)
        {
            foreach (int bag in rivals) naming = naming.After(6 + bag);
        }

        Assert.InRange(naming.Probability, 0.95, 1);
    }
}
