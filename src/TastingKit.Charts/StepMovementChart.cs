namespace TastingKit.Charts;

/// <summary>Where each step began in each quarter against the other steps, a panel a step, the highest on top.</summary>
internal static class StepMovementChart
{
    public static Chart Draw(ScaleUse use) => use.Movement.Match(
        told => Draw(use, told), no => Chart.Nothing("Did steps of the scale move against one another?", ShortText.Sentence($"{no.Reason} {no.WhatToLog}")));

    private static Chart Draw(ScaleUse use, StepMovement.Estimated told)
    {
        double[] steps = [.. told.Thresholds.Select(move => move.Step).Distinct().OrderDescending()];
        ScaleQuarter[] quarters = [.. use.Quarters.Where(quarter => told.Widths.Any(move => move.Quarter == quarter.Label))];
        var span = new CalendarSpan([.. quarters.Select(quarter => quarter.From)], use.PeriodName);
        var unit = ScaleUnit(use);
        var panels = new QuarterPanels([.. steps.Select(step => Panel(step, quarters, told))], span, "where the step began");
        return Chart.Draw(
            ShortText.Sentence(use.Finding),
            $"Where each step and all above it began, against the other steps and over all {use.PeriodName}s: above the dashed line it was harder to reach, below it easier. Each with its 95 % interval by itself; {NumberText.Count(told.Cups, "cup")}. "
            + "A movement that all steps share is taken off: other coffee would show alike.",
            Words.AltText(
                $"One panel a step: where it began in each {use.PeriodName} against the other steps, in {unit}, with its 95 % interval",
                [.. steps.Select(step => $"{StepText(step)} and above: {string.Join(", ", Of(step, told).Take(6).Select(move => $"{move.Quarter} {Figures(move)}"))}")]),
            [.. panels.Traces()],
            panels.Layout("Points", NumberText.Difference, 0));
    }

    private static QuarterPanel Panel(double step, ScaleQuarter[] quarters, StepMovement.Estimated told) => new(
        $"{StepText(step)} and above", "",
        [.. Of(step, told).Select(move => new QuarterMark(
            Array.FindIndex(quarters, quarter => quarter.Label == move.Quarter), move.Estimate, new MeanInterval(move.Low, move.High),
            HoverText.Of($"{StepText(step)} and above in {move.Quarter}", $"began {Figures(move)} points {(move.Estimate > 0 ? "higher" : "lower")} against the other steps")))]);

    private static IEnumerable<ThresholdMove> Of(double step, StepMovement.Estimated told) => told.Thresholds.Where(move => move.Step == step);

    private static string Figures(ThresholdMove move) => $"{NumberText.Difference(move.Estimate)} ({NumberText.DifferenceInterval(move.Low, move.High)})";

    private static string StepText(double step) => new StepGroup(step, step, 0).Label;

    private static string ScaleUnit(ScaleUse use) => use.MovementTable().Columns.Single(column => column.Name == "estimate").Unit;
}
