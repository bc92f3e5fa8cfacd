namespace TastingKit.Statistics.Tests.LinearModels;

public class JointDrawsTests
{
    [Theory]
    [InlineData(1, false)]
    [InlineData(0.15, false)]
    [InlineData(1, true)]
    public void Draws_follow_the_posterior_that_quadrature_gives(double scaleOfBatches, bool areKnownToDiffer)
    {
        // Six batches of five: the posterior of both standard deviations on a fine grid, from the one-way model's sums of squares.
        const int groups = 6, each = 5;
        var random = new RandomStream(17);
        double[] y = new double[groups * each];
        string[] batch = new string[y.Length];
        for (int g = 0; g < groups; g++)
        {
            double effect = 0.5 * random.NextNormal();
            for (int k = 0; k < each; k++) (y[g * each + k], batch[g * each + k]) = (effect + random.NextNormal(), $"b{g}");
        }

        var fit = LinearMixedModel.Fit(ModelDesign.For("y", y).WithRandomIntercept(CategoricalColumn.From("batch", batch)));
        var draws = fit.DrawJoint(40_000, 3, new DrawOptions
        {
            VarianceProposals = 8_000,
            PriorScaleOfEffect = new Dictionary<(string, string), double> { [("batch", "(Intercept)")] = scaleOfBatches },
            KnownToDiffer = areKnownToDiffer ? [("batch", "(Intercept)")] : [],
        });
        double[] spread = draws.StandardDeviations("batch"), residual = draws.ResidualStandardDeviations();

        double mean = y.Average(), within = 0, between = 0;
        for (int g = 0; g < groups; g++)
        {
            double[] own = y[(g * each)..((g + 1) * each)];
            within += own.Sum(value => Math.Pow(value - own.Average(), 2));
            between += each * Math.Pow(own.Average() - mean, 2);
        }

        double scale = Math.Sqrt(y.Sum(value => Math.Pow(value - mean, 2)) / (y.Length - 1));
        double HalfT(double s, double ofScale) => Math.Pow(1 + s * s / (3 * Math.Pow(ofScale * scale, 2)), -2);
        double total = 0, meanSpread = 0, meanResidual = 0, small = 0;
        const double step = 0.01;
        for (double s = step / 2; s < 12; s += step)
        {
            for (double e = step / 2; e < 4; e += step)
            {
                double level = e * e + each * s * s;
                double logLikelihood = -0.5 * (groups * (each - 1) * Math.Log(e * e) + within / (e * e) + (groups - 1) * Math.Log(level) + between / level);
                double density = Math.Exp(logLikelihood + 20) * HalfT(s, scaleOfBatches) * HalfT(e, 1) * (areKnownToDiffer ? s : 1);
                total += density;
                meanSpread += density * s;
                meanResidual += density * e;
                if (s < 0.25) small += density;
            }
        }

        Assert.Equal(meanSpread / total, spread.Average(), 0.02);
        Assert.Equal(meanResidual / total, residual.Average(), 0.01);
        Assert.Equal(small / total, spread.Count(s => s < 0.25) / (double)spread.Length, 0.02);
        Assert.True(draws.EffectiveSampleSize > 2_000);
    }

    [Fact]
    public void No_draw_collapses_where_the_fit_is_singular()
    {
        double[] y = [1, 3, 3, 1, 1, 3, 3, 1, 2, 2];
        var group = CategoricalColumn.From("coffee", ["a", "a", "b", "b", "c", "c", "d", "d", "e", "e"]);
        var fit = LinearMixedModel.Fit(ModelDesign.For("y", y).WithRandomIntercept(group));
        Assert.True(fit.IsSingular);
        var draws = fit.DrawJoint(2_000, 5);
        Assert.All(draws.StandardDeviations("coffee"), deviation => Assert.True(deviation > 0));
        double[,] values = draws.Evaluate([fit.RandomEffect("coffee", "a") - fit.RandomEffect("coffee", "b")]);
        Assert.Equal(2_000, Enumerable.Range(0, 2_000).Select(draw => values[draw, 0]).Distinct().Count());
    }

