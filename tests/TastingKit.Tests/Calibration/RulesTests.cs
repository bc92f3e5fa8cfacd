using TastingKit.Calibration;
using TastingKit.Statistics;

namespace TastingKit.Tests.Calibration;

/// <summary>The judge is itself judged: on statements that are right by construction, and on the same with a planted fault.</summary>
public class RulesTests
{
    private static CalibrationCell Cell(Match match, params string[] cautions) => new("made-up", "Made up.", match, 7, new SimulationSettings(), cautions);

    /// <summary>Years of twenty intervals about a normal estimate, each as wide as a normal 95 % interval times a factor.</summary>
    private static YearRecord[] Intervals(int years, double width, double shift = 0, string? caution = null)
    {
        var random = new RandomStream(11);
        return [.. Enumerable.Range(0, years).Select(year =>
        {
            var record = new YearRecord { Year = year };
            for (var i = 0; i < 20; i++)
            {
                var estimate = random.NextNormal() + shift;
                record.Cover("an analysis: a mean", estimate, estimate - 1.959964 * width, estimate + 1.959964 * width, 0);
            }

            if (caution is not null)
                record.Cautions.Add($"an analysis: {caution}");
            return record;
        })];
    }

    private static YearRecord Cautioned(YearRecord year, bool isCautioned)
    {
        if (isCautioned)
            year.Cautions.Add("an analysis: drift");
        return year;
    }

    private static Finding Judge(CalibrationCell cell, YearRecord[] years) => Assert.Single(Rules.Judge(cell, years).Findings);

    [Fact]
    public void Exact_intervals_are_kept_and_their_figures_reported()
    {
        var finding = Judge(Cell(Match.Exact), Intervals(1000, 1));
        Assert.Equal(Verdict.Kept, finding.Verdict);
        Assert.Contains("20000 intervals, mean width 3.920, mean error", finding.Aside, StringComparison.Ordinal);
    }

    [Theory]
    [InlineData(0.5, 0)]
    [InlineData(0.9, 0)]
    [InlineData(1.2, 0)]
    [InlineData(1, 0.5)]
    public void Intervals_too_narrow_too_wide_or_off_their_truth_are_broken(double width, double shift)
    {
        var cell = Rules.Judge(Cell(Match.Exact), Intervals(1000, width, shift));
        Assert.Equal(Verdict.Broken, Assert.Single(cell.Findings).Verdict);
        Assert.False(cell.HoldsWithinError);
    }

