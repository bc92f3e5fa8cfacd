using System.Globalization;

namespace TastingKit;

/// <summary>The text of every cell of a table, its headings first: what each renderer arranges.</summary>
internal static class CellText
{
    public static IReadOnlyList<string[]> Of(ResultTable table)
    {
        var rows = new List<string[]>(table.Rows.Count + 1) { table.Columns.Select(Heading).ToArray() };
        foreach (var row in table.Rows)
            rows.Add([.. row.Select((cell, c) => Text(cell, table.Columns[c]))]);
        return rows;
    }

    private static string Heading(TableColumn column) => column.Unit.Length > 0 ? $"{column.Heading} ({column.Unit})" : column.Heading;

    private static string Text(TableCell cell, TableColumn column) => cell switch
    {
        TableCell.Text text => text.Value,
        TableCell.Count count => count.Value.ToString(CultureInfo.InvariantCulture),
        TableCell.Number number => NumberText.Fixed(number.Value, column.Decimals),
        TableCell.Share share => NumberText.Percent(share.Value),
        TableCell.Interval interval => NumberText.Interval(interval.Low, interval.High, column.Decimals),
        TableCell.Missing missing => missing.Reason,
        _ => throw new InvalidOperationException("The cases of TableCell are closed."),
    };
}