    [Fact]
    public void Effects_scatter_about_their_modes_by_at_least_the_prediction_error()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(8).Design());
        LinearFunction[] bags = [.. Enumerable.Range(0, 70).Select(bag => fit.RandomEffect("bag", $"bag {bag}") + fit.At(Setting.Averaged()))];
        double[,] values = fit.DrawJoint(8_000, 2).Evaluate(bags);
        for (int bag = 0; bag < bags.Length; bag += 7)
        {
            double[] own = [.. Enumerable.Range(0, 8_000).Select(draw => values[draw, bag])];
            double mean = own.Average(), deviation = Math.Sqrt(own.Sum(value => (value - mean) * (value - mean)) / (own.Length - 1));
            var estimate = fit.Estimate(bags[bag]);
            Assert.Equal(estimate.Value, mean, 0.1 * estimate.StandardError);
            Assert.InRange(deviation / estimate.StandardError, 0.96, 1.15);
        }
    }

    [Fact]
    public void Correlated_slopes_are_drawn_about_their_estimates()
    {
        string[][] rows = [.. File.ReadLines(Path.Combine(AppContext.BaseDirectory, "ReferenceCases", "sleepstudy", "data.csv")).Skip(1).Select(line => line.Split(','))];
        double[] Numbers(int column) => [.. rows.Select(row => double.Parse(row[column], System.Globalization.CultureInfo.InvariantCulture))];
        var days = new NumericColumn("Days", Numbers(1));
        var subject = CategoricalColumn.From("Subject", [.. rows.Select(row => row[2])]);
        var fit = LinearMixedModel.Fit(ModelDesign.For("Reaction", Numbers(0)).WithFixed(days).WithRandomEffects(subject, true, days));
        var draws = fit.DrawJoint(6_000, 4);
        Assert.True(draws.EffectiveSampleSize > 250, $"effective sample size {draws.EffectiveSampleSize}");
        double slope = draws.StandardDeviations("Subject", "Days").Average();
        Assert.InRange(slope, 5.9, 7.5);
        double[,] values = draws.Evaluate([fit.FixedEffect("Days"), fit.RandomEffect("Subject", "308", "Days")]);
        Assert.Equal(10.467, Enumerable.Range(0, 6_000).Average(draw => values[draw, 0]), 0.15);
        Assert.Equal(9.199, Enumerable.Range(0, 6_000).Average(draw => values[draw, 1]), 0.4);
    }

    [Fact]
    public void Few_functions_and_many_see_the_same_draws()
    {
        var design = new RandomDesign(RandomDesign.CrossedSeeds + 3);
        var fit = LinearMixedModel.Fit(design.Design);
        var draws = fit.DrawJoint(600, 9, new DrawOptions { VarianceProposals = 60, PilotDraws = 50 });
        var outer = design.Groups[0];
        var inner = design.Groups[^1];
        LinearFunction[] many =
        [
            fit.At(Setting.Averaged().With("f", "f1")) + fit.RandomEffect(outer.Name, outer.Levels[1]) - fit.RandomEffect(inner.Name, inner.Levels[2]),
            .. Enumerable.Range(0, 30).Select(i => fit.RandomEffect(inner.Name, inner.Levels[i % inner.Levels.Count])),
        ];
        double[,] alone = draws.Evaluate(many[..1]), together = draws.Evaluate(many);
        for (int draw = 0; draw < draws.Count; draw++) Assert.Equal(together[draw, 0], alone[draw, 0], 1e-7);
    }

    [Fact]
    public void The_same_seed_gives_the_same_draws_on_one_thread_and_on_two()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(8).Design());
        LinearFunction[] functions = [fit.RandomEffect("bag", "bag 1"), fit.FixedEffect("rest")];
        double[,] one = fit.DrawJoint(300, 7, new DrawOptions { Threads = 1 }).Evaluate(functions), two = fit.DrawJoint(300, 7, new DrawOptions { Threads = 2 }).Evaluate(functions);
        Assert.Equal(one, two);
        Assert.NotEqual(one, fit.DrawJoint(300, 8).Evaluate(functions));
    }

    [Fact]
    public void Ranks_count_every_draw_once()
    {
        double[,] draws = { { 3, 2, 1 }, { 1, 2, 3 }, { 3, 1, 2 }, { 2, 3, 1 } };
        var ranks = Ranks.Of(draws, ["a", "b", "c"], threads: 2);
        Assert.Equal(0.5, ranks.Probability(0, 1));
        Assert.Equal(1.75, ranks.MeanRank(0));
        Assert.Equal(2, Enumerable.Range(0, 3).Sum(item => ranks.ProbabilityTop(item, 2)), 1e-12);
        Assert.Equal((1, 3), ranks.Interval(0));
        Assert.Equal(0.25, Ranks.Of(draws, ["a", "b", "c"], RankOrder.LowestFirst).Probability(0, 1));
    }

    [Fact]
    public void Probabilities_of_the_top_ten_add_up_to_ten()
    {
        var fit = LinearMixedModel.Fit(new CrossedYear(8).Design());
        string[] names = [.. Enumerable.Range(0, 70).Select(bag => $"bag {bag}")];
        var ranks = Ranks.Of(fit.DrawJoint(2_000, 1).Evaluate([.. names.Select(name => fit.RandomEffect("bag", name))]), names);
        var rows = ranks.Summaries(10);
        Assert.Equal(10, rows.Sum(row => row.ProbabilityTop), 1e-9);
        Assert.Equal(1, rows.Sum(row => row.ProbabilityBest), 1e-9);
        Assert.Equal(70 * 71 / 2.0, rows.Sum(row => row.MeanRank), 1e-6);
        Assert.All(rows, row => Assert.InRange(row.MeanRank, row.RankLow, row.RankHigh));
    }
}
