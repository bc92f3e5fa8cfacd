namespace TastingKit.Statistics.Tests;

public sealed class MiscellaneousReferenceTests
{
    [Fact]
    public void Ranks_of_independent_normal_values_approach_their_exact_probabilities()
    {
        var block = MiscReference.Block("ranks");
        double[] means = block.Numbers("means");
        double[] errors = block.Numbers("se");
        const int draws = 400_000;
        var random = new RandomStream(17);
        var values = new double[draws, means.Length];
        for (int d = 0; d < draws; d++)
        {
            for (int i = 0; i < means.Length; i++)
            {
                values[d, i] = means[i] + errors[i] * random.NextNormal();
            }
        }

        var ranks = Ranks.Of(values, ["a", "b", "c", "d"]);
        double[,] expected = block.Matrix("probability_item_by_rank");
        double[] meanRanks = block.Numbers("expected_rank");
        for (int i = 0; i < 4; i++)
        {
            for (int r = 0; r < 4; r++)
            {
                double p = expected[i, r];
                Assert.InRange((ranks.Probability(i, r + 1) - p) / Math.Sqrt(p * (1.0 - p) / draws), -4.5, 4.5);
            }

            Assert.Equal(meanRanks[i], ranks.MeanRank(i), 0.01);
            Assert.Equal(block.Numbers("p_best")[i], ranks.ProbabilityTop(i, 1), 0.004);
        }
    }

    // The peak's model is compared as the case "rest".
    [Fact]
    public void Every_block_of_the_miscellaneous_reference_is_used_by_a_test()
    {
        string[] used =
        [
            "discrimination", "a_not_a", "kappa", "wilson", "repeatability", "icc_two_way", "krippendorff", "series", "multiplicity",
            "studentized_range", "dunnett", "simultaneous_three_means", "ranks", "peak",
        ];
        Assert.Equal(used, MiscReference.BlockNames);
    }
}
