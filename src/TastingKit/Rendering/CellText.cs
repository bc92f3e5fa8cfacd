using System.Globalization;

namespace TastingKit;

/// <summary>The text of every cell of a table, its headings first: what each renderer arranges.</summary>
internal static class CellText
{
    /// <summary>As wide as a digit, so that the bounds of intervals stand below each other in a right-aligned column.</summary>
    private const char FigureSpace = '\u2007';

    /// <summary>The unit of intervals that are shown in per cent.</summary>
    private const string Share = "share";

    public static IReadOnlyList<string[]> Of(ResultTable table)
    {
        var columns = table.Columns.Select((column, c) => Column(table, column, c)).ToArray();
        var rows = new List<string[]>(table.Rows.Count + 1);
        for (var r = 0; r <= table.Rows.Count; r++)
            rows.Add([.. columns.Select(column => column[r])]);
        return rows;
    }

    private static string[] Column(ResultTable table, TableColumn column, int index)
    {
        var cells = table.Rows.Select(row => row[index]).ToArray();
        var highWidth = cells.OfType<TableCell.Interval>().Select(interval => High(interval, column).Length).DefaultIfEmpty().Max();
        return [Heading(column), .. cells.Select(cell => Text(cell, column, highWidth))];
    }

    private static string Heading(TableColumn column) => column.Unit.Length > 0 && column.Unit != Share ? $"{column.Heading} ({column.Unit})" : column.Heading;

    private static string High(TableCell.Interval interval, TableColumn column) => Bound(interval.High, column);

    private static string Bound(double value, TableColumn column) =>
        column.Unit == Share ? NumberText.Percent(value) : NumberText.Fixed(value, column.Decimals);

    private static string Text(TableCell cell, TableColumn column, int highWidth) => cell switch
    {
        TableCell.Text text => text.Value,
        TableCell.Count count => count.Value.ToString(CultureInfo.InvariantCulture),
        TableCell.Number number => NumberText.Fixed(number.Value, column.Decimals),
        TableCell.Share share when column.Kind == ColumnKind.Probability => NumberText.Probability(share.Value),
        TableCell.Share share => NumberText.Percent(share.Value),
        TableCell.Interval interval => Bound(interval.Low, column) + " to " + High(interval, column).PadLeft(highWidth, FigureSpace),
        TableCell.Missing missing => missing.Reason,
        _ => throw new InvalidOperationException("The cases of TableCell are closed."),
    };
}
