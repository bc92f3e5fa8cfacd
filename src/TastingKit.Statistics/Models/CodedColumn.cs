namespace TastingKit.Statistics;

/// <summary>A column as numbers: a covariate as it is or squared, a factor by contrasts or by one indicator a level, a curve by its functions.</summary>
internal sealed class CodedColumn(Column column, bool contrasts, bool square)
{
    public Column Column { get; } = column;

    /// <summary>The level that the first indicator stands for: 1 under treatment contrasts, 0 under one indicator a level.</summary>
    public int FirstLevel { get; } = column is CategoricalColumn && contrasts ? 1 : 0;

    public int Width { get; } = column switch
    {
        CategoricalColumn factor => factor.Levels.Count - (contrasts ? 1 : 0),
        CovariateBasis basis => basis.Width,
        _ => 1,
    };

    public string ColumnName(int index) => Column switch
    {
        CategoricalColumn factor => factor.Name + factor.Levels[index + FirstLevel],
        CovariateBasis basis => basis.FunctionName(index),
        _ => square ? Column.Name + "^2" : Column.Name,
    };

    /// <summary>Multiplies each row by the column's number of one index.</summary>
    public void MultiplyInto(double[] values, int index)
    {
        switch (Column)
        {
            case NumericColumn numeric:
                for (int row = 0; row < values.Length; row++) values[row] *= AtValue(numeric.Array[row]);
                break;
            case CategoricalColumn factor:
                for (int row = 0; row < values.Length; row++)
                {
                    if (factor.CodeArray[row] != index + FirstLevel) values[row] = 0;
                }

                break;
            case CovariateBasis basis:
                var functions = new double[basis.Width];
                for (int row = 0; row < values.Length; row++)
                {
                    basis.Evaluate(basis.Covariate.Array[row], functions);
                    values[row] *= functions[index];
                }

                break;
        }
    }

    /// <summary>A covariate's number at a value.</summary>
    public double AtValue(double value) => square ? value * value : value;
}
