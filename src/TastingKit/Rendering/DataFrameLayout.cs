using System.Globalization;
using Microsoft.Data.Analysis;

namespace TastingKit;

/// <summary>Lays out a DataFrame: its size, and its first rows in a table that doesn't grow with the log.</summary>
public static class DataFrameLayout
{
    private const int RowsShown = 20;
    private const int MostDecimals = 4;

    /// <summary>
    /// The first rows, at most twenty, after a sentence that says how many there are. Numbers show up to four decimals, the
    /// same number in all of a column.
    /// </summary>
    public static ResultLayout Of(DataFrame frame)
    {
        ArgumentNullException.ThrowIfNull(frame);
        var shown = (int)Math.Min(frame.Rows.Count, RowsShown);
        var columns = frame.Columns.Select(column => Column(column, shown)).ToArray();
        var rows = Enumerable.Range(0, shown)
            .Select(r => (IReadOnlyList<TableCell>)[.. frame.Columns.Select(column => Cell(column, r))])
            .ToArray();
        return new ResultLayout(
        [
            new LayoutBlock.Paragraph($"DataFrame of {NumberText.Count((int)frame.Rows.Count, "row")} and {NumberText.Count(frame.Columns.Count, "column")}."),
            new LayoutBlock.Table(new ResultTable(shown < frame.Rows.Count ? $"The first {shown} rows" : "All rows", columns, rows)),
        ]);
    }

    private static TableColumn Column(DataFrameColumn column, int shown) => column.IsNumericColumn()
        ? new TableColumn(column.Name, column.Name, ColumnKind.Number, Decimals: Decimals(column, shown))
        : new TableColumn(column.Name, column.Name, ColumnKind.Text);

    /// <summary>The fewest decimals that show every number in full, or the most that are shown.</summary>
    private static int Decimals(DataFrameColumn column, int shown)
    {
        var decimals = 0;
        for (var r = 0; r < shown; r++)
        {
            while (decimals < MostDecimals && Number(column, r) is { } number && Math.Round(number, decimals) != number)
                decimals++;
        }

        return decimals;
    }

    private static double? Number(DataFrameColumn column, int row) =>
        column[row] is IConvertible value && value.ToDouble(CultureInfo.InvariantCulture) is var number && double.IsFinite(number) ? number : null;

    private static TableCell Cell(DataFrameColumn column, int row)
    {
        if (column.IsNumericColumn())
            return Number(column, row) is { } number ? new TableCell.Number(number) : new TableCell.Missing("");
        return column[row] switch
        {
            null => new TableCell.Missing(""),
            DateTime moment => new TableCell.Text(moment.ToString("yyyy-MM-dd HH:mm", CultureInfo.InvariantCulture)),
            var value => new TableCell.Text(Convert.ToString(value, CultureInfo.InvariantCulture) ?? ""),
        };
    }
}
