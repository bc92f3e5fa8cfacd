using TastingKit.Calibration;
using TastingKit.Statistics;

namespace TastingKit.Tests;

public sealed class OneOffTests
{
    [Fact]
    public void A_planted_dip_is_flagged_and_nothing_else()
    {
        var oneOffs = Year(spoil: "t0200", by: 3).OneOffs();

        var flagged = Assert.Single(oneOffs.Flagged);
        Assert.Equal("t0200", flagged.Cup.Id);
        Assert.Equal(flagged, oneOffs.Cups[0]);
        Assert.True(flagged.Standardised < -4 && flagged.Cup.Score < flagged.Low && flagged.Low < flagged.Expected);
        Assert.StartsWith($"1 cup of {oneOffs.Cups.Count} does not fit the others", oneOffs.Finding, StringComparison.Ordinal);
        Assert.Equal("one-off", Assert.IsType<TableCell.Text>(oneOffs.Table.Rows[0][^1]).Value);
    }

    [Fact]
    public void The_scatter_from_day_to_day_is_told_without_the_cups_that_fit_nothing_else_too()
    {
        var spoiled = Year(spoil: "t0200", by: 3).Repeatability();
        var all = Assert.IsType<PartAnswer.Estimated>(spoiled.DayToDay);
        var others = Assert.IsType<PartAnswer.Estimated>(spoiled.DayToDayWithoutOneOffs);
        Assert.True(others.Estimate < 0.99 * all.Estimate && others.Cups == all.Cups - 1, $"{others.Estimate} of {others.Cups} cups against {all.Estimate} of {all.Cups}");
        // They may be chance after all.
        Assert.True(others.High == all.High && others.Low < all.Low, $"{others.Low} to {others.High} against {all.Low} to {all.High}");
        Assert.Contains(spoiled.Cautions, caution => caution.Name == "one-offs-counted");
        Assert.Contains(spoiled.Cautions, caution => caution.Name == "scale-drift" && caution.Text.EndsWith("the share between coffees counts that.", StringComparison.Ordinal));

        var like = Year(null, 0).Repeatability();
        Assert.IsType<PartAnswer.Refused>(like.DayToDayWithoutOneOffs);
        Assert.DoesNotContain(like.Cautions, caution => caution.Name == "one-offs-counted");
    }

    [Fact]
    public void Scores_drawn_to_the_last_one_of_their_bag_are_warned_of()
    {
        var drawn = SimulatedYear.Create(CalibrationCells.MatchingYear with { Taster = CalibrationCells.MatchingYear.Taster with { AnchoringOnLastScore = 0.3 } }, 5).Log;
        Assert.Contains(drawn.OneOffs().Cautions, caution => caution.Name == "neighbours-alike");
        Assert.DoesNotContain(Year(null, 0).OneOffs().Cautions, caution => caution.Name == "neighbours-alike");
    }

    [Fact]
    public void A_year_like_any_other_has_none()
    {
        var oneOffs = Year(null, 0).OneOffs();
        Assert.Empty(oneOffs.Flagged);
        Assert.StartsWith($"No cup of {oneOffs.Cups.Count} is further", oneOffs.Finding, StringComparison.Ordinal);
        Assert.Equal(oneOffs.Computation.CupsUsed, oneOffs.Cups.Count);
        var ofSoMany = 100 * (1 - Math.Pow(1 - oneOffs.Cups[0].Probability, oneOffs.Cups.Count));
        Assert.InRange(ofSoMany, 1, 99);
        Assert.Contains($"by chance alone in about {Math.Round(ofSoMany, MidpointRounding.AwayFromZero):0} % of logs", oneOffs.ToString(), StringComparison.Ordinal);
        Assert.True(oneOffs.Cups.Zip(oneOffs.Cups.Skip(1)).All(pair => pair.First.Probability <= pair.Second.Probability));
    }

