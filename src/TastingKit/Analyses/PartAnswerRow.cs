namespace TastingKit;

/// <summary>A part of a result as a row of its table: what, estimate, interval, unit, cups, from; where it is refused, why and what to log.</summary>
internal static class PartAnswerRow
{
    public static IReadOnlyList<TableCell> Of(string what, string unit, PartAnswer answer) => answer.Match<IReadOnlyList<TableCell>>(
        one =>
        [
            new TableCell.Text(what), new TableCell.Number(one.Estimate), new TableCell.Interval(one.Low, one.High), new TableCell.Text(unit),
            new TableCell.Count(one.Cups), new TableCell.Text(one.From),
        ],
        no =>
        [
            new TableCell.Text(what), new TableCell.Missing("not answered"), new TableCell.Missing("not answered"), new TableCell.Text(unit),
            new TableCell.Missing("not answered"), new TableCell.Text($"{no.Reason} {no.WhatToLog}"),
        ]);
}
