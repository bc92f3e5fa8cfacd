using System.Globalization;

namespace TastingKit.Statistics;

/// <summary>A covariate: one finite number a row.</summary>
public sealed class NumericColumn : Column
{
    private readonly double[] _values;

    /// <summary>Copies the values, so that a later change of the caller's array changes nothing here.</summary>
    /// <param name="name">The covariate's name.</param>
    /// <param name="values">One number a row, in the covariate's own unit.</param>
    /// <exception cref="ArgumentException">The name is blank, or a value is NaN or infinite (the message gives the row).</exception>
    public NumericColumn(string name, ReadOnlyMemory<double> values) : base(name, values.Length)
    {
        RequireFinite(name, values.Span);
        _values = values.ToArray();
        double sum = 0;
        foreach (double value in _values) sum += value;
        Mean = _values.Length == 0 ? 0 : sum / _values.Length;
    }

    /// <summary>The numbers, one a row.</summary>
    public ReadOnlySpan<double> Values => _values;

    /// <summary>Mean over the rows, unweighted; 0 for an empty column.</summary>
    public double Mean { get; }

    internal double[] Array => _values;

    internal static void RequireFinite(string name, ReadOnlySpan<double> values)
    {
        for (int row = 0; row < values.Length; row++)
        {
            if (!double.IsFinite(values[row]))
                throw new ArgumentException(string.Create(CultureInfo.InvariantCulture,
                    $"Column '{name}' holds {values[row]} in row {row} (counted from 0); a finite number is needed. Leave rows with a missing value out before building the column."), nameof(values));
        }
    }
}