    [Fact]
    public void Predictions_agree_with_refits_that_leave_the_cup_out()
    {
        // Unlike the predictions, a refit estimates the variances anew, which in a bag of few cups matters most.
        var log = Year("t0200", 3);
        var cups = log.OneOffs().Cups;
        var few = cups.GroupBy(one => one.Cup.Bag.Id).Where(bag => bag.Count() < 4).SelectMany(bag => bag).Append(cups[0]).Take(6).ToArray();
        Assert.True(few.Length >= 3);
        foreach (var one in few)
        {
            var refitted = Without(log, one.Cup);
            Assert.InRange(one.Expected - refitted, -0.15, 0.15);
        }
    }

    [Fact]
    public void A_step_of_the_scale_is_no_distance()
    {
        // All scores but one on whole steps of the same value: half a step further off is not even unusual.
        var log = Year(null, 0);
        Assert.All(log.OneOffs().Cups, one => Assert.True(Math.Abs(one.Cup.Score!.Value - one.Expected) > 0.25 || one.Probability == 1));
    }

    [Fact]
    public void One_cups_distance_is_split_by_variance_and_said_to_be_no_more()
    {
        var log = Year("t0200", 3);
        var one = log.OneOff("t0200");

        Assert.Equal(1, one.Sources.Sum(source => source.Share), 9);
        Assert.True(one.Sources[^1].Share > 0.5 && one.Sources[^1].What == "chance");
        Assert.Contains("One cup can't tell the brewer from chance", one.Summary[1], StringComparison.Ordinal);
        Assert.True(one.BrewerAfterOneMore < one.BrewerNow || one.BrewerNow == 0);
        Assert.True(one.Cup!.IsFlagged);
        Assert.Throws<ArgumentException>(() => log.OneOff("nothing"));
    }

    [Fact]
    public void Too_few_cups_are_not_judged()
    {
        var oneOffs = new TestLog().Cup("A", "2025-01-01", 6).Cup("A", "2025-01-02", 2).Build().OneOffs();
        Assert.False(oneOffs.Support.IsSupported);
        Assert.Contains("1 of them beyond the first of their bags", oneOffs.Finding, StringComparison.Ordinal);
        Assert.False(new TestLog().Cup("A", "2025-01-01", 6).Build().OneOff("T1").Support.IsSupported);
        Assert.Throws<ArgumentOutOfRangeException>(() => Year(null, 0).OneOffs(1));
    }

    private static double Without(TastingLog log, Tasting cup)
    {
        // A cup that weighs nothing is a cup left out.
        var cups = ScoredCups.Of(log).Cups;
        var rest = cups.Where(each => each.Id != cup.Id).ToArray();
        var columns = ScoreColumns.Of(cups);
        var row = cups.Index().Single(each => each.Item.Id == cup.Id).Index;
        Assert.Equal(cups.Count - 1, rest.Length);
        double[] weights = [.. cups.Select((_, i) => i == row ? 1e-8 : 1)];
        var coffee = CategoricalColumn.From("coffee", [.. cups.Select(Factor.Coffee.LevelOf)]);
        var bag = CategoricalColumn.From("bag", [.. cups.Select(Factor.Bag.LevelOf)]);
        var design = columns.AddBrewTo(ModelDesign.For("score", columns.Scores)).WithRandomIntercept(coffee).WithRandomIntercept(bag).WithWeights(weights);
        return LinearMixedModel.Fit(design).FittedValues()[row];
    }

    private static TastingLog Year(string? spoil, double by)
    {
        var log = SimulatedYear.Create(new SimulationSettings { Attributes = [], WithTexts = false }, 21).Log;
        return new TastingLog(new LogContents
        {
            Name = "year",
            Bags = log.Bags,
            Tastings = [.. log.Tastings.Select(cup => cup.Id == spoil ? cup with { Score = cup.Score - by, Purpose = Purpose.Verdict, Failed = false } : cup)],
        });
    }
}
