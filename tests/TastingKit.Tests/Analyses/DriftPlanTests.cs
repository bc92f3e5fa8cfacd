namespace TastingKit.Tests;

/// <summary>Plans against what years with so many doses then told.</summary>
public sealed class DriftPlanTests
{
    private static readonly SimulationSettings Year = new()
    {
        Taster = new SimulatedTaster { BagDayStandardDeviation = 0, RoundsToSteps = false, StaysWithinScale = false },
        Schedule = new SimulatedSchedule { ControlDoses = 0, LotsBoughtAgain = 0 },
        Attributes = [],
        WithTexts = false,
    };

    [Theory]
    [InlineData(6)]
    [InlineData(12)]
    [InlineData(24)]
    public void Anchors_narrow_the_interval_as_planned(int doses)
    {
        var ratios = Enumerable.Range(0, 12).Select(i =>
        {
            var planned = SimulatedYear.Create(Year, (ulong)(900 + i)).Log.DriftPlan(1).Options.Single(option => option.Doses == doses && option.DaysApart is not null);
            var anchored = SimulatedYear.Create(Year with { Schedule = Year.Schedule with { ControlDoses = doses } }, (ulong)(950 + i)).Log.ScaleDrift();
            var drift = Assert.Single(Assert.IsType<DriftCase.Anchored>(anchored.Case).Drifts).AYear;
            return (drift.High - drift.Low) / (2 * planned.HalfWidth);
        });
        Assert.InRange(ratios.Average(), 0.85, 1.15);
    }

    [Fact]
    public void A_dose_scatters_by_sitting_and_cup_and_the_fewest_doses_follow()
    {
        var plan = SimulatedYear.Create(Year, 7).Log.DriftPlan(1);
        Assert.InRange(plan.DoseStandardDeviation, 0.38, 0.52);
        var needed = plan.Doses!;
        Assert.InRange(needed.Power, 0.8, 0.9);

        // A slope of 1 is told in 80 % of years where its standard error is 1 / (1.96 + 0.84).
        Assert.InRange(needed.HalfWidth, 1.96 * 0.9 / 2.802, 1.96 / 2.80);
        Assert.Equal(365.25 / needed.Doses, needed.DaysApart!.Value, 6);
        Assert.InRange(plan.Flight!.Power, 0.8, 0.9);
        Assert.Contains($"{needed.Doses} doses of one coffee", plan.Finding, StringComparison.Ordinal);
        Assert.Contains("if coffee does not change in the freezer", plan.Finding, StringComparison.Ordinal);
        Assert.True(SimulatedYear.Create(Year, 7).Log.DriftPlan(0.5).Doses!.Doses > 3 * needed.Doses);
    }

    [Fact]
    public void What_cannot_be_planned_is_said()
    {
        Assert.False(new TestLog().Cup("A", "2025-01-01", 6).Cup("B", "2025-02-01", 7).Build().DriftPlan(1).Support.IsSupported);
        var hopeless = SimulatedYear.Create(Year, 7).Log.DriftPlan(0.01);
        Assert.Null(hopeless.Doses);
        Assert.StartsWith("Not even a dose a day", hopeless.Finding, StringComparison.Ordinal);
        Assert.Throws<ArgumentOutOfRangeException>(() => new TestLog().Cup("A", "2025-01-01", 6).Build().DriftPlan(0));
    }
}