    [Fact]
    public void A_strained_cell_allows_wide_intervals_but_not_narrow_ones()
    {
        Assert.Equal(Verdict.Kept, Judge(Cell(Match.Strained), Intervals(1000, 1.4)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Strained), Intervals(1000, 0.85)).Verdict);
    }

    [Fact]
    public void An_analysis_that_seeks_what_is_nought_may_be_wide_in_an_exact_cell_and_no_other()
    {
        Assert.Equal(Verdict.Kept, Judge(Cell(Match.Exact) with { WithNought = ["an analysis"] }, Intervals(1000, 1.4)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact) with { WithNought = ["an analysis"] }, Intervals(1000, 0.85)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact) with { WithNought = ["an", "an analysis by kind"] }, Intervals(1000, 1.4)).Verdict);
    }

    [Fact]
    public void A_misspecified_cell_is_broken_unless_its_caution_fires()
    {
        Assert.Equal(Verdict.Kept, Judge(Cell(Match.Misspecified), Intervals(1000, 0.93)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Misspecified, "drift"), Intervals(1000, 0.8)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Misspecified, "drift"), Intervals(1000, 0.8, caution: "something-else")).Verdict);
        Assert.Equal(Verdict.Warned, Judge(Cell(Match.Misspecified, "drift"), Intervals(1000, 0.8, caution: "drift")).Verdict);
        // A year without it stands for itself.
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Misspecified, "drift"), [.. Intervals(1000, 0.6).Select(year => Cautioned(year, year.Year % 2 == 0))]).Verdict);
        Assert.Equal(Verdict.Warned, Judge(Cell(Match.Misspecified, "drift"), [.. Intervals(1000, 0.6).Select(year => Cautioned(year, year.Year % 10 > 1))]).Verdict);
        // A caution excuses nothing where the model is the true one.
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact, "drift"), Intervals(1000, 0.8, caution: "drift")).Verdict);
    }

    [Fact]
    public void The_page_tells_what_so_few_years_can_not_settle_from_what_is_broken()
    {
        static string Last(CellFindings findings) => ResultsPage.Write([findings]).Split('\n').Last(line => line.StartsWith("| an analysis", StringComparison.Ordinal));
        Assert.EndsWith("| not settled |", Last(Rules.Judge(Cell(Match.Exact), Intervals(20, 0.9))), StringComparison.Ordinal);
        Assert.EndsWith("| broken |", Last(Rules.Judge(Cell(Match.Exact), Intervals(1000, 0.8))), StringComparison.Ordinal);
        Assert.EndsWith("| kept |", Last(Rules.Judge(Cell(Match.Exact), Intervals(1000, 1))), StringComparison.Ordinal);
    }

    [Fact]
    public void The_simulation_error_counts_years_not_intervals()
    {
        // Every interval of a year covers or none does: 100 years are 100 facts, not 1,000.
        (int, int)[] counts = [.. Enumerable.Range(0, 100).Select(year => (year % 2 == 0 ? 10 : 0, 10))];
        var share = MeasuredShare.Of(counts);
        Assert.Equal(0.5, share.Value);
        Assert.Equal(0.5 / Math.Sqrt(99), share.StandardError, 12);
    }

    [Fact]
    public void Rates_above_six_in_a_hundred_are_broken()
    {
        static YearRecord[] Years(int every) => [.. Enumerable.Range(0, 1000).Select(year =>
        {
            var record = new YearRecord { Year = year };
            record.Count("an analysis: false alarm", year % every == 0);
            return record;
        })];
        Assert.Equal(Verdict.Kept, Judge(Cell(Match.Exact), Years(20)).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact), Years(10)).Verdict);
    }

    /// <summary>Years of fifty stated probabilities, each of which comes true with a probability that is some function of it.</summary>
    private static YearRecord[] Predictions(int years, Func<double, double> comesTrue)
    {
        var random = new RandomStream(12);
        return [.. Enumerable.Range(0, years).Select(year =>
        {
            var record = new YearRecord { Year = year };
            for (var i = 0; i < 50; i++)
            {
                var stated = random.NextDouble();
                record.Predict("an analysis: the best", stated, random.NextDouble() < comesTrue(stated));
            }

            return record;
        })];
    }

    [Fact]
    public void Probabilities_that_come_true_as_stated_have_slope_one()
    {
        var cell = Rules.Judge(Cell(Match.Exact), Predictions(400, p => p));
        Assert.Equal(Verdict.Kept, Assert.Single(cell.Findings).Verdict);
        var measured = cell.Probabilities["an analysis: the best"];
        Assert.InRange(measured.Slope, 0.96, 1.04);
        Assert.InRange(measured.SlopeStandardError, 0.008, 0.013);
        Assert.Equal(10, measured.Bins.Count);
        Assert.All(measured.Bins, bin => Assert.True(bin.Count >= 1000 && Math.Abs(bin.True - bin.Stated) < 4 * bin.StandardError));
    }

    [Fact]
    public void Bold_and_timid_probabilities_are_broken()
    {
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact), Predictions(400, p => 0.5 + 0.7 * (p - 0.5))).Verdict);
        Assert.Equal(Verdict.Broken, Judge(Cell(Match.Exact), Predictions(400, p => Math.Clamp(0.5 + 1.4 * (p - 0.5), 0, 1))).Verdict);
    }

    [Fact]
    public void The_slope_is_that_of_least_squares_over_single_predictions()
    {
        (double Stated, bool True)[] made = [(0.1, false), (0.2, true), (0.4, false), (0.7, true), (0.9, true)];
        var record = new YearRecord();
        foreach (var (stated, cameTrue) in made)
            record.Predict("p", stated, cameTrue);
        double meanP = made.Average(m => m.Stated), meanY = made.Average(m => m.True ? 1.0 : 0.0);
        var slope = made.Sum(m => (m.Stated - meanP) * ((m.True ? 1 : 0) - meanY)) / made.Sum(m => (m.Stated - meanP) * (m.Stated - meanP));
        Assert.Equal(slope, MeasuredProbability.Of([record.Probabilities["p"], new ProbabilityCount(new int[10], new double[10], new int[10], 0, 0)]).Slope, 12);
    }

    [Fact]
    public void Few_predictions_share_a_bin()
    {
        var measured = MeasuredProbability.Of([.. Predictions(50, p => p).Select(year => year.Probabilities["an analysis: the best"])]);
        Assert.Equal(2, measured.Bins.Count);
        Assert.Equal(2500, measured.Bins.Sum(bin => bin.Count));
        Assert.Equal((0.0, 1.0), (measured.Bins[0].Low, measured.Bins[^1].High));
    }

    [Fact]
    public void A_statement_that_is_none_is_refused()
    {
        var record = new YearRecord();
        Assert.Throws<ArgumentException>(() => record.Cover("x", double.NaN, 0, 1, 0));
        Assert.Throws<ArgumentException>(() => record.Cover("x", 0, 1, -1, 0));
        Assert.Throws<ArgumentException>(() => record.Predict("x", 1.2, true));
    }
}
