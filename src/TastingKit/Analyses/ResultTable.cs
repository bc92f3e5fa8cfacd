using Microsoft.Data.Analysis;

namespace TastingKit;

/// <summary>What a column of a result's table holds.</summary>
public enum ColumnKind
{
    /// <summary>Words.</summary>
    Text,

    /// <summary>A whole number of things.</summary>
    Count,

    /// <summary>A number with the column's decimals.</summary>
    Number,

    /// <summary>A share from 0 to 1, shown in per cent.</summary>
    Share,

    /// <summary>An estimated probability from 0 to 1, shown in per cent and never as a flat 0 or 100.</summary>
    Probability,

    /// <summary>A lower and an upper bound.</summary>
    Interval,
}

/// <summary>A column of a result's table.</summary>
/// <param name="Name">
/// The column's name in a DataFrame, from one vocabulary across all results: <c>what</c>, <c>estimate</c>, <c>interval</c>
/// (which becomes <c>low</c> and <c>high</c>), <c>cups</c>, <c>coffees</c>, <c>bags</c> and so on.
/// </param>
/// <param name="Heading">The heading a reader sees.</param>
/// <param name="Kind">What its cells hold.</param>
/// <param name="Unit">
/// Unit of its numbers, for example <c>points of 1 to 9</c>; empty for words and counts. An interval in the unit <c>share</c>
/// is shown in per cent.
/// </param>
/// <param name="Decimals">Decimals shown; the DataFrame keeps every digit.</param>
public sealed record TableColumn(string Name, string Heading, ColumnKind Kind, string Unit = "", int Decimals = 2);

/// <summary>One cell of a result's table.</summary>
public abstract record TableCell
{
    private TableCell()
    {
    }

    /// <summary>Words.</summary>
    public sealed record Text(string Value) : TableCell;

    /// <summary>A whole number of things.</summary>
    public sealed record Count(int Value) : TableCell;

    /// <summary>A number; finite.</summary>
    public sealed record Number(double Value) : TableCell;

    /// <summary>A share or probability from 0 to 1.</summary>
    public sealed record Share(double Value) : TableCell;

    /// <summary>A lower and an upper bound; finite and in order.</summary>
    public sealed record Interval(double Low, double High) : TableCell;

    /// <summary>Nothing, and why in a few words.</summary>
    public sealed record Missing(string Reason) : TableCell;
}

/// <summary>A result's estimates, one row an estimate. Immutable.</summary>
public sealed class ResultTable
{
    /// <summary>Makes a table.</summary>
    /// <exception cref="ArgumentException">A row has another number of cells than there are columns, or a cell does not fit its column.</exception>
    public ResultTable(string title, IReadOnlyList<TableColumn> columns, IReadOnlyList<IReadOnlyList<TableCell>> rows)
    {
        ArgumentNullException.ThrowIfNull(columns);
        ArgumentNullException.ThrowIfNull(rows);
        Title = title;
        Columns = [.. columns];
        Rows = [.. rows];
        foreach (var row in Rows)
        {
            if (row.Count != Columns.Count)
                throw new ArgumentException($"A row of '{title}' has {row.Count} cells for {Columns.Count} columns.", nameof(rows));
            for (var c = 0; c < row.Count; c++)
            {
                if (!Fits(Columns[c].Kind, row[c]))
                    throw new ArgumentException($"{row[c]} does not fit the column '{Columns[c].Name}' of '{title}', which holds {Columns[c].Kind}.", nameof(rows));
            }
        }
    }

    /// <summary>What the rows are, in a few words.</summary>
    public string Title { get; }

    /// <summary>The columns.</summary>
    public IReadOnlyList<TableColumn> Columns { get; }

    /// <summary>The rows; each has one cell a column.</summary>
    public IReadOnlyList<IReadOnlyList<TableCell>> Rows { get; }

    /// <summary>The table as a DataFrame with every digit; what is missing is null.</summary>
    public DataFrame ToDataFrame()
    {
        var columns = new List<DataFrameColumn>();
        for (var c = 0; c < Columns.Count; c++)
        {
            var cells = Rows.Select(row => row[c]).ToArray();
            switch (Columns[c].Kind)
            {
                case ColumnKind.Text:
                    columns.Add(new StringDataFrameColumn(Columns[c].Name, cells.Select(cell => (cell as TableCell.Text)?.Value)));
                    break;
                case ColumnKind.Count:
                    columns.Add(new Int32DataFrameColumn(Columns[c].Name, cells.Select(cell => (cell as TableCell.Count)?.Value)));
                    break;
                case ColumnKind.Number:
                    columns.Add(new DoubleDataFrameColumn(Columns[c].Name, cells.Select(cell => (cell as TableCell.Number)?.Value)));
                    break;
                case ColumnKind.Share or ColumnKind.Probability:
                    columns.Add(new DoubleDataFrameColumn(Columns[c].Name, cells.Select(cell => (cell as TableCell.Share)?.Value)));
                    break;
                case ColumnKind.Interval:
                    var (low, high) = Columns[c].Name == "interval" ? ("low", "high") : ($"{Columns[c].Name}_low", $"{Columns[c].Name}_high");
                    columns.Add(new DoubleDataFrameColumn(low, cells.Select(cell => (cell as TableCell.Interval)?.Low)));
                    columns.Add(new DoubleDataFrameColumn(high, cells.Select(cell => (cell as TableCell.Interval)?.High)));
                    break;
                default:
                    throw new InvalidOperationException($"Unknown kind of column {Columns[c].Kind}.");
            }
        }

        return new DataFrame(columns);
    }

    private static bool Fits(ColumnKind kind, TableCell cell) => (kind, cell) switch
    {
        (_, TableCell.Missing) => true,
        (ColumnKind.Text, TableCell.Text) => true,
        (ColumnKind.Count, TableCell.Count) => true,
        (ColumnKind.Number, TableCell.Number number) => double.IsFinite(number.Value),
        (ColumnKind.Share or ColumnKind.Probability, TableCell.Share share) => share.Value is >= 0 and <= 1,
        (ColumnKind.Interval, TableCell.Interval interval) =>
            double.IsFinite(interval.Low) && double.IsFinite(interval.High) && interval.Low <= interval.High,
        _ => false,
    };
}
