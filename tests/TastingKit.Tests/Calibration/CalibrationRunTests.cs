using TastingKit.Calibration;

namespace TastingKit.Tests.Calibration;

public sealed class CalibrationRunTests : IDisposable
{
    private readonly string _folder = Directory.CreateTempSubdirectory("calibration").FullName;

    public void Dispose() => Directory.Delete(_folder, true);

    /// <summary>States the mean of all cups with the interval that is exact where only repeat error is at work, or a share of it.</summary>
    private sealed class GrandMean(double width) : ICalibratedAnalysis
    {
        public string Name => "grand mean";

        public void Examine(SimulatedYear year, YearRecord record)
        {
            var scores = year.Log.Tastings.Select(cup => cup.Score!.Value).ToArray();
            var half = 1.959964 * width * year.Truth.Settings.Taster.RepeatStandardDeviation / Math.Sqrt(scores.Length);
            record.Cover($"{Name}: mean", scores.Average(), scores.Average() - half, scores.Average() + half, year.Truth.Settings.Taster.Mean);
        }
    }

    private static readonly CalibrationCell RepeatsOnly = new(
        "repeats-only", "Only repeat error.", Match.Exact, 21,
        Simulation.Years.Quiet with { Bags = 6, Cups = 30, Taster = Simulation.Years.Quiet.Taster with { RepeatStandardDeviation = 0.4 } }, []);

    [Fact]
    public void An_exact_analysis_holds_and_one_with_half_its_width_does_not()
    {
        Assert.Equal(Verdict.Kept, Assert.Single(CalibrationRun.Run(RepeatsOnly, 2000, [new GrandMean(1)], 2).Findings).Verdict);
        Assert.False(CalibrationRun.Run(RepeatsOnly, 400, [new GrandMean(0.5)], 2).HoldsWithinError);
    }

    [Fact]
    public void A_run_is_the_same_on_one_core_and_two_and_when_broken_off_and_gone_on_with()
    {
        ICalibratedAnalysis[] analyses = [new GrandMean(1)];
        string Page(CellFindings findings) => ResultsPage.Write([findings]);
        var whole = Page(CalibrationRun.Run(RepeatsOnly, 60, analyses, 1));
        Assert.Equal(whole, Page(CalibrationRun.Run(RepeatsOnly, 60, analyses, 2)));

        var made = 0;
        CalibrationRun.Run(RepeatsOnly, 25, analyses, 2, _folder, _ => Interlocked.Increment(ref made), CancellationToken.None);
        var file = Directory.GetFiles(_folder).Single();
        File.AppendAllText(file, "{\"Year\":25,\"Cover");
        Assert.Equal(whole, Page(CalibrationRun.Run(RepeatsOnly, 60, analyses, 2, _folder, _ => Interlocked.Increment(ref made), CancellationToken.None)));
        Assert.Equal(60, made);
    }

    [Fact]
    public void Years_of_another_build_are_made_anew()
    {
        ICalibratedAnalysis[] analyses = [new GrandMean(1)];
        CalibrationRun.Run(RepeatsOnly, 5, analyses, 1, _folder, _ => { }, CancellationToken.None);
        var file = Directory.GetFiles(_folder).Single();
        File.WriteAllLines(file, ["another build", .. File.ReadAllLines(file).Skip(1)]);
        var made = 0;
        CalibrationRun.Run(RepeatsOnly, 5, analyses, 1, _folder, _ => made++, CancellationToken.None);
        Assert.Equal(5, made);
    }

    [Fact]
    public void Cells_have_names_and_seeds_of_their_own()
    {
        Assert.Equal(CalibrationCells.All.Count, CalibrationCells.All.Select(cell => cell.Name).Distinct().Count());
        Assert.Equal(CalibrationCells.All.Count, CalibrationCells.All.Select(cell => cell.Seed).Distinct().Count());
        Assert.All(CalibrationCells.All, cell => Assert.NotEmpty(SimulatedYear.Create(cell.Settings, cell.SeedOf(0)).Log.Tastings));
        Assert.Contains("there are matching", Assert.Throws<ArgumentException>(() => CalibrationCells.Named("nothing")).Message, StringComparison.Ordinal);
    }
}
