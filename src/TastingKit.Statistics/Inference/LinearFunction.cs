namespace TastingKit.Statistics;

/// <summary>
/// A weighted sum of a fit's fixed coefficients and random effects: the one language in which anything is asked of a fit.
/// Immutable; functions of one fit can be added, subtracted and multiplied by numbers.
/// </summary>
public sealed class LinearFunction
{
    private readonly int[] _indices;
    private readonly double[] _weights;

    internal LinearFunction(int[] indices, double[] weights)
    {
        _indices = indices;
        _weights = weights;
    }

    /// <summary>The function that is always zero.</summary>
    public static LinearFunction Zero { get; } = new([], []);

    // Fixed coefficients by their column in the design, then random effects by the fit's numbering behind them.
    internal ReadOnlySpan<int> Indices => _indices;

    internal ReadOnlySpan<double> Weights => _weights;

    /// <summary>The sum of two functions.</summary>
    public static LinearFunction operator +(LinearFunction left, LinearFunction right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return Combine(left, right, 1);
    }

    /// <summary>The difference of two functions.</summary>
    public static LinearFunction operator -(LinearFunction left, LinearFunction right)
    {
        ArgumentNullException.ThrowIfNull(left);
        ArgumentNullException.ThrowIfNull(right);
        return Combine(left, right, -1);
    }

    /// <summary>A function multiplied by a number.</summary>
    public static LinearFunction operator *(LinearFunction function, double factor)
    {
        ArgumentNullException.ThrowIfNull(function);
        return new LinearFunction(function._indices, Array.ConvertAll(function._weights, weight => weight * factor));
    }

    /// <summary>A number times a function.</summary>
    public static LinearFunction operator *(double factor, LinearFunction function) => function * factor;

    /// <summary>The sum of two functions.</summary>
    public static LinearFunction Add(LinearFunction left, LinearFunction right) => left + right;

    /// <summary>The difference of two functions.</summary>
    public static LinearFunction Subtract(LinearFunction left, LinearFunction right) => left - right;

    /// <summary>A function multiplied by a number.</summary>
    public static LinearFunction Multiply(LinearFunction left, double right) => left * right;

    /// <summary>The mean of functions, each counted once.</summary>
    /// <param name="functions">At least one function.</param>
    /// <exception cref="ArgumentException">There are none.</exception>
    public static LinearFunction Mean(IEnumerable<LinearFunction> functions)
    {
        ArgumentNullException.ThrowIfNull(functions);
        var weights = new SortedDictionary<int, double>();
        int count = 0;
        foreach (LinearFunction function in functions)
        {
            count++;
            for (int i = 0; i < function._indices.Length; i++)
            {
                weights.TryGetValue(function._indices[i], out double sum);
                weights[function._indices[i]] = sum + function._weights[i];
            }
        }

        if (count == 0) throw new ArgumentException("A mean needs at least one function.", nameof(functions));
        return new LinearFunction([.. weights.Keys], [.. weights.Values.Select(weight => weight / count)]);
    }

    private static LinearFunction Combine(LinearFunction left, LinearFunction right, double sign)
    {
        var indices = new List<int>(left._indices.Length + right._indices.Length);
        var weights = new List<double>(indices.Capacity);
        int i = 0, j = 0;
        while (i < left._indices.Length || j < right._indices.Length)
        {
            int a = i < left._indices.Length ? left._indices[i] : int.MaxValue;
            int b = j < right._indices.Length ? right._indices[j] : int.MaxValue;
            double weight = 0;
            if (a <= b) weight += left._weights[i++];
            if (b <= a) weight += sign * right._weights[j++];
            if (weight == 0) continue;
            indices.Add(Math.Min(a, b));
            weights.Add(weight);
        }

        return new LinearFunction([.. indices], [.. weights]);
    }
}
